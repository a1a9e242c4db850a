"""What of a job brings a caution up, each condition by its name in `dangers.toml`."""

import re
from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple

from domain.checks.shared.sources import sources_brought_in, sources_named
from domain.checks.shared.uses import use_of
from domain.dates import date_in
from domain.edition import editions
from domain.inspection.item_outcome import InspectionOutcome
from domain.job.board import Board
from domain.job.box import answers_in
from domain.job.circuit import Circuit
from domain.job.circuit_use import ALARM, BATTERY, SOLAR, SUB_BOARD
from domain.job.job import Job
from domain.job.reading import Meaning
from domain.place import Place
from domain.value import says_nothing

_REWIREABLE = "3036"
_LAST_OF_ASBESTOS = 1999
"""The year at whose end the last kind of it was forbidden; a fact of the law on asbestos, no figure of the standard."""
_BEFORE = re.compile(r"\b(?:pre|before|prior to)\b", re.I)
_NUMBERS = re.compile(r"\d{1,4}")
_YEARS_FROM = 1000
"""A number from here on is a year, below it an age."""
_LIFE_OR_GOODS = re.compile(
    r"\b(?:medical|dialysis|oxygen|ventilators?|breathing|nebuli[sz]ers?|incubators?|life support|patients?|"
    r"(?:stair|home|passenger|goods|platform|through-floor) ?lifts?|stairlifts?|hoists?|"
    r"lifts?(?! (?:the |a |any |of )?(?:floor|carpet|board|cover|tile|lid))|"
    r"(?:fire|smoke|intruder|burglar|panic|carbon monoxide|co|gas|nurse|flood|house)[- ]?(?:alarms?|call|detect\w+)|alarms?|"
    r"servers?|server room|comms|data (?:room|cent\w+|cabinet)|cctv|access control|telecare|"
    r"freezers?|cold ?(?:store|room)s?|fridges?|vaccines?|aquari\w+|fish ?tanks?|vivari\w+|hatcher\w+|milk tank|"
    r"sump pumps?|sewage|emergency lighting|traffic)\b",
    re.I,
)
_INVERTER = re.compile(r"\binverters?\b|\bups\b|\bvsd\b|\bvfd\b|\bvariable[- ](?:speed|frequency)|\bdrives?\b", re.I)
_CUT_OUT = re.compile(r"\bcut-? ?outs?\b|\bservice (?:head|fuse)\b|\bsupplier'?s? fuse\b|\bmain fuse carrier\b", re.I)
_THERMAL = re.compile(r"immersion|thermal|heater|motor", re.I)
_NOBODY = re.compile(
    r"\b(?:vacant|void|unoccupied|uninhabited|nobody|no one|derelict|unmanned|unattended|pump(?:ing)? (?:house|station)|"
    r"substation|empty (?:house|flat|home|property|unit|premises|building))\b",
    re.I,
)
_AT_FAULT = {InspectionOutcome.C1, InspectionOutcome.C2, InspectionOutcome.FI}


class DangerScope(NamedTuple):
    """What a caution at a box is about: one circuit, a board with its circuits, or the whole job."""

    job: Job
    board: Board | None
    """None where the whole job is meant."""
    circuits: tuple[Circuit, ...]
    """Those in use and spare: one, those of a board, or all."""
    of_one_circuit: bool = True


def danger_scope(job: Job, place: Place) -> DangerScope:
    """The circuit of the place, its board, or else the whole job."""
    board = job.board(place.board) if place.board else None
    circuit = board.circuit(place.circuit) if board and place.circuit else None
    if circuit:
        return DangerScope(job, board, (circuit,))
    circuits = board.circuits if board else tuple(each for _, each in job.circuits())
    return DangerScope(job, board, circuits, of_one_circuit=False)


def _rewireable(scope: DangerScope) -> bool:
    standards = [circuit.device_standard for circuit in scope.circuits]
    if scope.board and not scope.of_one_circuit:
        standards += [scope.board.device_standard, scope.board.kind]
    return any(_REWIREABLE in each for each in standards)


def _old_or_rewireable(scope: DangerScope) -> bool:
    return _rewireable(scope) or _before_2000(scope.job)


def _before_2000(job: Job) -> bool:
    age = job.premises.age
    numbers = [int(each) for each in _NUMBERS.findall(age)]
    years = [each for each in numbers if each >= _YEARS_FROM]
    if years:
        return min(years) <= _LAST_OF_ASBESTOS + bool(_BEFORE.search(age))
    return bool(numbers) and _year_of(job) - max(numbers) <= _LAST_OF_ASBESTOS


def _year_of(job: Job) -> int:
    told = date_in(job.report.inspected_on) or date_in(job.work.completed_on)
    days = (facts.mandatory_from for facts in editions().values() if facts.mandatory_from)
    return (told or job.edition.facts.mandatory_from or min(days)).year


def _reaches_far(scope: DangerScope) -> bool:
    return any(map(_leaves_sight, scope.circuits))


def _leaves_sight(circuit: Circuit) -> bool:
    if circuit.is_spare or circuit.points.meaning is Meaning.NOT_APPLICABLE:
        return False
    return circuit.points.figure != 1 or SUB_BOARD in answers_in(circuit.feeds) or use_of(circuit).outdoors


def _life_or_goods(scope: DangerScope) -> bool:
    if any(map(hangs_on, scope.circuits)):
        return True
    if scope.of_one_circuit:
        return False
    board = scope.board.vulnerable if scope.board else ""
    return any(_LIFE_OR_GOODS.search(text) for text in (board, *_told_of_the_whole(scope.job)))


def hangs_on(circuit: Circuit) -> bool:
    """Life or goods may hang on the supply of this circuit, by what it feeds or by its words."""
    if circuit.is_spare:
        return False
    if ALARM in answers_in(circuit.feeds):
        return True
    return bool(_LIFE_OR_GOODS.search(f"{circuit.description} {circuit.remarks}"))


def _told_of_the_whole(job: Job) -> Iterator[str]:
    report, work = job.report, job.work
    yield from (report.agreed_limitations, report.operational_limitations, report.extent, work.limitations)
    yield from (work.extent, job.premises.occupier, job.premises.use)


def _solar(scope: DangerScope) -> bool:
    return SOLAR in _sources(scope)


def _battery(scope: DangerScope) -> bool:
    return BATTERY in _sources(scope)


def _sources(scope: DangerScope) -> frozenset[str]:
    circuits = frozenset[str]().union(*(sources_brought_in(each) for each in scope.circuits if not each.is_spare))
    others = scope.job.supply.other_sources
    if scope.of_one_circuit or says_nothing(others):
        return circuits
    return circuits | sources_named(others)


def _another_source(scope: DangerScope) -> bool:
    return bool(_sources(scope)) or not says_nothing(scope.job.supply.other_sources)


def _inverter(scope: DangerScope) -> bool:
    said = any(_INVERTER.search(each.description) for each in scope.circuits if not each.is_spare)
    return said or bool({SOLAR, BATTERY} & _sources(scope))


def _damaged_cut_out(scope: DangerScope) -> bool:
    job = scope.job
    texts = [f"{each.finding} {each.where}" for each in job.observations]
    texts += [f"{each.what} {each.where}" for each in job.open_snags]
    named = {item.number: item.title for item in job.items}
    texts += [named.get(each.item, "") for each in job.inspection if each.mark in _AT_FAULT]
    return any(_CUT_OUT.search(text) and not _THERMAL.search(text) for text in texts)


def _nobody_there(scope: DangerScope) -> bool:
    job = scope.job
    texts = (job.premises.occupier, job.premises.use, job.work.description, job.work.extent, job.report.extent)
    return any(_NOBODY.search(text) for text in texts)


CONDITIONS: Mapping[str, Callable[[DangerScope], bool]] = {
    "rewireable fuses": _rewireable,
    "rewireable fuses, or wiring from before 2000": _old_or_rewireable,
    "the circuit leaves the room": _reaches_far,
    "life or goods hang on it": _life_or_goods,
    "solar": _solar,
    "a battery": _battery,
    "another source": _another_source,
    "an inverter or drive": _inverter,
    "a damaged cut-out": _damaged_cut_out,
    "nobody else is there": _nobody_there,
}
