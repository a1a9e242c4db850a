"""A way that became spare still holds what was there: the command that empties it."""

from domain.editing.commands import Enter, Fill
from domain.job.box import boxes_of, typed_in
from domain.job.circuit import Circuit
from domain.job.circuit_details import SPARE
from domain.place import Place
from domain.words import capitalised

_STAY = frozenset({"number", "description", "shape", "remarks"})


def emptied(board: str, circuit: Circuit) -> Fill | None:
    """Takes every detail and reading from a spare way and calls it spare; None where it is in use or holds nothing more."""
    at = Place(section="boards", board=board, circuit=circuit.id)
    held = [name for name in boxes_of(Circuit) if name not in _STAY and typed_in(circuit, name).strip()]
    if not circuit.is_spare or not held:
        return None
    texts = {"description": capitalised(SPARE)} | dict.fromkeys(held, "")
    return Fill(entries=tuple(Enter(place=at.model_copy(update={"box": name}), text=texts[name]) for name in texts))
