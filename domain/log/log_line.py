"""The log's line for a job, and the words the log finds it by; both computed from the job."""

import re
from collections.abc import Iterator, Sequence
from datetime import datetime
from functools import lru_cache
from typing import NamedTuple

from domain.civil_time import civil_day
from domain.gate.assessment import assess, unsigned_roles
from domain.gate.outcome import Outcome
from domain.gate.report_outcome import is_undecided, outcome_of
from domain.job.box import boxes_of, typed_in
from domain.job.job import Job
from domain.job.next_due import done_on, next_due
from domain.log.job_log import JobLine, State
from domain.log.times import words_of_days
from domain.register.entries import Person
from domain.words import WORD_MAX, joined, on_one_line, telephone, words_of

_TELEPHONE = re.compile(r"\+?[0-9][0-9 ()\-.]{4,}[0-9]")
_LOCAL = 6
"""Figures of a number without the code of its place, as most have them."""


class Findable(NamedTuple):
    """The words a job is found by, each set once: its client, its place, all else, who tested and signed, and when.

    The people are among all else too: nobody should need to know a filter to find a name that stands on a paper.
    """

    client: tuple[str, ...]
    place: tuple[str, ...]
    other: tuple[str, ...]
    engineer: tuple[str, ...] = ()
    when: tuple[str, ...] = ()
    """Its days: of the work, of the issue; of a draft without either, when it was touched last."""


def line_of(
    job: Job, *, updated: datetime, replaced: bool = False, put_right: bool = False, people: Sequence[Person] = ()
) -> JobLine:
    """One line of the log. A draft that nothing holds back is ready; `people` are those of the register among its signers."""
    if job.issued:
        state, outcome = State.REPLACED if replaced else State.ISSUED, outcome_of(job)
    else:
        state, outcome = _as_draft(job, people)
    return JobLine(
        number=job.number,
        client=on_one_line(job.client.name),
        premises=on_one_line(f"{job.premises.address}\n{job.premises.postcode}"),
        form_set=job.form_set,
        state=state,
        outcome=outcome,
        open_snags=len(job.open_snags),
        updated=updated,
        due=next_due(job) if state is State.ISSUED else None,
        put_right=put_right,
        day=done_on(job),
        laid_aside=job.laid_aside,
    )


def _as_draft(job: Job, people: Sequence[Person]) -> tuple[State, Outcome | None]:
    # While a job is being typed it is unsigned, and its line needs none of the checks. A draft may be known to
    # be unsatisfactory; satisfactory it is only once nothing is left open.
    if job.chosen.seen:
        return State.DRAFT, outcome_of(job)
    if unsigned_roles(job) or not assess(job, people).may_issue:
        bad = outcome_of(job) is Outcome.UNSATISFACTORY and not is_undecided(job)
        return State.DRAFT, Outcome.UNSATISFACTORY if bad else None
    return State.READY, outcome_of(job)


def findable(job: Job, *, updated: datetime) -> Findable:
    """Client, place, number, firm, the description of the work or report, what the circuits feed, and the days."""
    premises = f"{job.premises.address}\n{job.premises.postcode}"
    place = (*words_of(premises), joined(job.premises.postcode))
    texts = [job.number, job.firm.name, job.client.address, job.client.postcode, job.client.contact]
    texts.append(job.client.reference)
    texts += [job.premises.occupier, job.replaces, job.chosen.visit]
    if seen := job.chosen.seen:
        texts += [seen.firm, seen.number, "seen elsewhere"]
    texts += [typed_in(part, name) for part in (job.work, job.report) for name in boxes_of(type(part))]
    texts += [f"{board.designation} {board.location}" for board in job.boards]
    circuits = [
        _words_in(tuple([each.description for each in board.circuits if not each.is_spare])) for board in job.boards
    ]
    other = [word for text in texts for word in words_of(text)]
    other += [word for words, _ in circuits for word in words]
    other += [
        joined(job.number),
        joined(job.client.postcode),
        joined(job.replaces),
        *map(joined, job.chosen.visit.split(", ")),
    ]
    other += [word for text in texts for word in _written_together(text)]
    other += [word for _, together in circuits for word in together]
    other += _telephones(job.client.contact)
    other += [job.form_set.value.casefold(), *words_of(job.profile.short_name)]
    names = [signature.name for signature in job.signatures] + [board.tested_by for board in job.boards]
    engineers = [word for name in names for word in words_of(name)]
    other += engineers
    days = [done_on(job), civil_day(job.issued.at) if job.issued else None]
    return Findable(
        _each_once(words_of(job.client.name)),
        _each_once(place),
        _each_once(other),
        _each_once(engineers),
        words_of_days(days if any(days) else [civil_day(updated)]),
    )


@lru_cache(maxsize=256)
def _words_in(texts: tuple[str, ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The words of some texts, and what of them is one word written together: those of a board, of which an edit changes one."""
    words = [word for text in texts for word in words_of(text)]
    return _each_once(words), _each_once([word for text in texts for word in _written_together(text)])


def _written_together(text: str) -> Iterator[str]:
    """References such as PO-4471/B, as one word."""
    for part in text.split():
        words = words_of(part)
        if len(words) > 1 and any(letter.isdecimal() for letter in part):
            yield "".join(words)[:WORD_MAX]


def _telephones(text: str) -> Iterator[str]:
    """Each telephone number with and without the code of its place."""
    for number in _TELEPHONE.findall(text):
        if figures := telephone(number):
            yield figures
            yield figures[-_LOCAL:]


def _each_once(words: tuple[str, ...] | list[str]) -> tuple[str, ...]:
    return tuple(word for word in dict.fromkeys(words) if word)
