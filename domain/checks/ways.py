"""The circuits of a job as the checks walk them, and which of them feed another board."""

import re
from collections.abc import Iterator
from typing import NamedTuple

from domain.board import Board
from domain.checks.feeders import feeds_of
from domain.circuit import Circuit
from domain.job import Job
from domain.place import Place

_SAYS_DISTRIBUTION = re.compile(r"\s*(?:sub-?\s?main|distribution (?:circuit|board))", re.IGNORECASE)
_NOTHING = {"n/a", "na", "none"}


class Way(NamedTuple):
    """A circuit in use, with its board."""

    board: Board
    circuit: Circuit
    feeds_a_board: bool

    def at(self, box: str) -> Place:
        """The place of one of its boxes."""
        return Place(section="boards", board=self.board.id, circuit=self.circuit.id, box=box)


def ways_in_use(job: Job) -> Iterator[Way]:
    """Every circuit but the spare ways, in schedule order."""
    feeding = {feed.way.id for feed in feeds_of(job).values() if feed.way}
    for board in job.boards:
        for circuit in board.circuits:
            if not circuit.is_spare:
                yield Way(board, circuit, circuit.id in feeding or bool(_SAYS_DISTRIBUTION.match(circuit.description)))


def board_place(board: Board, box: str) -> Place:
    """The place of a box in a board's header."""
    return Place(section="boards", board=board.id, box=box)


def is_at_origin(job: Job, board: Board) -> bool:
    """The board is fed by the supply itself."""
    if len(job.boards) == 1 or "origin" in board.supplied_from.casefold():
        return True
    return board.device_standard.strip().casefold() in _NOTHING
