"""The circuits of a job as the checks walk them, and which of them feed another board."""

import re
from collections.abc import Iterator
from typing import NamedTuple

from domain.board import Board
from domain.circuit import Circuit
from domain.job import Job
from domain.place import Place

_WORDS = re.compile(r"[^\W_]+")
_BETWEEN = {"way", "circuit", "cct", "no"}
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
    feeds = _fed_from(job)
    for board, circuit in job.circuits():
        if not circuit.is_spare:
            name = (*_words(board.designation), *_words(circuit.number))
            yield Way(board, circuit, name in feeds or bool(_SAYS_DISTRIBUTION.match(circuit.description)))


def board_place(board: Board, box: str) -> Place:
    """The place of a box in a board's header."""
    return Place(section="boards", board=board.id, box=box)


def is_at_origin(job: Job, board: Board) -> bool:
    """The board is fed by the supply itself."""
    if len(job.boards) == 1 or "origin" in board.supplied_from.casefold():
        return True
    return board.device_standard.strip().casefold() in _NOTHING


def _fed_from(job: Job) -> set[tuple[str, ...]]:
    return {_words(board.supplied_from) for board in job.boards} - {()} if len(job.boards) > 1 else set()


def _words(text: str) -> tuple[str, ...]:
    return tuple(word for word in _WORDS.findall(text.casefold()) if word not in _BETWEEN)
