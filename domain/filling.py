"""Details filled down a schedule: what may be taken over from one circuit to those below it, and what never."""

from collections.abc import Sequence

from domain.board import Board
from domain.box import BoxKind, boxes_of, typed_in
from domain.circuit import Circuit
from domain.commands import Declined, Enter, Fill
from domain.place import Place

COUNTED = frozenset({"points", "length"})
"""What has to be counted or measured on each circuit, and is easily left wrong."""
OWN = COUNTED | {"number", "description", "remarks"}
"""What differs from circuit to circuit, and is left alone where several boxes are filled at once."""


def may_fill(box: str) -> bool:
    """The box may be filled down: a number is the circuit's own, and what was measured or confirmed is never copied."""
    declared = boxes_of(Circuit)[box]
    return box != "number" and not declared.is_measured and declared.kind is not BoxKind.TICK


def filled_down(board: Board, here: str, to: str, boxes: Sequence[str]) -> Fill | Declined:
    """Fill boxes of the circuits below `here` as they stand there, down to the circuit numbered `to`; "" is the last.

    Boxes that are empty on `here`, and spare ways, are left out.
    """
    for box in boxes:
        if not may_fill(box):
            return Declined(says=f"{boxes_of(Circuit)[box].label} is each circuit's own and never filled down")
    numbers = [circuit.number.strip().casefold() for circuit in board.circuits]
    first = next((row for row, circuit in enumerate(board.circuits) if circuit.id == here), len(numbers))
    sought = to.strip().casefold()
    below = [
        row
        for row in range(first + 1, len(numbers))
        if numbers[row] == sought or (not sought and row == len(numbers) - 1)
    ]
    if not below:
        return Declined(
            says=f"No circuit below this one has the number {to.strip()}"
            if sought
            else "No circuit stands below this one"
        )
    source = board.circuits[first]
    entries = [
        Enter(place=Place(section="boards", board=board.id, circuit=circuit.id, box=box), text=text)
        for circuit in board.circuits[first + 1 : below[0] + 1]
        if not circuit.is_spare
        for box in boxes
        if (text := typed_in(source, box)) and typed_in(circuit, box) != text
    ]
    return Fill(entries=tuple(entries)) if entries else Declined(says="Nothing is left to fill: they are alike already")
