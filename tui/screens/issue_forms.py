"""The questions that signing, issuing and correcting put."""

import re
from collections.abc import Sequence
from pathlib import Path

from domain.gate.assessment import Pack, Refusal
from domain.job.job import Job
from domain.job.signature import Role
from domain.register.entries import Person
from tui.screens.dialogs import ConfirmScreen, FormScreen, LineScreen
from tui.screens.issue_text import declaration
from tui.widgets.entry_lines import AskedLine


def signing_form(job: Job, role: Role, name: str) -> FormScreen:
    """Asks who signs for one part; `name` is put forward where nobody has signed yet."""
    return _named(job, f"Sign for {role}", declaration(job, role), name)


def signing_all_form(job: Job, name: str) -> FormScreen:
    """Asks who signs for every part."""
    about = f"Only where one person answers for {_listed(job.roles)}.\n{_declared_once(job)}"
    return _named(job, "One person signs for every part", about, name)


def confirm_all(job: Job, name: str) -> ConfirmScreen:
    """Asks whether one person really signs for every part."""
    about = "These are separate declarations; each is recorded as signed by that person."
    return ConfirmScreen(f"{name} signs for {_listed(job.roles)}?", about)


def phrase_line(name: str) -> LineScreen:
    """Asks whoever set a signing phrase for it, without showing what is typed."""
    about = "A signature is somebody's own act. After three wrong ones there is a pause."
    return LineScreen(f"Signing phrase of {name}", "", about, secret=True)


def draft_line(folder: Path) -> LineScreen:
    """Asks for the folder of a draft."""
    about = "DRAFT stands on every page. A draft is no certificate and no report."
    return LineScreen("Folder for the draft", str(folder), about)


def issue_line(pack: Pack, job: Job, folder: Path) -> LineScreen:
    """Asks for the folder of the pack, and says what issuing means."""
    about = (
        f"{job.profile.title} {job.number}: {pack.outcome}. Once issued it is never changed; a"
        " correction is a new document. Enter issues it, Esc leaves it."
    )
    return LineScreen("Folder for the pack", str(folder), about)


def earlier_question(refusal: Refusal) -> ConfirmScreen:
    """Asks whether a paper is to be dated before the one issued last."""
    return ConfirmScreen("Issue it with a day before that of the last paper?", f"{refusal.reasons[0].says}.")


def who_issues_line(job: Job, people: Sequence[Person]) -> LineScreen:
    """Asks for the name that papers say they were issued by; `people` of the register signed this one."""
    last = job.signatures[-1].name if job.signatures else ""
    named = ", ".join(each.name for each in people) or "nobody"
    about = f"It stands on the paper, and is asked once. Signed by people of the register: {named}."
    return LineScreen("Who issues this paper?", last, about)


def pack_again_line(folder: Path) -> LineScreen:
    """Asks for the folder of a pack that was issued before."""
    return LineScreen("Folder for the pack", str(folder), "The same files as were issued.")


def mail_line(folder: Path) -> LineScreen:
    """Asks for the folder that a pack is sent from."""
    about = (
        "A letter in a file (.eml) beside the pack, which is put there where it is not yet; any mail program opens it."
    )
    return LineScreen("Folder of the pack", str(folder), about)


def verify_line(kept: str) -> LineScreen:
    """Asks for a file to compare with the log; `kept` is the log's own copy."""
    about = "Any pack, whatever its name: it is compared with the log. First is the log's own copy of this paper."
    return LineScreen("File to verify", kept, about)


def correction_line(number: str) -> LineScreen:
    """Asks why a paper is to be replaced, before its correction is begun."""
    about = (
        "A correction starts with all that was issued, readings too; it gets a number of its own and is signed anew."
        " This paper stays in the log. The reason is printed on the new one."
    )
    return LineScreen(f"Why is {number} to be replaced?", "", about)


def why_line(job: Job) -> LineScreen:
    """Asks in other words why the earlier paper is replaced."""
    return LineScreen(f"Why is {job.replaces} to be replaced?", job.replaces_because)


def _named(job: Job, question: str, about: str, name: str) -> FormScreen:
    before = job.signatures[-1] if job.signatures else None
    lines = (
        AskedLine("name", "Name", before.name if before else name, must=True),
        AskedLine("position", "Position", before.position if before else ""),
    )
    return FormScreen(question, lines, about)


def _declared_once(job: Job) -> str:
    """Every declaration; a sentence that several share stands in the first of them, so that all fit one screen."""
    told: dict[str, None] = {}
    parts: list[str] = []
    for role in job.roles:
        sentences = [each for each in re.split(r"(?<=\.) (?=[A-Z])", declaration(job, role)) if each not in told]
        told.update(dict.fromkeys(sentences))
        parts.append(" ".join(sentences))
    return "\n".join(part for part in parts if part)


def _listed(roles: tuple[Role, ...]) -> str:
    return f"{', '.join(roles[:-1])} and {roles[-1]}"
