"""What an answer puts forward in other boxes: what follows from it, nominal values, and N/A where nothing can be there."""

from collections.abc import Iterable, Iterator, Mapping

from domain.editing.commands import Enter
from domain.edition import Edition
from domain.figures.limits.loader import named_figure, table
from domain.job.board import Board
from domain.job.box import boxes_of
from domain.job.circuit import Circuit
from domain.job.circuit_use import EXTRA_LOW
from domain.job.condition_report import Report
from domain.job.earthing import DISTRIBUTOR, ELECTRODE
from domain.job.job import Job
from domain.job.main_switch import MainSwitch
from domain.job.people import Premises
from domain.job.place_in_words import box_at, owner_at, text_at
from domain.job.supply import Supply
from domain.job.work import NEW, REPLACED_UNIT, Work
from domain.place import Place
from domain.value import is_blank

_AFDD = "62606"
"""The product standard of arc fault detection devices, as in BS EN 62606."""
_SWITCHES = ("60947-3", "61008", "5419")
"""Product standards of switches and of RCDs that are switches, with no fuse or overcurrent release in them."""
_RCD = "61008"
_NO_RECORDS = frozenset({"none", "none seen", "n/a"})
_NONE_THERE, _NOT_KNOWN = "N/A", "Not known"
_ORIGIN = "origin"
_LOW_VOLTAGE = "up to 500 V, and FELV"
"""The row of Table 64 for circuits of low voltage."""
_EARTHED_BY = {"TN-C-S": DISTRIBUTOR, "TN-S": DISTRIBUTOR, "TT": ELECTRODE}
"""Who provides the earth, as BS 7671 defines the systems (Part 2, from memory)."""
_WHOLE = "The whole installation, from the meter to the last point"
_ONE_UNIT = "The consumer unit, and the connection of the existing circuits to it"

Texts = Mapping[Place, str]


def follow_ups(before: Job, after: Job, typed: Iterable[Place]) -> Iterator[Enter]:
    """What is to be put forward after boxes were typed into: where nothing stands, or only what the answer before put there."""
    waiting = set(after.unconfirmed)
    for place in typed:
        if text_at(before, place) == text_at(after, place):
            continue
        was, now = _put_forward_by(before, place), _put_forward_by(after, place)
        for at in {**was, **now}:
            stands, text = text_at(after, at), now.get(at, "")
            is_of_before = at in waiting and stands == was.get(at)
            if stands != text and (is_blank(stands) or is_of_before):
                yield Enter(place=at, text=text)


def _put_forward_by(job: Job, place: Place) -> Texts:
    """What the answer in a box puts forward, by the boxes that are asked for."""
    texts: Texts
    match owner_at(job, place):
        case Supply() as supply:
            texts = _by_supply(job, supply, place)
        case Work() as work:
            texts = _by_work(job, work, place)
        case Report() as report if place.box == "inspected_on":
            texts = _tested_on(job, report.inspected_on)
        case Premises() as premises:
            texts = _by_premises(premises, place)
        case MainSwitch() as switch:
            texts = _by_main_switch(job, switch, place)
        case Board() as board:
            texts = _by_board(board, place)
        case Circuit() as circuit if place.box == "device_standard" and not circuit.is_spare:
            texts = _by_device(job, circuit, place)
        case _:
            return {}
    return {at: text for at, text in texts.items() if (box := box_at(job, at)) and box.is_asked(job.form_set)}


def _by_supply(job: Job, supply: Supply, place: Place) -> Texts:
    if place.box == "system":
        means = _EARTHED_BY.get(supply.system.strip(), "")
        return _texts((Place(section="earthing", box="means"), means)) if means else {}
    if place.box == "live_conductors":
        nominal = _of_public_supply(supply.live_conductors.strip(), job.edition)
        return {_beside(place, box): text for box, text in nominal.items()}
    return {}


def _by_work(job: Job, work: Work, place: Place) -> Texts:
    if place.box == "completed_on":
        return _tested_on(job, work.completed_on)
    if place.box != "kind":
        return {}
    if work.kind.strip() == NEW:
        return _texts((_beside(place, "extent"), _WHOLE), (_beside(place, "comments"), _NONE_THERE))
    return _texts((_beside(place, "extent"), _ONE_UNIT)) if work.kind.strip() == REPLACED_UNIT else {}


def _by_premises(premises: Premises, place: Place) -> Texts:
    if place.box == "records" and premises.records.strip().casefold() in _NO_RECORDS:
        return _texts((_beside(place, "records_held_by"), _NONE_THERE))
    if place.box == "last_inspection" and premises.last_inspection.strip().casefold() == _NOT_KNOWN.casefold():
        return _texts((_beside(place, "last_report"), _NOT_KNOWN))
    return {}


def _tested_on(job: Job, day: str) -> Texts:
    """Most boards are tested on the day that the paper names."""
    return {Place(section="boards", board=each.id, box="tested_on"): day for each in job.boards if not is_blank(day)}


def _by_main_switch(job: Job, switch: MainSwitch, place: Place) -> Texts:
    if place.box == "standard" and any(each in switch.standard for each in _SWITCHES):
        none = ("fuse_rating",) if _RCD in switch.standard else ("fuse_rating", "rcd_type")
        return {_beside(place, box): _NONE_THERE for box in none}
    # The main switch of one board alone is a part of it; minor works names one board of what may be several.
    is_of_board = len(job.boards) == 1 and not job.profile.covers_one_circuit
    if place.box == "location" and is_of_board and not is_blank(switch.location):
        return _texts((Place(section="boards", board=job.boards[0].id, box="location"), switch.location))
    return {}


def _by_board(board: Board, place: Place) -> Texts:
    if place.box == "phases" and board.phases.strip() == "1":
        return _texts((_beside(place, "phase_sequence"), _NONE_THERE))
    if place.box == "supplied_from" and board.supplied_from.strip().casefold() == _ORIGIN:
        return _texts((_beside(place, "device_standard"), _NONE_THERE))
    return {}


def _by_device(job: Job, circuit: Circuit, place: Place) -> Texts:
    if is_blank(circuit.device_standard):
        return {}
    volts = () if EXTRA_LOW in circuit.feeds else ((_beside(place, "test_voltage"), _test_voltage(job.edition)),)
    if _AFDD in circuit.device_standard:
        return _texts(*volts)
    # Where the device itself is asked for, its test button is passed over once there is none; what else is fitted, a person says.
    asks_for_it = boxes_of(Circuit)["afdd_standard"].is_asked(job.form_set)
    return _texts(*volts, (_beside(place, "afdd_standard" if asks_for_it else "afdd_button"), _NONE_THERE))


def _test_voltage(edition: Edition) -> str:
    """That of low voltage; a person says where equipment could be harmed by it."""
    rows = (row for row in table("insulation", edition).rows if row.texts["circuit"] == _LOW_VOLTAGE)
    return next(str(row.figures["test_voltage"].value) for row in rows)


def _texts(*pairs: tuple[Place, str]) -> Texts:
    return dict(pairs)


def _beside(place: Place, box: str) -> Place:
    return place.model_copy(update={"box": box})


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
