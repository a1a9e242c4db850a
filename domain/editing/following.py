"""What an answer puts forward in other boxes: nominal values of the public supply, and N/A where nothing can be there."""

from collections.abc import Iterable, Iterator, Mapping

from domain.editing.commands import Enter
from domain.edition import Edition
from domain.figures.limits.loader import named_figure
from domain.job.board import Board
from domain.job.box import boxes_of
from domain.job.circuit import Circuit
from domain.job.job import Job
from domain.job.place_in_words import owner_at, text_at
from domain.job.supply import Supply
from domain.place import Place
from domain.value import is_blank

_AFDD = "62606"
"""The product standard of arc fault detection devices, as in BS EN 62606."""
_NONE_THERE = "N/A"


def follow_ups(before: Job, after: Job, typed: Iterable[Place]) -> Iterator[Enter]:
    """What is to be put forward after boxes were typed into: where nothing stands, or only what the answer before put there."""
    waiting = set(after.unconfirmed)
    for place in typed:
        if text_at(before, place) == text_at(after, place):
            continue
        was, now = _put_forward_by(before, place), _put_forward_by(after, place)
        for box in {**was, **now}:
            at = place.model_copy(update={"box": box})
            stands, text = text_at(after, at), now.get(box, "")
            is_of_before = at in waiting and stands == was.get(box)
            if stands != text and (is_blank(stands) or is_of_before):
                yield Enter(place=at, text=text)


def _put_forward_by(job: Job, place: Place) -> Mapping[str, str]:
    """What the answer in a box puts forward, by the other boxes of its section, board or circuit that are asked for."""
    match owner_at(job, place):
        case Supply() as supply if place.box == "live_conductors":
            told = _of_public_supply(supply.live_conductors.strip(), job.edition)
        case Board() as board if place.box == "phases" and board.phases.strip() == "1":
            told = {"phase_sequence": _NONE_THERE}
        case Circuit() as circuit if place.box == "device_standard" and _lacks_afdd(circuit):
            # Where the device itself is asked for, its test button is passed over once there is none.
            asks_for_it = boxes_of(Circuit)["afdd_standard"].is_asked(job.form_set)
            told = {"afdd_standard" if asks_for_it else "afdd_button": _NONE_THERE}
        case _:
            return {}
    boxes = boxes_of(type(owner_at(job, place)))
    return {box: text for box, text in told.items() if boxes[box].is_asked(job.form_set)}


def _of_public_supply(live_conductors: str, edition: Edition) -> Mapping[str, str]:
    """Nominal values of the public low-voltage supply; of another the person knows."""
    if not live_conductors.startswith(("AC 1-phase", "AC 3-phase")):
        return {}
    between = "line" if "3-phase" in live_conductors else "earth"
    names = {
        "voltage": f"nominal, line to {between}",
        "voltage_to_earth": "nominal, line to earth",
        "frequency": "nominal frequency",
    }
    return {box: str(named_figure("supply_voltage", name, edition).value) for box, name in names.items()}


def _lacks_afdd(circuit: Circuit) -> bool:
    """Its device is named and is none itself; what else may be fitted, the person says."""
    return not circuit.is_spare and not is_blank(circuit.device_standard) and _AFDD not in circuit.device_standard
