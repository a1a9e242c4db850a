"""The letter by e-mail that a pack goes out with: to whom, and what it says of the days to keep."""

import re
from dataclasses import dataclass

from domain.dates import written
from domain.duties.duty import DutyKind
from domain.duties.of_job import owing_for
from domain.job.job import Job
from domain.words import on_one_line

_ADDRESS = re.compile(r"[^\s@<>()\[\],;:\"\\]+@[^\s@<>()\[\],;:\"\\]+\.[A-Za-z]{2,}")
_COPIES = frozenset({DutyKind.COPY, DutyKind.RENTED})


@dataclass(frozen=True, slots=True)
class MailDraft:
    """A letter not sent yet."""

    sender: str
    """An address of e-mail; "" where the firm has told none, as with those it goes to."""
    to: tuple[str, ...]
    subject: str
    text: str


def mail_draft(job: Job) -> MailDraft:
    """To the client where an address of theirs is known; who else is owed a copy, and by when, stands in the text."""
    client, firm = _addresses(job.client.contact), _addresses(job.firm.contact)
    premises = on_one_line(job.premises.address) or on_one_line(job.client.address)
    lines = [
        f"To {job.client.name}",
        "",
        f"Attached: {job.profile.title} {job.number}, {premises}.",
        "The PDF is the document. Keep it as it is: saved again by another program it can no longer be proved.",
        *_owed(job),
        "",
        job.firm.name,
        job.firm.contact,
    ]
    return MailDraft(firm[0] if firm else "", client, f"{job.profile.title} {job.number}, {premises}", "\n".join(lines))


def _owed(job: Job) -> list[str]:
    owing = owing_for(job)
    rows = [
        f"- {each.duty.who}: {each.duty.what}{f' By {written(each.due.by)}.' if each.due else ''}"
        for each in owing.owed
        if each.duty.kind in _COPIES and each.duty.who != "you"
    ]
    return ["", "What others are owed, and by whom, as far as the answers given go:", *rows] if rows else []


def _addresses(contact: str) -> tuple[str, ...]:
    return tuple(found for found in _ADDRESS.findall(contact) if found.isascii())
