"""What is said of the supply, the earthing, the main switch and the boards, held against each other."""

import re
from collections.abc import Iterator
from decimal import Decimal

from domain.checks.shared.circuits_in_use import board_place, is_at_origin
from domain.checks.shared.decimal_slip import did_you_mean
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.severities import shortfall
from domain.checks.shared.system import is_tn, is_tt
from domain.checks.shared.tolerances import about, loop_margin
from domain.figures.limits.loader import named_figure, table
from domain.forms.box_group import BoxGroup
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning, Reading
from domain.place import Place
from domain.value import says_nothing

_found = FindingFactory("supply-fits")
_BONDED = ("bonded_water", "bonded_gas", "bonded_oil", "bonded_steel", "bonded_lightning")
_AMPERES = re.compile(r"(?<![\d.])([0-9]{1,4})\s*(?:A|amps?)\b", re.IGNORECASE)
_THREE, _ONE = "3-phase", "1-phase"
_POLES_OF_THREE = 3


def supply_fits(job: Job) -> Iterator[Finding]:
    """Phases, voltages, the means of earthing and what is bonded agree with each other."""
    if job.profile.takes(BoxGroup.ORIGIN):
        yield from _phases(job)
        yield from _earthing(job)
        yield from _bonding(job)
        yield from _electrode(job)
        yield from _main_switch(job)
        yield from _switches_of_boards(job)
        yield from _phase_sequence(job)
    yield from _surge_protection(job)


def _phases(job: Job) -> Iterator[Finding]:
    live, supply = job.supply.live_conductors, job.supply
    if _ONE in live:
        for board in job.boards:
            if board.phases.strip() == "3":
                says = f"{board.name} has three phases, but the supply is {live.strip()}"
                yield _found(job, board_place(board, "phases"), Severity.ASK, says)
    if _THREE not in live:
        return
    poles = job.main_switch.poles
    if poles.figure is not None and poles.figure < _POLES_OF_THREE:
        says = f"A main switch of {poles.shown} poles cannot switch {live.strip()}"
        yield _found(job, Place(section="main_switch", box="poles"), Severity.ASK, says)
    between, to_earth = supply.voltage.figure, supply.voltage_to_earth.figure
    if between is not None and to_earth is not None and between <= to_earth:
        says = (
            f"On three phases the voltage between lines, {supply.voltage.shown} V, must be more than that "
            f"from line to earth, {supply.voltage_to_earth.shown} V"
        )
        yield _found(job, Place(section="supply", box="voltage"), Severity.ASK, says)


def _earthing(job: Job) -> Iterator[Finding]:
    means, system = job.earthing.means.strip(), job.supply.system.strip()
    place = Place(section="earthing", box="means")
    if is_tt(job) and means == "distributor's facility":
        says = "On TT the earth is the installation's own electrode, but the distributor's facility is named"
        yield _found(job, place, Severity.ASK, says)
    elif system and is_tn(job) and means == "electrode":
        says = f"On {system} the distributor provides the earth, but only an electrode is named"
        yield _found(job, place, Severity.ASK, says)
    resistance = job.earthing.electrode_resistance
    if means == "electrode" and resistance.meaning is Meaning.NOT_APPLICABLE:
        says = "The electrode is the only means of earthing, but its resistance is marked N/A"
        yield _found(job, Place(section="earthing", box="electrode_resistance"), Severity.ASK, says)


def _bonding(job: Job) -> Iterator[Finding]:
    csa = job.earthing.bonding_csa
    bonded: list[Reading] = [getattr(job.earthing, box) for box in _BONDED]
    if csa.meaning is Meaning.NOT_APPLICABLE and any(each.meaning is Meaning.TICK for each in bonded):
        says = "Something is marked as bonded, but the main bonding conductor is marked N/A"
        yield _found(job, Place(section="earthing", box="bonding_csa"), Severity.ASK, says)


def _electrode(job: Job) -> Iterator[Finding]:
    """On TT, RA is the greater part of Ze: the rest is the distributor's electrode and the line."""
    resistance, ze = job.earthing.electrode_resistance, job.supply.ze
    ra, place = resistance.figure, Place(section="earthing", box="electrode_resistance")
    if not is_tt(job) or ra is None or ra <= 0:
        return
    steady = named_figure("plausibility", "electrode may be unstable above", job.edition)
    if ra > steady.value:
        says = (
            f"RA {resistance.shown} Ω is above {steady.shown}, where an electrode may not stay as it is through the "
            "seasons. Add or deepen rods, or say why it will hold"
        )
        yield _found(job, place, Severity.ASK, says, limit=steady)
    if ze.figure is None or ze.figure <= 0 or job.supply.ze_by == "enquiry":
        return
    others = table("declared_ze", job.edition).row("TT")
    assert others, "the table of declared impedances has a row for TT"
    margin = loop_margin(ze.figure, job.edition, on_tt=True)
    if ze.figure - margin - others.figures["ze"].value <= ra <= ze.figure + margin:
        return
    slip = did_you_mean(resistance, "Ω", about(ze.figure, job.edition))
    says = (
        f"RA {resistance.shown} Ω and Ze {ze.shown} Ω are far apart, though on TT the electrode makes up nearly all of Ze. "
        f"{slip or 'Is one of them wrong, or is there another path to earth?'}"
    )
    yield _found(job, place, Severity.ASK, says, limit=f"about {ze.shown} Ω")


def _main_switch(job: Job) -> Iterator[Finding]:
    """A switch that carries less than the fuse before it lets through relies on the load staying low."""
    rating, fuse = job.main_switch.current_rating, job.supply.device_rating
    if rating.figure is None or fuse.figure is None or rating.figure >= fuse.figure:
        return
    if any(is_at_origin(job, board) for board in job.boards):
        says = (
            f"The main switch is rated {rating.shown} A, less than the {fuse.shown} A supply device before it. Is it "
            "protected against overload in some other way?"
        )
        place = Place(section="main_switch", box="current_rating")
        yield _found(job, place, shortfall(job), says, limit=f"{fuse.shown} A")


def _switches_of_boards(job: Job) -> Iterator[Finding]:
    """The switch of a board carries what the device feeding it lets through, where its words name a rating."""
    for board in job.boards:
        named, fed = _AMPERES.search(board.main_switch), board.device_rating
        if named is None or fed.figure is None or Decimal(named[1]) >= fed.figure:
            continue
        says = (
            f"The main switch of {board.name} is rated {named[1]} A, less than the {fed.shown} A device that feeds the "
            "board. Is it protected against overload in some other way?"
        )
        yield _found(job, board_place(board, "main_switch"), shortfall(job), says, limit=f"{fed.shown} A")


def _phase_sequence(job: Job) -> Iterator[Finding]:
    for board in job.boards:
        if board.phases.strip() == "3" and board.phase_sequence.meaning is Meaning.NOT_APPLICABLE:
            says = f"Phase sequence is marked N/A, but {board.name} has three phases; test it (643.9)"
            yield _found(job, board_place(board, "phase_sequence"), Severity.ASK, says)


def _surge_protection(job: Job) -> Iterator[Finding]:
    for board in job.boards:
        place, indicator = board_place(board, "spd_indicator"), board.spd_indicator
        is_absent = Reading.of(board.spd_type).meaning is Meaning.NOT_APPLICABLE
        if is_absent and indicator.meaning is Meaning.TICK:
            says = "The indicator of a surge protective device is confirmed, but the board is said to have none"
            yield _found(job, place, Severity.ASK, says)
        elif _names_one(board.spd_type) and indicator.meaning is Meaning.NOT_APPLICABLE:
            says = f"A surge protective device, {board.spd_type.strip()}, is recorded, but its indicator is marked N/A; look at it"
            yield _found(job, place, Severity.ASK, says)


def _names_one(spd_type: str) -> bool:
    return not says_nothing(spd_type) and not Reading.of(spd_type).is_mark
