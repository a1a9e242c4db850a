"""Details filled down a schedule: what may be taken over from one circuit to those below it, and what never."""

from collections.abc import Sequence

from domain.editing.commands import Declined, Enter, Fill
from domain.job.board import Board
from domain.job.box import BoxKind, boxes_of, typed_in
from domain.job.circuit import Circuit
from domain.place import Place
from domain.usual.circuit_kinds import COUNTED

OWN = COUNTED | {"number", "description", "remarks"}
"""What differs from circuit to circuit, and is left alone where several boxes are filled at once."""


def why_not_filled(box: str) -> str:
    """Why the box is never filled down: a number, what was measured or confirmed is the circuit's own; "" where it may be."""
    declared = boxes_of(Circuit)[box]
    if box == "number" or declared.is_measured or declared.kind is BoxKind.TICK:
        return f"{declared.label} is each circuit's own and never filled down"
    return ""


def filled_down(board: Board, here: str, to: str, boxes: Sequence[str]) -> Fill | Declined:
    """Fill boxes of the circuits below `here` as they stand there, down to the circuit numbered `to`; "" is the last.

    Boxes that are empty on `here`, and spare ways, are left out.
    """
    for why in filter(None, map(why_not_filled, boxes)):
        return Declined(says=why)
    first = next((row for row, circuit in enumerate(board.circuits) if circuit.id == here), len(board.circuits))
    below, sought = board.circuits[first + 1 :], to.strip()
    last = next((row for row, circuit in enumerate(below) if circuit.bears(to)), -1) if sought else len(below) - 1
    if last < 0:
        none = f"No circuit below this one has the number {sought}" if sought else "No circuit stands below this one"
        return Declined(says=none)
    source = board.circuits[first]
    entries = [
        Enter(place=Place(section="boards", board=board.id, circuit=circuit.id, box=box), text=text)
        for circuit in below[: last + 1]
        if not circuit.is_spare
        for box in boxes
        if (text := typed_in(source, box)) and typed_in(circuit, box) != text
    ]
    return Fill(entries=tuple(entries)) if entries else Declined(says="Nothing is left to fill: they are alike already")
