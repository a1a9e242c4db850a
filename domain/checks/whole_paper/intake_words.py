"""Boxes of the intake that deny each other: the electrode, main bonding, and what the main switch is by its standard."""

import re
from collections.abc import Iterator

from domain.checks.shared.circuits_in_use import board_place, ways_in_use
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.severities import shortfall
from domain.checks.shared.system import is_tn, is_tt
from domain.figures.limits.device import kind_of, standard_in
from domain.forms.box_group import BoxGroup
from domain.job.box import typed_in
from domain.job.earthing import BONDED
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning, Reading
from domain.place import Place
from domain.regulation import regulation
from domain.value import says_none

_found = FindingFactory("intake-words")
_GAS = re.compile(r"\bgas\b|\boil (?:pipe|line|supply)\b", re.IGNORECASE)
_WATER = re.compile(r"\b(?:water (?:main|pipe|service|supply)|rising main|stop ?cock)\b", re.IGNORECASE)
_METAL = re.compile(r"\bcopper|\bcu\b|\balu|\bal\b|steel|\biron\b|\blead\b|brass|bronze|galvani", re.IGNORECASE)
_SPD_TYPE = re.compile(r"(?<![0-9])[123](?![0-9])|\bI{1,3}\b|combined", re.IGNORECASE)
_FACILITY = "distributor's facility"
_LIVE = {"1-phase 2-wire": 2, "1-phase 3-wire": 3, "2-phase 3-wire": 3, "3-phase 3-wire": 3, "3-phase 4-wire": 4}
"""Live conductors by the words of the supply; all of them are opened where the neutral is not reliably earthed."""


def intake_words(job: Job) -> Iterator[Finding]:
    """What one box of the intake names, another does not deny."""
    if not job.profile.takes(BoxGroup.ORIGIN):
        return
    yield from _electrode(job)
    yield from _bonding(job)
    yield from _poles_on_tt(job)
    yield from _poles_to_spare(job)
    yield from _switch_that_is_an_rcd(job)
    yield from _times(job)
    yield from _metals(job)
    yield from _surge_types(job)


def _electrode(job: Job) -> Iterator[Finding]:
    """Pipes of gas, oil or a water undertaking are no electrodes (542.2, from memory)."""
    kind, source = job.earthing.electrode_type.strip(), regulation("pipes as electrodes", job.edition)
    place = Place(section="earthing", box="electrode_type")
    if _GAS.search(kind):
        yield _found(job, place, Severity.FAILS, "electrode-of-a-gas-pipe", source=source, kind=kind)
    elif _WATER.search(kind):
        yield _found(job, place, Severity.ASK, "electrode-of-a-water-pipe", source=source, kind=kind)
    resistance = job.earthing.electrode_resistance
    if is_tn(job) and job.earthing.means.strip() == _FACILITY and resistance.figure is not None:
        place, typed = Place(section="earthing", box="means"), {"system": job.supply.system.strip()}
        yield _found(job, place, Severity.ASK, "electrode-not-named", typed=typed, ra=resistance)


def _bonding(job: Job) -> Iterator[Finding]:
    earthing = job.earthing
    marks: list[Reading] = [getattr(earthing, box) for box in BONDED]
    typed = {"bonded": " ".join(each.shown for each in marks)}
    if earthing.bonding_csa.figure is None:
        return
    if earthing.bonding_verified.meaning is Meaning.NOT_APPLICABLE:
        place = Place(section="earthing", box="bonding_verified")
        yield _found(job, place, Severity.ASK, "bonding-not-verified", typed=typed, csa=earthing.bonding_csa)
    elif all(each.meaning is Meaning.NOT_APPLICABLE for each in marks) and says_none(earthing.bonded_other):
        place = Place(section="earthing", box="bonding_csa")
        yield _found(job, place, Severity.ASK, "bonding-to-nothing", typed=typed, csa=earthing.bonding_csa)


def _poles_on_tt(job: Job) -> Iterator[Finding]:
    """On TT the neutral is no earth, and is opened with the lines (461.2, from memory)."""
    poles, live = job.main_switch.poles, job.supply.live_conductors.strip()
    conductors = _conductors(live)
    if not is_tt(job) or conductors is None or poles.figure is None or poles.figure >= conductors:
        return
    if "3-phase" in live and poles.figure < conductors - 1:
        return  # Fewer poles than phases are asked about as such.
    place, source = Place(section="main_switch", box="poles"), regulation("neutral opened on TT", job.edition)
    typed = {"system": job.supply.system.strip(), "live_conductors": live}
    yield _found(job, place, shortfall(job), "poles-on-tt", source=source, typed=typed, poles=poles, live=live)


def _conductors(live: str) -> int | None:
    """How many live conductors a supply has, by its words; None where they tell of none."""
    return next((number for words, number in _LIVE.items() if words in live), None)


def _poles_to_spare(job: Job) -> Iterator[Finding]:
    """More poles than there are live conductors: one of the two was read wrong, or a larger switch was used in part."""
    poles, live = job.main_switch.poles, job.supply.live_conductors.strip()
    conductors = _conductors(live)
    if conductors is not None and poles.figure is not None and poles.figure > conductors:
        place, typed = Place(section="main_switch", box="poles"), {"live_conductors": live}
        yield _found(job, place, Severity.ASK, "poles-over-conductors", typed=typed, poles=poles, live=live)


def _switch_that_is_an_rcd(job: Job) -> Iterator[Finding]:
    known = standard_in(job.main_switch.standard)
    if is_tt(job) and any(not way.rcds for way in ways_in_use(job)):
        return  # Each circuit that lacks one says so.
    if known and kind_of(known) in {"RCD", "RCBO"} and says_none(job.main_switch.rcd_type):
        place, typed = (
            Place(section="main_switch", box="rcd_type"),
            {"standard": job.main_switch.standard.strip()},
        )
        yield _found(job, place, Severity.ASK, "switch-is-an-rcd", typed=typed, said={"standard": known})


def _times(job: Job) -> Iterator[Finding]:
    """The time of an RCD in the header of a board may stand at its circuits; that of the main switch has no other place."""
    if job.main_switch.is_rcd and job.main_switch.rcd_time.meaning is Meaning.NOT_APPLICABLE:
        place = Place(section="main_switch", box="rcd_time")
        typed = {"rcd_type": job.main_switch.rcd_type.strip()}
        yield _found(job, place, Severity.ASK, "switch-not-timed", typed=typed)


def _metals(job: Job) -> Iterator[Finding]:
    for box in ("conductor_material", "bonding_material"):
        metal = typed_in(job.earthing, box).strip()
        if metal and not Reading.of(metal).is_mark and not _METAL.search(metal):
            yield _found(job, Place(section="earthing", box=box), Severity.ASK, "no-such-metal", metal=metal)


def _surge_types(job: Job) -> Iterator[Finding]:
    """A surge protective device is of type 1, 2 or 3, or of several."""
    for board in job.boards:
        kind = board.spd_type.strip()
        if kind and not says_none(kind) and not Reading.of(kind).is_mark and not _SPD_TYPE.search(kind):
            yield _found(job, board_place(board, "spd_type"), Severity.ASK, "no-such-spd", kind=kind)
