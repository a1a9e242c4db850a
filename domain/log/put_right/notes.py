"""What is noted of each observation of a report after it was issued. The report itself never changes."""

from collections.abc import Iterable, Mapping
from datetime import date
from enum import StrEnum

from pydantic import ValidationError

from domain.value import Line, Prose, Value


class How(StrEnum):
    """In which way an observation is put right."""

    CERTIFICATE = "certificate of this log"
    PAPER = "paper of another firm"
    NO_CERTIFICATE = "work that needs no certificate"
    NOTHING_WRONG = "nothing wrong found"
    OPEN = "open again"


class RemedyNote(Value):
    """One thing said of one observation; what is said later holds."""

    observation: Line
    how: How
    number: Line = ""
    """Of the job or of the other firm's paper."""
    firm: Line = ""
    on: date | None = None
    """The day of the paper, or of the finding."""
    says: Prose = ""
    """What was found, where nothing was wrong; what was done, where the work needs no certificate."""
    because: Prose = ""
    """Why none is needed, in the words of the decision on papers."""
    by: Line = ""


_TOPIC = "put right "


def topic_of(report: str) -> str:
    """Under which the log keeps the notes of a report."""
    return f"{_TOPIC}{report}"


def report_of(topic: str) -> str:
    """The report whose notes stand under it; "" where it is another topic."""
    return topic.removeprefix(_TOPIC) if topic.startswith(_TOPIC) else ""


def topic_of_remedy(job: str) -> str:
    """Under which the log keeps which reports a job puts right."""
    return f"puts right {job}"


def noted(texts: Iterable[str]) -> Mapping[str, RemedyNote]:
    """The note that holds of each observation; what cannot be read says nothing."""
    found: dict[str, RemedyNote] = {}
    for text in texts:
        try:
            note = RemedyNote.model_validate_json(text)
        except ValidationError:
            continue
        found[note.observation] = note
    return {each: note for each, note in found.items() if note.how is not How.OPEN}
