"""What puts forward what is usual: into a board that has no circuit yet, and into a circuit by its kind."""

from collections.abc import Mapping
from typing import Literal

from domain.job.board import Board
from domain.place import Place
from domain.value import Line, Value


class FillBoard(Value):
    """Fill a board that has no circuit yet with what is usual of such a board, put forward; without a board a new one."""

    do: Literal["fill-board"] = "fill-board"
    board: str = ""
    known_from: Line = ""
    """The name of the board that comes filled."""
    usual: Board


class FillCircuit(Value):
    """Give a circuit the usual details of its kind, put forward; number, points, length and readings stay."""

    do: Literal["fill-circuit"] = "fill-circuit"
    board: str
    circuit: str
    usual: Mapping[str, Line]
    """Details by box."""

    @property
    def place(self) -> Place:
        """The circuit."""
        return Place(section="boards", board=self.board, circuit=self.circuit)
