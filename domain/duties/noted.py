"""What people note about a job's duties beside the job: facts learnt later, and what has been done."""

from collections.abc import Iterable, Mapping
from datetime import date

from pydantic import ValidationError

from domain.civil_time import civil_day
from domain.forms.choice.answers import Answers
from domain.log_note import LogNote
from domain.value import Line, Value

TOPIC = "duties"
"""Under which the log keeps the notes."""


class DutyNote(Value):
    """One note. An issued job cannot be changed, but a tenant may move in years after it."""

    number: Line
    answers: Answers = Answers()
    """Facts learnt; what is None says nothing."""
    taken_back: tuple[Line, ...] = ()
    """Names of facts noted earlier that do not hold."""
    met: Line = ""
    """The duty that has been done."""
    by: date | None = None
    """The day it was due; the same duty due on another day is open again."""
    on: date | None = None
    """The day it was done, as the person said."""
    word: Line = ""
    """What they wanted kept of it: to whom, how, under which reference."""
    again: bool = False
    """Takes back that it has been done."""


class DutyNotes(Value):
    """All that is noted of one job."""

    answers: Answers = Answers()
    met: frozenset[tuple[str, date]] = frozenset()


class DutyDone(Value):
    """That a duty has been done: who noted it, and when and how they said it was."""

    who: Line
    on: date
    word: Line = ""


def done_in(kept: Iterable[LogNote]) -> Mapping[str, Mapping[tuple[str, date], DutyDone]]:
    """What has been done of each job's duties, by the duty and the day it was due; what was taken back is left out."""
    found: dict[str, dict[tuple[str, date], DutyDone]] = {}
    for each in kept:
        note = _read(each.text)
        if note is None or not note.met or note.by is None:
            continue
        duties = found.setdefault(note.number, {})
        if note.again:
            duties.pop((note.met, note.by), None)
        else:
            duties[note.met, note.by] = DutyDone(who=each.who, on=note.on or civil_day(each.at), word=note.word)
    return found


def noted(texts: Iterable[str]) -> Mapping[str, DutyNotes]:
    """Notes by the number of their job; a later fact replaces an earlier one."""
    found: dict[str, DutyNotes] = {}
    for text in texts:
        note = _read(text)
        if note is None:
            continue
        before = found.get(note.number, DutyNotes())
        met = before.met
        if note.met and note.by:
            met = met - {(note.met, note.by)} if note.again else met | {(note.met, note.by)}
        standing = before.answers.model_copy(update={name: None for name in note.taken_back if name in _FACTS})
        found[note.number] = DutyNotes(answers=with_facts(standing, note.answers), met=met)
    return found


_FACTS = frozenset(Answers.model_fields)


def _read(text: str) -> DutyNote | None:
    try:
        return DutyNote.model_validate_json(text)
    except ValidationError:
        return None


def with_facts(answers: Answers, more: Answers) -> Answers:
    """The answers with what is known of the others in their place."""
    return answers.model_copy(update={name: given for name, given in more if given is not None})
