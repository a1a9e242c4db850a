"""What people said about the last time: papers linked by hand, and circuits they matched."""

from collections.abc import Iterable, Mapping

from pydantic import ValidationError

from domain.value import Line, Value


class MatchNote(Value):
    """One thing said. The log keeps notes beside the job, so that an issued paper never changes by them."""

    earlier: Line
    """Number of the earlier paper."""
    circuit: Line = ""
    """Id of a circuit of this job; "" where the note links the paper."""
    was: Line = ""
    """Id of the circuit it was on the earlier paper; "" where it was on none."""


class MatchNotes(Value):
    """All that was said of one job; what was said later holds."""

    linked: tuple[str, ...] = ()
    confirmed: Mapping[tuple[str, str], str] = {}
    """By earlier paper and circuit of this job: the circuit it was."""

    def on(self, earlier: str) -> Mapping[str, str]:
        """The circuits matched by a person with one earlier paper."""
        return {circuit: was for (number, circuit), was in self.confirmed.items() if number == earlier}


_TOPIC = "last time "


def topic_of(number: str) -> str:
    """Under which the log keeps the notes of a job."""
    return f"{_TOPIC}{number}"


def is_topic_of_comparison(topic: str) -> bool:
    """Notes of a job stand under it."""
    return topic.startswith(_TOPIC)


def noted(texts: Iterable[str]) -> MatchNotes:
    """The notes together; what cannot be read says nothing."""
    linked: dict[str, None] = {}
    confirmed: dict[tuple[str, str], str] = {}
    for text in texts:
        try:
            note = MatchNote.model_validate_json(text)
        except ValidationError:
            continue
        if note.circuit:
            confirmed[note.earlier, note.circuit] = note.was
        else:
            linked[note.earlier] = None
    return MatchNotes(linked=tuple(linked), confirmed=confirmed)
