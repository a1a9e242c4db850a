"""What was being typed when a program ended before anybody kept it: an entry, and never a value of the job."""

from collections.abc import Mapping
from typing import Protocol

from domain.place import Place
from domain.value import Value


class HalfTyped(Value):
    """An entry left open: in a box of a job, or in the lines of a question."""

    number: str = ""
    """The job it is about; "" where it is none."""
    place: Place | None = None
    """The box; None where it is a question."""
    question: str = ""
    """The words of the question."""
    stood: Mapping[str, str] = {}
    """What stood in each line before; in a box, under the box's name."""
    typed: Mapping[str, str] = {}
    """What stands there now."""
    cursor: int = 0
    fresh: bool = False
    """Begun by typing over the box."""
    stepped: bool = False
    """An offer that was stepped to."""
    led_by: str = ""
    """What was typed before that."""


class HalfTypedEntries(Protocol):
    """Keeps the one open entry of a running program, and finds those of programs that have ended.

    Nothing here raises: a disk that is full must not stop anybody's typing.
    """

    def keep(self, entry: HalfTyped) -> None:
        """This is the open entry now; kept through the end of the program without warning, on every key."""
        ...

    def settle(self) -> None:
        """Have it on the disk, through a loss of power too."""
        ...

    def finish(self) -> None:
        """It was kept as a value or dropped; nothing is open."""
        ...

    def left(self) -> tuple[HalfTyped, ...]:
        """What this person's ended programs left open, the latest first."""
        ...

    def forget(self, entry: HalfTyped) -> None:
        """One of those was taken up, or has nowhere to stand any more."""
        ...

    def close(self) -> None:
        """The program ends; what is open now stays."""
        ...
