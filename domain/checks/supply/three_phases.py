"""Fault current of three phases, recorded as that of one."""

from collections.abc import Iterator

from domain.checks.shared.circuits_in_use import board_place, is_at_origin
from domain.checks.shared.expected import voltage_to_earth
from domain.checks.shared.feeders import feeds_of
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.system import is_over_public_voltage, is_tn
from domain.checks.shared.tolerances import tolerance
from domain.figures.formulas.fault_current import fault_current
from domain.figures.formulas.rounding import half_up
from domain.figures.limits.loader import named_figure
from domain.figures.units import Kiloamperes, Ohms
from domain.forms.box_group import BoxGroup
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Reading
from domain.place import Place

_found = FindingFactory("three-phase-current")
_ENQUIRY, _KILO = "enquiry", 1000


def three_phase_current(job: Job) -> Iterator[Finding]:
    """Between three lines more flows than from one to neutral or earth; about twice, to be on the safe side."""
    supply = job.supply
    if not job.profile.takes(BoxGroup.ORIGIN) or "3-phase" not in supply.live_conductors or not is_tn(job):
        return
    if is_over_public_voltage(job):
        return
    said, feeds = False, feeds_of(job)
    if _ENQUIRY not in {supply.ipf_by, supply.ze_by}:
        for finding in _judged(job, Place(section="supply", box="ipf"), supply.ipf, supply.ze, "Ze"):
            said = True
            yield finding
    for board in job.boards:
        if board.phases.strip() != "3" or (said and is_at_origin(job, board)):
            continue
        before = feeds[board.id].board.zs.figure if board.id in feeds else None
        if before is None or (board.zs.figure or before) >= before:
            yield from _judged(job, board_place(board, "ipf"), board.ipf, board.zs, "Zdb")


def _judged(job: Job, place: Place, ipf: Reading[Kiloamperes], z: Reading[Ohms], name: str) -> Iterator[Finding]:
    if ipf.figure is None or z.figure is None or ipf.figure <= 0 or z.figure <= 0:
        return
    single = fault_current(voltage_to_earth(job), z.figure)
    one = single.value / _KILO
    factor = tolerance("Ipf of three phases over that of one by factor", job.edition).value
    least = 1 - named_figure("plausibility", "Ipf may be under U0 / Z by share", job.edition).value
    if not one * least <= ipf.figure <= one * factor:
        return
    twice = named_figure("fault_current", "three phases, times the single-phase figure", job.edition)
    expected = f"{half_up(one * twice.value, 2)} kA"
    yield _found(
        job,
        place,
        Severity.ASK,
        "one-phase",
        limit=expected,
        source=twice.source,
        working=single.sum,
        ipf=ipf,
        name=name,
        z=z,
        sum=single.sum,
    )
