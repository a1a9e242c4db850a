"""Kinds of circuit, found by a letter or two, each with its usual cable and device."""

import tomllib
from collections.abc import Iterable, Mapping
from functools import cache
from importlib.resources import files
from typing import Any

from domain.job.board import Board
from domain.job.box import typed_in
from domain.job.circuit import DETAIL_BOXES, Circuit
from domain.value import Value, is_blank
from domain.words import words_of

RCBO = "rcbo"
COUNTED = frozenset({"points", "length"})
"""What has to be counted or measured on each circuit, and is easily left wrong."""
_OF_THE_PLACE = frozenset(
    {
        "zs_permitted",
        "runs",
        "open_pen",
        "design_current",
        "diversity",
        "grouped",
        "ambient",
        "in_insulation",
        "terminals",
    }
)
"""What the design of one installation came to, or where its cables run."""
USUAL_BOXES = tuple(name for name in DETAIL_BOXES if name not in COUNTED | _OF_THE_PLACE)
"""What may be usual of a circuit; its number goes with the board alone."""
_PROTECTED_BY = ("device_standard", "breaking_capacity", "rcd_standard", "rcd_type", "rcd_idn", "rcd_rating")
"""What the ways of one board have in common."""


class CircuitKind(Value):
    """A kind of circuit: its usual details, by box, and what else it is called."""

    details: Mapping[str, str]
    also: str = ""

    @property
    def description(self) -> str:
        """What it feeds."""
        return self.details["description"]

    @property
    def told(self) -> str:
        """On one line: what it feeds, its shape, its conductors and its device."""
        of = self.details
        size = "/".join(filter(None, (of.get("live_csa", ""), of.get("cpc_csa", ""))))
        device = " ".join(filter(None, (of.get("device_type", ""), of.get("rating", ""))))
        parts = (of["description"], of.get("shape", ""), f"{size} mm²" if size else "", f"{device} A" if device else "")
        return ", ".join(filter(None, parts))


@cache
def circuit_kinds() -> tuple[CircuitKind, ...]:
    """The program's own, as its table has them, behind an RCBO each."""
    return kinds_in(files("domain.usual").joinpath("circuits.toml").read_text(encoding="utf-8"))


@cache
def protections() -> Mapping[str, Mapping[str, str]]:
    """How the ways of a board are protected, by name."""
    return tomllib.loads(files("domain.usual").joinpath("circuits.toml").read_text(encoding="utf-8"))["protection"]


def kinds_in(text: str) -> tuple[CircuitKind, ...]:
    """The kinds a TOML text holds. ValueError where it names no source, a kind twice, or a box that is never usual."""
    data: dict[str, Any] = tomllib.loads(text)
    if not str(data.get("source", "")).strip():
        raise ValueError("kinds of circuit without a source")
    rows = [dict(row) for row in data["kind"]]
    names = [row["description"] for row in rows]
    if len(set(names)) < len(names):
        raise ValueError("a kind of circuit is there twice")
    shared = {**data["every"], **data["protection"][RCBO]}
    kinds = tuple(CircuitKind(also=row.pop("also", ""), details=with_rating({**shared, **row})) for row in rows)
    if unknown := {box for kind in kinds for box in kind.details} - set(USUAL_BOXES):
        raise ValueError(f"{min(unknown)} is never usual of a circuit")
    return kinds


def kind_of(circuit: Circuit) -> CircuitKind:
    """A circuit of somebody's board as a kind of its own."""
    texts = {name: typed_in(circuit, name) for name in USUAL_BOXES if name != "number"}
    return CircuitKind(details={name: text for name, text in texts.items() if text.strip()})


def kinds_begun(letters: str, board: Board | None, own: Iterable[Board] = ()) -> tuple[CircuitKind, ...]:
    """The kinds that letters may mean, protected as the board's other ways are: the firm's `own` first, then the program's.

    Each word typed begins a word of the kind; those whose description begins with the first stand before the others.
    """
    words = words_of(letters)
    if not words:
        return ()
    of_firm = {
        each.description.strip().casefold(): kind_of(each)
        for one in own
        for each in one.circuits
        if not each.is_spare and not is_blank(each.description)
    }
    of_program = [
        protected_as_on(board, kind) for kind in circuit_kinds() if kind.description.casefold() not in of_firm
    ]
    found = [kind for kind in (*of_firm.values(), *of_program) if _means(kind, words)]
    return tuple(
        sorted(found, key=lambda kind: not words_of(f"{kind.description} {kind.also}")[0].startswith(words[0]))
    )


def protected_as_on(board: Board | None, kind: CircuitKind) -> CircuitKind:
    """The kind with the devices of the last way in use of a board; of an RCBO the rating is its own."""
    ways = (
        [each for each in board.circuits if not each.is_spare and not is_blank(each.device_standard)] if board else []
    )
    if not ways:
        return kind
    texts = {name: typed_in(ways[-1], name) for name in _PROTECTED_BY}
    rest = {name: text for name, text in kind.details.items() if name not in _PROTECTED_BY}
    return kind.model_copy(
        update={"details": with_rating({**rest, **{name: text for name, text in texts.items() if text.strip()}})}
    )


def with_rating(details: Mapping[str, str]) -> Mapping[str, str]:
    """An RCBO is one device: its RCD is rated as it is."""
    device = details.get("device_standard", "")
    of_one = bool(device) and details.get("rcd_standard") == device
    return {**details, "rcd_rating": details["rating"]} if of_one and "rating" in details else dict(details)


def _means(kind: CircuitKind, words: tuple[str, ...]) -> bool:
    told = words_of(f"{kind.description} {kind.also}")
    return all(any(each.startswith(word) for each in told) for word in words)
