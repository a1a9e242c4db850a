"""What people note about a job's duties beside the job: facts learnt later, and what has been done."""

from collections.abc import Iterable, Mapping
from datetime import date

from pydantic import ValidationError

from domain.choice.answers import Answers
from domain.value import Line, Value

TOPIC = "duties"
"""Under which the log keeps the notes."""


class Note(Value):
    """One note. An issued job cannot be changed, but a tenant may move in years after it."""

    number: Line
    answers: Answers = Answers()
    """Facts learnt; what is None says nothing."""
    met: Line = ""
    """The duty that has been done."""
    by: date | None = None
    """The day it was due; the same duty due on another day is open again."""


class Notes(Value):
    """All that is noted of one job."""

    answers: Answers = Answers()
    met: frozenset[tuple[str, date]] = frozenset()


def noted(texts: Iterable[str]) -> Mapping[str, Notes]:
    """Notes by the number of their job; a later fact replaces an earlier one."""
    found: dict[str, Notes] = {}
    for text in texts:
        try:
            note = Note.model_validate_json(text)
        except ValidationError:
            continue
        before = found.get(note.number, Notes())
        met = before.met | {(note.met, note.by)} if note.met and note.by else before.met
        found[note.number] = Notes(answers=with_facts(before.answers, note.answers), met=met)
    return found


def with_facts(answers: Answers, more: Answers) -> Answers:
    """The answers with what is known of the others in their place."""
    return answers.model_copy(update={name: given for name, given in more if given is not None})
