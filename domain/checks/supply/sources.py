"""Charging points on a combined earth and neutral, and circuits that bring energy in."""

import re
from collections.abc import Iterator

from domain.checks.shared.circuits_in_use import Way, board_place
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.own_earth import has_own_electrode
from domain.checks.shared.part_by_part import of_each_way
from domain.checks.shared.phrases import listed
from domain.checks.shared.severities import shortfall
from domain.checks.shared.tolerances import loop_margin
from domain.checks.shared.uses import is_dwelling, use_of
from domain.figures.formulas.loop import zs as sum_of
from domain.figures.units import Ohms
from domain.forms.box_group import BoxGroup
from domain.job.box import answers_in
from domain.job.circuit_use import CHARGING_POINT, LINE_ONLY, SOURCES, SUB_BOARD
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.place import Place
from domain.regulation import regulation

_found = FindingFactory("sources")
_PME = "TN-C-S"
_NOT_NEEDED = "not needed"
_SAYS_OPEN_PEN = re.compile(r"\bo(?:pen)?[- ]?pen\b|\bpen[- ](?:fault|loss)|earth rod|electrode", re.IGNORECASE)
_SAYS_ONE_POLE = re.compile(r"\b(?:1|one|single)[- ]?pole\b|\bSP\b(?!\s*&?\s*N)|\b1P\b(?!\s*\+)", re.IGNORECASE)
_SAYS_BOTH_WAYS = re.compile(r"bi-?directional|both (?:directions|ways)", re.IGNORECASE)


@of_each_way
def sources(job: Job, way: Way) -> Iterator[Finding]:
    """A charging point is guarded against the loss of the neutral, and what stands before a source bears current both ways."""
    use = use_of(way.circuit)
    if use.vehicle:
        yield from _open_pen(job, way)
        yield from _electrode_not_read(job, way)
        yield from _shared(job, way, frozenset({CHARGING_POINT}), "charging point on its own circuit")
    if use.source:
        yield from _both_directions(job, way)
        yield from _shared(job, way, SOURCES | {SUB_BOARD}, "source on its own circuit")
    if (use.vehicle or use.source) and way.circuit.switches.strip() == LINE_ONLY:
        yield from _line_only(job, way)


def _open_pen(job: Job, way: Way) -> Iterator[Finding]:
    """On PME the loss of the neutral can make a vehicle live (722.411.4.1, from memory)."""
    guard, circuit = way.circuit.open_pen.strip(), way.circuit
    if job.supply.system.strip().upper() != _PME or (guard and guard != _NOT_NEEDED):
        return
    if _SAYS_OPEN_PEN.search(circuit.remarks) or _SAYS_OPEN_PEN.search(circuit.description):
        return
    case = "open-pen-not-needed" if guard else "open-pen-not-said"
    typed = {"system": job.supply.system.strip()}
    yield _found(
        job,
        way.at("open_pen"),
        shortfall(job),
        case,
        source=regulation("charging point on PME", job.edition),
        typed=typed,
    )


def _electrode_not_read(job: Job, way: Way) -> Iterator[Finding]:
    """A rod reads tens of ohms: a loop that the earth of the board gives as well is not through one."""
    zs, inside, before = way.circuit.zs, way.circuit.r1_r2.figure, way.board.zs.figure
    if not has_own_electrode(job, way) or zs.figure is None or inside is None or before is None:
        return
    if zs.figure <= before + inside + loop_margin(Ohms(before + inside), job.edition, by_rcd=True):
        working = sum_of(Ohms(before), Ohms(inside))
        yield _found(
            job,
            way.at("open_pen"),
            Severity.ASK,
            "electrode-not-read",
            source=regulation("charging point on PME", job.edition),
            working=working.sum,
            zs=zs,
            sum=working.sum,
        )


def _shared(job: Job, way: Way, alone: frozenset[str], rule: str) -> Iterator[Finding]:
    """What charges vehicles or brings energy in has a circuit to itself (722.533.101 and 551.7.2, from memory)."""
    besides = sorted(set(answers_in(way.circuit.feeds)) - alone) if way.circuit.feeds.strip() else []
    if not besides and not way.circuit.is_ring:
        return
    source, own = regulation(rule, job.edition), sorted(set(answers_in(way.circuit.feeds)) & alone)
    said = {"what": listed(own) if own else way.circuit.description.strip()}
    if besides:
        said["besides"] = listed(besides)
        yield _found(job, way.at("feeds"), shortfall(job), "shared-with", source=source, typed=said, said=said)
    else:
        yield _found(job, way.at("shape"), shortfall(job), "on-a-ring", source=source, typed=said, said=said)


def _both_directions(job: Job, way: Way) -> Iterator[Finding]:
    """An RCD or RCBO made for current in one direction may be destroyed by a source behind it."""
    if not way.rcds or _SAYS_BOTH_WAYS.search(f"{way.circuit.remarks} {way.circuit.rcd_type}"):
        return
    yield _found(
        job,
        way.at("rcd_standard"),
        shortfall(job),
        "both-directions",
        source=regulation("current in both directions", job.edition),
        typed={"description": way.circuit.description.strip(), "remarks": way.circuit.remarks.strip()},
        rcd=way.rcds[0].named,
    )


def _line_only(job: Job, way: Way) -> Iterator[Finding]:
    """What a vehicle or a source hangs on opens every live conductor (722.531.3 and 551.7, from memory)."""
    what = way.circuit.feeds.strip() or way.circuit.description.strip()
    source = regulation("every live conductor opened", job.edition)
    yield _found(job, way.at("switches"), shortfall(job), "line-only", source=source, typed={"what": what}, what=what)


def main_switch_poles(job: Job) -> Iterator[Finding]:
    """In a home the main switch parts both live conductors, since those who use it are no electricians (462.1.201, from memory)."""
    poles, place = job.main_switch.poles, Place(section="main_switch", box="poles")
    if not job.profile.takes(BoxGroup.ORIGIN) or "1-phase" not in job.supply.live_conductors or not is_dwelling(job):
        return
    if poles.figure is not None and poles.figure < 2:
        yield _found(
            job, place, shortfall(job), "one-pole", source=regulation("main switch of a home", job.edition), poles=poles
        )
    for board in job.boards:
        if _SAYS_ONE_POLE.search(board.main_switch) and board.phases.strip() != "3":
            source = regulation("main switch of a home", job.edition)
            place = board_place(board, "main_switch")
            yield _found(job, place, shortfall(job), "one-pole-of-a-board", source=source, board=board.name)


@of_each_way
def pitches(job: Job, way: Way) -> Iterator[Finding]:
    """Caravans and boats are not earthed by the supply's neutral, and each has an RCD of its own (708 and 709, from memory)."""
    if way.feeds_a_board or not use_of(way.circuit).pitch:
        return
    if job.supply.system.strip().upper() == _PME:
        typed = {"system": job.supply.system.strip(), "description": way.circuit.description.strip()}
        yield _found(
            job,
            way.at("description"),
            Severity.ASK,
            "pitch-on-pme",
            source=regulation("pitch on PME", job.edition),
            typed=typed,
        )
    if way.circuit.switches.strip() == LINE_ONLY:
        what = way.circuit.description.strip()
        source = regulation("RCD for a pitch", job.edition)
        yield _found(
            job, way.at("switches"), shortfall(job), "line-only", source=source, typed={"what": what}, what=what
        )
    points = way.circuit.points.figure
    if way.rcds and points is not None and points > 1:
        yield _found(
            job, way.at("points"), Severity.ASK, "pitches-share-an-rcd", source=regulation("RCD for a pitch", job.edition),
            points=way.circuit.points,
        )  # fmt: skip
