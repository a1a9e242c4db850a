"""Texts about what is not there, by the answer in the box that decides: the type of an RCD where RCD is N/A."""

from collections.abc import Callable, Mapping
from typing import NamedTuple

from pydantic import BaseModel

from domain.gate.sentence import said
from domain.job.board import Board
from domain.job.box import shown_in, typed_in
from domain.job.circuit import Circuit
from domain.job.circuit_details import RADIAL
from domain.job.main_switch import MainSwitch
from domain.value import says_none, says_nothing


def box_conflicts(owner: BaseModel) -> Mapping[str, str]:
    """The boxes of a section, board or circuit whose text cannot stand beside another box, each with what to do."""
    misplaced: dict[str, str] = {}
    for rule in _RULES.get(type(owner), ()):
        if rule.excludes(typed_in(owner, rule.decided_by)):
            for box in rule.boxes:
                if not says_nothing(typed_in(owner, box)):
                    misplaced[box] = said(
                        "conflict.stands-against", typed=shown_in(owner, box), why=said(f"conflict.{rule.why}")
                    )
    return misplaced


class _Rule(NamedTuple):
    """An answer that leaves other boxes nothing to be about."""

    decided_by: str
    excludes: Callable[[str], bool]
    why: str
    """What the deciding box says, as a row of the catalogue."""
    boxes: tuple[str, ...]


def _is_radial(typed: str) -> bool:
    return typed.strip().casefold() == RADIAL


_RULES: Mapping[type[BaseModel], tuple[_Rule, ...]] = {
    Circuit: (
        _Rule("rcd_standard", says_none, "circuit-without-rcd", ("rcd_type", "rcd_idn", "rcd_rating")),
        _Rule("afdd_standard", says_none, "circuit-without-afdd", ("afdd_button",)),
        _Rule("shape", _is_radial, "radial", ("ring_r1", "ring_rn", "ring_r2")),
    ),
    Board: (
        _Rule("device_standard", says_none, "board-without-device", ("device_type", "device_rating")),
        # Its type may be left empty where the board has no RCD, so that empty means none as well.
        _Rule("rcd_type", says_nothing, "board-without-rcd", ("rcd_idn", "rcd_rating", "rcd_time")),
    ),
    MainSwitch: (_Rule("rcd_type", says_none, "switch-without-rcd", ("rcd_idn", "rcd_delay", "rcd_time")),),
}
"""Results of an RCD are not among them on a circuit: they may be those of one before it, and the checks ask."""
