"""What is said of the supply, the earthing, the main switch and the boards, held against each other."""

from collections.abc import Iterator

from domain.checks.system import is_tn, is_tt
from domain.checks.ways import board_place
from domain.finding import Finding, Severity
from domain.job import Job
from domain.place import Place
from domain.reading import Meaning, Reading

_CHECK = "supply-fits"
_BONDED = ("bonded_water", "bonded_gas", "bonded_oil", "bonded_steel", "bonded_lightning")
_THREE, _ONE = "3-phase", "1-phase"
_POLES_OF_THREE = 3


def supply_fits(job: Job) -> Iterator[Finding]:
    """Phases, voltages, the means of earthing and what is bonded agree with each other."""
    if job.form_set.has_schedules:
        yield from _phases(job)
        yield from _earthing(job)
        yield from _bonding(job)
    yield from _surge_protection(job)


def _phases(job: Job) -> Iterator[Finding]:
    live, supply = job.supply.live_conductors, job.supply
    if _ONE in live:
        for board in job.boards:
            if board.phases.strip() == "3":
                says = f"{board.name} has three phases, but the supply is {live.strip()}"
                yield _finding(board_place(board, "phases"), board.phases.strip(), says)
    if _THREE not in live:
        return
    poles = job.main_switch.poles
    if poles.figure is not None and poles.figure < _POLES_OF_THREE:
        says = f"A main switch of {poles.shown} poles cannot switch {live.strip()}"
        yield _finding(Place(section="main_switch", box="poles"), poles.shown, says)
    between, to_earth = supply.voltage.figure, supply.voltage_to_earth.figure
    if between is not None and to_earth is not None and between <= to_earth:
        says = (
            f"On three phases the voltage between lines, {supply.voltage.shown} V, must be more than that "
            f"from line to earth, {supply.voltage_to_earth.shown} V"
        )
        yield _finding(Place(section="supply", box="voltage"), f"{supply.voltage.shown} V", says)


def _earthing(job: Job) -> Iterator[Finding]:
    means, system = job.earthing.means.strip(), job.supply.system.strip()
    place = Place(section="earthing", box="means")
    if is_tt(job) and means == "distributor's facility":
        says = "On TT the earth is the installation's own electrode, but the distributor's facility is named"
        yield _finding(place, means, says)
    elif system and is_tn(job) and means == "electrode":
        says = f"On {system} the distributor provides the earth, but only an electrode is named"
        yield _finding(place, means, says)
    resistance = job.earthing.electrode_resistance
    if means == "electrode" and resistance.meaning is Meaning.NOT_APPLICABLE:
        says = "The electrode is the only means of earthing, but its resistance is marked N/A"
        yield _finding(Place(section="earthing", box="electrode_resistance"), resistance.shown, says)


def _bonding(job: Job) -> Iterator[Finding]:
    csa = job.earthing.bonding_csa
    bonded: list[Reading] = [getattr(job.earthing, box) for box in _BONDED]
    if csa.meaning is Meaning.NOT_APPLICABLE and any(each.meaning is Meaning.TICK for each in bonded):
        says = "Something is marked as bonded, but the main bonding conductor is marked N/A"
        yield _finding(Place(section="earthing", box="bonding_csa"), csa.shown, says)


def _surge_protection(job: Job) -> Iterator[Finding]:
    for board in job.boards:
        absent = Reading.of(board.spd_type).meaning is Meaning.NOT_APPLICABLE
        if absent and board.spd_indicator.meaning is Meaning.TICK:
            says = "The indicator of a surge protective device is confirmed, but the board is said to have none"
            yield _finding(board_place(board, "spd_indicator"), board.spd_indicator.shown, says)


def _finding(place: Place, measured: str, says: str) -> Finding:
    return Finding(check=_CHECK, place=place, severity=Severity.ASK, measured=measured, says=says)
