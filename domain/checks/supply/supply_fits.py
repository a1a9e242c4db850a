"""What is said of the supply, the earthing, the main switch and the boards, held against each other."""

import re
from collections.abc import Iterator
from decimal import Decimal

from domain.checks.shared.cables import says_three_phases
from domain.checks.shared.circuits_in_use import board_place, is_at_origin, ways_in_use
from domain.checks.shared.decimal_slip import did_you_mean
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.loading import demand_of
from domain.checks.shared.phrases import phrase
from domain.checks.shared.severities import shortfall
from domain.checks.shared.system import is_tn, is_tt
from domain.checks.shared.tolerances import loop_margin, near
from domain.figures.limits.loader import named_figure, table
from domain.forms.box_group import BoxGroup
from domain.job.earthing import BONDED
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning, Reading
from domain.place import Place
from domain.regulation import regulation
from domain.value import says_nothing

_found = FindingFactory("supply-fits")
_AMPERES = re.compile(r"(?<![\d.])([0-9]{1,4})\s*(?:A|amps?)\b", re.IGNORECASE)
_COMBINED = "TN-C"
_THREE, _ONE = "3-phase", "1-phase"
_POLES_OF_THREE = 3
_BOTH = "both"


def supply_fits(job: Job) -> Iterator[Finding]:
    """Phases, voltages, the means of earthing and what is bonded agree with each other."""
    if job.profile.takes(BoxGroup.ORIGIN):
        yield from _phases(job)
        yield from _earthing(job)
        yield from _bonding(job)
        yield from _electrode(job)
        yield from _main_switch(job)
        yield from _switches_of_boards(job)
    yield from _surge_protection(job)


def _phases(job: Job) -> Iterator[Finding]:
    live, supply = job.supply.live_conductors, job.supply
    if _ONE in live:
        for board in job.boards:
            if board.phases.strip() == "3":
                place = board_place(board, "phases")
                typed = {"live_conductors": live.strip()}
                yield _found(
                    job,
                    place,
                    Severity.ASK,
                    "board-of-three-phases",
                    typed=typed,
                    board=board.name,
                    live=live.strip(),
                )
    yield from _ways_of_three(job)
    if _THREE not in live:
        return
    poles = job.main_switch.poles
    if poles.figure is not None and poles.figure < _POLES_OF_THREE:
        place, typed = Place(section="main_switch", box="poles"), {"live_conductors": live.strip()}
        yield _found(job, place, Severity.ASK, "poles-for-three-phases", typed=typed, poles=poles, live=live.strip())
    between, to_earth = supply.voltage.figure, supply.voltage_to_earth.figure
    if between is not None and to_earth is not None and between <= to_earth:
        yield _found(
            job,
            Place(section="supply", box="voltage"),
            Severity.ASK,
            "voltages-of-three-phases",
            between=supply.voltage,
            to_earth=supply.voltage_to_earth,
        )


def _ways_of_three(job: Job) -> Iterator[Finding]:
    """Said once for a board: it is its header that is likely wrong."""
    for board in job.boards:
        if board.phases.strip() != "1":
            continue
        ways = (each for each in board.circuits if says_three_phases(each.number) and not each.is_spare)
        if way := next(ways, None):
            place, typed = board_place(board, "phases"), {"number": way.number.strip()}
            yield _found(
                job,
                place,
                Severity.ASK,
                "way-of-three-phases",
                typed=typed,
                board=board.name,
                number=way.number.strip(),
            )


def _earthing(job: Job) -> Iterator[Finding]:
    means, system = job.earthing.means.strip(), job.supply.system.strip()
    if system.upper() == _COMBINED:
        source = regulation("combined neutral and earth", job.edition)
        yield _found(job, Place(section="supply", box="system"), Severity.ASK, "combined-inside", source=source)
    place, typed = Place(section="earthing", box="means"), {"system": system}
    if is_tt(job) and means == "distributor's facility":
        yield _found(job, place, Severity.ASK, "facility-on-tt", typed=typed)
    elif system and is_tn(job) and means == "electrode":
        yield _found(job, place, Severity.ASK, "electrode-on-tn", typed=typed, system=system)
    if means == "electrode" and job.earthing.electrode_resistance.meaning is Meaning.NOT_APPLICABLE:
        place, typed = Place(section="earthing", box="electrode_resistance"), {"means": means}
        yield _found(job, place, Severity.ASK, "electrode-not-measured", typed=typed)


def _bonding(job: Job) -> Iterator[Finding]:
    csa = job.earthing.bonding_csa
    bonded: list[Reading] = [getattr(job.earthing, box) for box in BONDED]
    if csa.meaning is Meaning.NOT_APPLICABLE and any(each.meaning is Meaning.TICK for each in bonded):
        place, typed = Place(section="earthing", box="bonding_csa"), {"bonded": " ".join(each.shown for each in bonded)}
        yield _found(job, place, Severity.ASK, "bonding-marked-n-a", typed=typed)


def _electrode(job: Job) -> Iterator[Finding]:
    """On TT, RA is the greater part of Ze: the rest is the distributor's electrode and the line."""
    resistance, ze = job.earthing.electrode_resistance, job.supply.ze
    ra, place = resistance.figure, Place(section="earthing", box="electrode_resistance")
    if ra is None or ra <= 0 or not (is_tt(job) or job.earthing.means.strip() == _BOTH):
        return
    steady = named_figure("plausibility", "electrode may be unstable above", job.edition)
    if ra > steady.value:
        yield _found(job, place, Severity.ASK, "electrode-unstable", limit=steady, ra=resistance)
    if not is_tt(job):
        return
    if ze.figure is None or ze.figure <= 0 or job.supply.ze_by == "enquiry":
        return
    others = table("declared_ze", job.edition).row("TT")
    assert others, "the table of declared impedances has a row for TT"
    margin = loop_margin(ze.figure, job.edition, on_tt=True)
    if ze.figure - margin - others.figures["ze"].value <= ra <= ze.figure + margin:
        return
    slip = did_you_mean(resistance, "Ω", near(ze.figure, job.edition))
    yield _found(
        job,
        place,
        Severity.ASK,
        "ra-off-ze",
        limit=phrase("about", figure=f"{ze.shown} Ω"),
        ra=resistance,
        ze=ze,
        next=slip or phrase("another-path-to-earth"),
    )


def _main_switch(job: Job) -> Iterator[Finding]:
    """A switch that carries less than the fuse before it lets through relies on the load staying low."""
    rating, fuse = job.main_switch.current_rating, job.supply.device_rating
    if rating.figure is None or fuse.figure is None or rating.figure >= fuse.figure:
        return
    origin = {board.id for board in job.boards if is_at_origin(job, board)}
    behind = [way for way in ways_in_use(job) if way.board.id in origin]
    if behind and all(way.circuit.rating.figure for way in behind) and demand_of(behind) <= rating.figure:
        return
    if origin:
        place, limit = Place(section="main_switch", box="current_rating"), f"{fuse.shown} A"
        yield _found(
            job, place, shortfall(job), "switch-under-supply-fuse", limit=limit, rating=rating, supply_fuse=fuse
        )


def _switches_of_boards(job: Job) -> Iterator[Finding]:
    """The switch of a board carries what the device feeding it lets through, where its words name a rating."""
    for board in job.boards:
        named, fed = _AMPERES.search(board.main_switch), board.device_rating
        if named is None or fed.figure is None or Decimal(named[1]) >= fed.figure:
            continue
        yield _found(
            job,
            board_place(board, "main_switch"),
            shortfall(job),
            "switch-under-its-feed",
            limit=f"{fed.shown} A",
            board=board.name,
            rating=named[1],
            feeding=fed,
        )


def _surge_protection(job: Job) -> Iterator[Finding]:
    for board in job.boards:
        place, indicator = board_place(board, "spd_indicator"), board.spd_indicator
        is_absent = Reading.of(board.spd_type).meaning is Meaning.NOT_APPLICABLE
        if is_absent and indicator.meaning is Meaning.TICK:
            yield _found(job, place, Severity.ASK, "indicator-without-spd", typed={"spd_type": board.spd_type.strip()})
        elif _names_one(board.spd_type) and indicator.meaning is Meaning.NOT_APPLICABLE:
            spd = board.spd_type.strip()
            yield _found(job, place, Severity.ASK, "indicator-marked-n-a", typed={"spd_type": spd}, spd=spd)


def _names_one(spd_type: str) -> bool:
    return not says_nothing(spd_type) and not Reading.of(spd_type).is_mark
