"""Boards that come filled: what is in them usually, ready to be put forward."""

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any

from domain.job.board import Board
from domain.job.box import BoxKind, boxes_of
from domain.job.circuit import Circuit
from domain.job.circuit_details import SPARE
from domain.usual.circuit_kinds import USUAL_BOXES, circuit_kinds, protections, with_rating
from domain.value import Value
from domain.words import capitalised

_ORIGIN = "Origin"
_OF_THE_PLACE = {"designation", "location", "vulnerable", "tested_by", "tested_on", "main_switch"}
"""Of a header, what is the place's or the day's own."""
_MEASURED = {BoxKind.READING, BoxKind.TICK, BoxKind.DATE}


class FilledBoard(Value):
    """A board that comes filled, with the name it is picked by."""

    name: str
    board: Board


@cache
def filled_boards() -> tuple[FilledBoard, ...]:
    """The program's own, as its table has them."""
    return boards_in(files("domain.usual").joinpath("boards.toml").read_text(encoding="utf-8"))


def boards_in(text: str) -> tuple[FilledBoard, ...]:
    """The boards a TOML text holds. ValueError where it names no source, KeyError for a way of no known kind."""
    data: dict[str, Any] = tomllib.loads(text)
    if not str(data.get("source", "")).strip():
        raise ValueError("boards without a source")
    return tuple(FilledBoard(name=row["name"], board=_board(row)) for row in data["board"])


def bare(board: Board) -> Board:
    """A board with nothing but what may be usual of it: no reading, no tick, no points, no length, nothing of its place."""
    header = {
        name: getattr(board, name)
        for name, box in boxes_of(Board).items()
        if box.kind not in _MEASURED and name not in _OF_THE_PLACE
    }
    circuits = tuple(
        Circuit(id=each.id, **{name: getattr(each, name) for name in USUAL_BOXES}) for each in board.circuits
    )
    return Board(circuits=circuits, **header)


def _board(row: dict[str, Any]) -> Board:
    phases = row.get("phases", "1")
    header = {"phases": phases, "rcd_type": "N/A"}
    if row.get("at_origin", True):
        header |= {"supplied_from": _ORIGIN, "device_standard": "N/A"}
    ways = [_way(name, str(at), row["protection"]) for at, name in enumerate(row["ways"], start=1)]
    return Board.model_validate({**header, "circuits": ways})


def _way(name: str, number: str, protection: str) -> dict[str, str]:
    if name == SPARE:
        return {"number": number, "description": capitalised(SPARE), "shape": SPARE}
    if not protection:
        return {"number": name}
    kind = next((each for each in circuit_kinds() if each.description == name), None)
    if kind is None:
        raise KeyError(f"no kind of circuit is called {name!r}")
    own = {box: text for box, text in kind.details.items() if not box.startswith("rcd_")}
    return {"number": number, **with_rating({**own, **_protected(kind.details, protection)})}


def _protected(details: Any, protection: str) -> dict[str, str]:
    """How a board protects its ways; the type of a device that the kind needs stays."""
    return {**protections()[protection], "device_type": details["device_type"]}
