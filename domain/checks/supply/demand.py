"""How much is taken against what it is taken through: maximum demand, supply fuse, main switch, the device before a board."""

import re
from collections.abc import Iterator
from decimal import Decimal

from domain.checks.shared.circuits_in_use import Way, is_at_origin
from domain.checks.shared.expected import voltage_to_earth
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.part_by_part import of_each_way
from domain.checks.shared.severities import shortfall
from domain.checks.shared.tolerances import tolerance
from domain.figures.formulas.rounding import half_up, written
from domain.figures.units import Amperes
from domain.forms.box_group import BoxGroup
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Reading
from domain.place import Place
from domain.regulation import regulation

_found = FindingFactory("demand")
_DEMAND = re.compile(r"\s*([0-9]{1,5}(?:[.,][0-9]{1,2})?)\s*(A|amps?|amperes?|kVA)\b.*", re.IGNORECASE)
_KILO = 1000


def demand(job: Job) -> Iterator[Finding]:
    """Nothing is rated, or taken, above the device it is fed through."""
    if not job.profile.takes(BoxGroup.ORIGIN):
        return
    taken = demand_in_amperes(job)
    if taken is not None:
        supply, switch = job.supply.device_rating, job.main_switch.current_rating
        if supply.figure is not None and taken > supply.figure:
            yield _over(job, "over-supply-device", supply, taken)
        elif switch.figure is not None and taken > switch.figure and any(is_at_origin(job, b) for b in job.boards):
            yield _over(job, "over-main-switch", switch, taken)
    yield from _ways_over_their_feed(job)


def demand_in_amperes(job: Job) -> Amperes | None:
    """The maximum demand as typed, of each phase; None where it is not plainly one figure with its unit."""
    match = _DEMAND.fullmatch(job.earthing.maximum_demand)
    if match is None:
        return None
    figure = Decimal(match[1].replace(",", "."))
    if match[2].casefold() != "kva":
        return Amperes(figure)
    phases = 3 if "3-phase" in job.supply.live_conductors else 1
    return Amperes(half_up(figure * _KILO / voltage_to_earth(job).value / phases, 1))


def _over(job: Job, case: str, rating: Reading[Amperes], taken: Amperes) -> Finding:
    return _found(
        job,
        Place(section="earthing", box="maximum_demand"),
        Severity.FAILS,
        case,
        limit=f"{rating.shown} A",
        source=regulation("maximum demand", job.edition),
        rating=rating,
        taken=written(taken),
    )


@of_each_way
def _ways_over_their_feed(job: Job, way: Way) -> Iterator[Finding]:
    """A way rated above the device that feeds its whole board."""
    fed, rating = way.board.device_rating, way.circuit.rating
    if rating.figure is None:
        return
    if fed.figure is None and is_at_origin(job, way.board):
        yield from _over_the_supply_device(job, way)
    if fed.figure is None or rating.figure <= fed.figure:
        return
    source = regulation("devices in series", job.edition)
    yield _found(
        job,
        way.at("rating"),
        Severity.FAILS,
        "way-over-its-feed",
        limit=f"{fed.shown} A",
        source=source,
        rating=rating,
        feeding=fed,
        board=way.board.name,
    )


def _over_the_supply_device(job: Job, way: Way) -> Iterator[Finding]:
    """The fuse of the cut-out would go first; the next size up of another series is common, so a little more is let be."""
    supply, rating = job.supply.device_rating, way.circuit.rating
    beyond = tolerance("device over the supply device by share", job.edition).value
    if supply.figure is None or rating.figure is None or rating.figure <= supply.figure * (1 + beyond):
        return
    yield _found(
        job,
        way.at("rating"),
        shortfall(job),
        "way-over-supply-device",
        limit=f"{supply.shown} A",
        source=regulation("devices in series", job.edition),
        rating=rating,
        supply=supply,
    )
