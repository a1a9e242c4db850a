"""A load whose description names kilowatts, against the device of its circuit."""

import re
from collections.abc import Iterator
from decimal import Decimal

from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.expected import voltage_to_earth
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.part_by_part import of_each_way
from domain.checks.shared.severities import shortfall
from domain.figures.formulas.rounding import half_up, written
from domain.figures.limits.loader import named_figure, table
from domain.figures.units import Amperes
from domain.job.finding import Finding
from domain.job.job import Job
from domain.regulation import regulation

_found = FindingFactory("told-load")
_POWER = re.compile(r"(?<![0-9.,])([0-9]{1,3}(?:[.,][0-9]{1,2})?)\s*kW\b", re.IGNORECASE)
_USES = {
    "cooker": re.compile(r"\bcooker|\bhobs?\b|\bovens?\b|\brange\b", re.IGNORECASE),
    "shower": re.compile(r"\bshowers?\b", re.IGNORECASE),
    "water heating": re.compile(r"\bimmersion|\bwater heater", re.IGNORECASE),
    "space heating": re.compile(r"\bpanel heater|\bconvector|\bsauna\b", re.IGNORECASE),
    "charging point": re.compile(r"\bcharg(?:e|er|ing)\b|\bEV\b", re.IGNORECASE),
}
"""Words by which a description names one of the loads that guidance on diversity lists."""
_OTHERWISE = re.compile(
    r"\bheat pump|\bboiler\b|\bgas\b|\bpump\b|\bload (?:limit|manage)|\bset to\b|\blimited\b", re.IGNORECASE
)
"""Words beside which a power is heat given off, or is kept lower than it could be."""
_KILO, _LINES = 1000, 3


@of_each_way
def told_load(job: Job, way: Way) -> Iterator[Finding]:
    """A device that the load named on the schedule would open as soon as it is switched on."""
    rating, description = way.circuit.rating, way.circuit.description.strip()
    powers = _POWER.findall(description)
    if rating.figure is None or way.feeds_a_board or len(powers) != 1 or _OTHERWISE.search(description):
        return
    taken = _taken(job, description, _current(job, way, Decimal(powers[0].replace(",", "."))))
    more = named_figure("plausibility", "load named may be over its device by factor", job.edition)
    if taken is not None and taken > rating.figure * more.value:
        yield _found(
            job,
            way.at("rating"),
            shortfall(job),
            "over-its-device",
            limit=f"{rating.shown} A",
            source=regulation("maximum demand", job.edition),
            typed={"description": description},
            said={"description": description},
            rating=rating,
            taken=written(taken),
        )


def _current(job: Job, way: Way, power: Decimal) -> Amperes:
    """What a load of some kilowatts takes on each line at least, at U0, in amperes: on a board of three phases it may have all."""
    lines = _LINES if way.board.phases.strip() == "3" else 1
    return Amperes(half_up(power * _KILO / voltage_to_earth(job).value / lines, 1))


def _taken(job: Job, description: str, current: Amperes) -> Amperes | None:
    """What is reckoned with of a load, by the diversity of its kind; None for a kind that has none."""
    use = next((name for name, words in _USES.items() if words.search(description)), None)
    row = next((each for each in table("diversity", job.edition).rows if each.texts["use"] == use), None)
    if row is None:
        return None
    in_full, share = min(current, row.figures["in_full"].value), row.figures["share"].value.scaleb(-2)
    return Amperes(half_up(in_full + (current - in_full) * share, 1))
