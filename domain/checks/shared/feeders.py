"""Which board feeds which, as the boards themselves say."""

import re
from collections.abc import Mapping
from functools import lru_cache
from typing import NamedTuple

from domain.checks.shared.per_job_cache import cached_per_job_and
from domain.job.board import Board
from domain.job.circuit import Circuit
from domain.job.job import Job

_WORDS = re.compile(r"[^\W_]+")
_BETWEEN = {"way", "circuit", "cct", "no", "from", "fed", "of", "at", "on"}
_FEEDING = {
    "to",
    "for",
    "the",
    "sub",
    "main",
    "mains",
    "submain",
    "supply",
    "feed",
    "feeder",
    "feeding",
    "distribution",
    "board",
}
_ORIGIN = {"origin", "supply", "meter", "cutout", "intake", "incomer", "service", "tails"}
_LEADING_FIGURES = re.compile(r"[0-9]+")


class Feed(NamedTuple):
    """Where a board takes its supply from."""

    board: Board
    """The board that feeds it."""
    way: Circuit | None
    """The circuit of that board, where it can be told."""
    is_way_missing: bool
    """A way is named that the other board does not have."""


@cached_per_job_and
def feeds_of(job: Job) -> Mapping[str, Feed]:
    """Ids of the boards that are fed from a board of the job, each with where from."""
    if len(job.boards) == 1:
        return {}
    by_name: dict[str, Board] = {}
    for board in job.boards:
        by_name.setdefault("".join(words_of(board.designation)), board)
    found = {board.id: _feed(by_name, board) for board in job.boards if board.supplied_from}
    return {board: feed for board, feed in found.items() if feed is not None}


@lru_cache(maxsize=1024)
def words_of(text: str) -> tuple[str, ...]:
    """The words and numbers of a name, less those that only stand between."""
    return tuple(word for word in _WORDS.findall(text.casefold()) if word not in _BETWEEN)


def _feed(by_name: Mapping[str, Board], board: Board) -> Feed | None:
    """The longest name in the text is the board, `way 4 of DB 1` like `DB1 / 4`; what is left of it names the way."""
    named = words_of(board.supplied_from)
    spans = [(start, start + long) for long in range(len(named), 0, -1) for start in range(len(named) - long + 1)]
    found = next((span for span in spans if "".join(named[slice(*span)]) in by_name), None)
    if found is None or (_ORIGIN & {*named} and by_name["".join(named[slice(*found)])] is board):
        # `Origin, off-peak contactor` names the supply, and what else it says is no board, though one is called so.
        return None
    start, end = found
    other, rest = by_name["".join(named[start:end])], named[:start] + named[end:]
    way, is_missing = _way(other, rest)
    if way is None and not is_missing:
        way = _described(other, board)
    return Feed(other, way, is_missing)


def _way(board: Board, rest: tuple[str, ...]) -> tuple[Circuit | None, bool]:
    numbered = next((word for word in rest if _LEADING_FIGURES.match(word)), None)
    exact = next((each for each in board.circuits if rest and words_of(each.number) == rest), None)
    if exact or numbered is None:
        return exact, False
    figures = _figures(numbered)
    like = next((each for each in board.circuits if figures in _numbers(each)), None)
    return like, like is None and bool(board.circuits)


def _numbers(circuit: Circuit) -> set[str]:
    return {_figures(word) for word in words_of(circuit.number)} - {""}


@lru_cache(maxsize=1024)
def _figures(word: str) -> str:
    match = _LEADING_FIGURES.match(word)
    return match[0] if match else ""


def _described(board: Board, fed: Board) -> Circuit | None:
    """The circuit that is described by nothing but the name of the board it feeds."""
    name = _bare(fed.designation)
    return next((each for each in board.circuits if name and _bare(each.description) == name), None)


@lru_cache(maxsize=1024)
def _bare(text: str) -> str:
    return "".join(word for word in words_of(text) if word not in _FEEDING)
