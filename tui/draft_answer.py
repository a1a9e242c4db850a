"""What was being typed into a question when the line dropped; kept in the log, and put back when it is asked again."""

from collections.abc import Mapping
from typing import NamedTuple

from pydantic import ValidationError

from domain.log.job_log import JobLogError
from domain.value import Value
from tui.services import Services

TOPIC = "unfinished"


class Asked(NamedTuple):
    """What tells one question from another: the job it is about, its words, and what stood in its lines at first."""

    number: str
    question: str
    lines: Mapping[str, str]


class Left(Value):
    """A question left open, with what was typed into it."""

    number: str = ""
    question: str = ""
    lines: Mapping[str, str] = {}
    typed: Mapping[str, str] = {}


class Unfinished:
    """The one question of a person that a dropped line left open."""

    def __init__(self, desk: Services) -> None:
        self._desk = desk

    @property
    def left(self) -> Left:
        """What was left open last; empty when nothing was, or it was finished since."""
        try:
            kept = self._desk.log.notes(TOPIC, who=self._desk.who)
            return Left.model_validate_json(kept[-1].text) if kept and kept[-1].text else Left()
        except (JobLogError, ValidationError):
            return Left()

    def keep(self, asked: Asked, typed: Mapping[str, str]) -> None:
        """Keep what is typed, as the line goes."""
        self._jot(Left(**asked._asdict(), typed=typed).model_dump_json())

    def typed_in(self, asked: Asked) -> Mapping[str, str]:
        """What was typed into this question before the line dropped; empty where it was another."""
        left = self.left
        return left.typed if (left.number, left.question, left.lines) == asked else {}

    def finish(self) -> None:
        """The question has been answered, or let be."""
        self._jot("")

    def _jot(self, text: str) -> None:
        try:
            self._desk.log.add_note(TOPIC, text, who=self._desk.who, at=self._desk.now())
        except JobLogError:
            return
