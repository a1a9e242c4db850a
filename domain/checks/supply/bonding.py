"""Sizes of the earthing conductor and of main bonding, as far as the papers tell."""

from collections.abc import Iterator

from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.protective_sizes import by_table
from domain.checks.shared.severities import shortfall
from domain.figures.formulas.bonding import half_the_earthing_conductor
from domain.figures.formulas.rounding import written
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure, table
from domain.figures.units import SquareMillimetres
from domain.forms.box_group import BoxGroup
from domain.job.earthing import BURIED, NOT_BURIED
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Reading
from domain.place import Place

_found = FindingFactory("bonding")
OTHER_METALS = ("aluminium", "steel")
_GUARDS = dict(zip(BURIED[1:], ("corrosion and mechanical", "corrosion", "none"), strict=True))
"""What its box says, and the row of the table."""
_COPPER, _PME, _EARTHED_BY_CABLE = "copper", "TN-C-S", {"TN-C-S", "TN-S"}


def bonding(job: Job) -> Iterator[Finding]:
    """On PME the smallest bonding conductor of the table; elsewhere half the earthing conductor and its floor."""
    if not job.profile.takes(BoxGroup.ORIGIN):
        return
    system = job.supply.system.strip().upper()
    if system == _PME:
        smallest = by_neutral(job)
        yield from _under(job, "bonding", "main-under-pme", smallest)
        yield from _under(job, "conductor", "earthing-under-pme", smallest)
        yield from _not_copper(job, smallest)
    elif system in {"TN-S", "TT"}:
        least = named_figure("main_bonding_not_pme", "at least", job.edition)
        yield from _under(job, "bonding", "main-under", least)
        yield from _half(job, least)
    if system in _EARTHED_BY_CABLE:
        yield from _smaller_than_bonding(job)


def by_neutral(job: Job) -> Limit:
    """The smallest main bonding of copper on PME, by the neutral of the supply; while its size is not known, for up to 35 mm²."""
    rows, neutral = table("main_bonding", job.edition).rows, job.supply.neutral_csa.figure
    if neutral is None:
        return rows[0].figures["at_least"]
    fitting = (row for row in rows if (up_to := row.figures.get("neutral_up_to")) is None or neutral <= up_to.value)
    return next(fitting).figures["at_least"]


def _not_copper(job: Job, copper: Limit) -> Iterator[Finding]:
    """Another metal conducts as well as the copper the table asks for (544.1.1)."""
    for conductor in ("bonding", "conductor"):
        csa: Reading[SquareMillimetres] = getattr(job.earthing, f"{conductor}_csa")
        material = getattr(job.earthing, f"{conductor}_material").strip().casefold()
        if material not in OTHER_METALS or csa.figure is None:
            continue
        times = named_figure("conductance", f"{material}, times the size of copper", job.edition)
        least = copper.value * times.value
        if csa.figure < least:
            said = {"material": material, "copper": copper.shown, "times": times.shown, "caution": times.caution}
            case = "main-of-another-metal" if conductor == "bonding" else "earthing-of-another-metal"
            yield _found(
                job, _size_of(conductor), shortfall(job), case, limit=f"{written(least)} mm²", source=times.source,
                typed={"material": material}, said=said, csa=csa,
            )  # fmt: skip


def earthing_conductor(job: Job) -> Iterator[Finding]:
    """By Table 54.7 for the conductors of the supply, where their size is known; where it is buried, by Table 54.1."""
    if not job.profile.takes(BoxGroup.ORIGIN):
        return
    neutral, earth = job.supply.neutral_csa, job.earthing.conductor_csa
    yield from _buried(job, earth)
    if not _is_copper(job, "conductor") or earth.figure is None:
        return
    if neutral.figure is not None and neutral.figure > 0 and job.supply.system.strip().upper() in _EARTHED_BY_CABLE:
        least = by_table(neutral.figure, job.edition)
        if earth.figure < least.value:
            yield _found(
                job,
                _size_of("conductor"),
                shortfall(job),
                "earthing-by-table",
                limit=f"{written(least.value)} mm²",
                source=least.source,
                earthing=earth,
                neutral=neutral,
            )


def _buried(job: Job, earth: Reading[SquareMillimetres]) -> Iterator[Finding]:
    """By what its box says guards it. While that is empty, what no guard allows is asked about; what some allows is noted."""
    told = job.earthing.conductor_buried.strip()
    if told == NOT_BURIED or earth.figure is None:
        return
    material = job.earthing.conductor_material.strip().casefold()
    if told:
        least = _least_buried(job, material, _GUARDS[told]) if told in _GUARDS else None
        if least and earth.figure < least.value:
            yield _found(
                job, _size_of("conductor"), shortfall(job), "buried-as-guarded", limit=least, earthing=earth,
                typed={"buried": told}, material=material, guard=told, caution=least.caution,
            )  # fmt: skip
        return
    guarded, bare = (_least_buried(job, _COPPER, kind) for kind in ("corrosion and mechanical", "corrosion"))
    assert guarded, "the table has the row"
    assert bare, "the table has the row"
    if material != _COPPER or job.earthing.means.strip() != "electrode":
        return
    if earth.figure < guarded.value:
        yield _found(
            job, _size_of("conductor"), shortfall(job), "buried-under", limit=guarded, earthing=earth,
            caution=guarded.caution,
        )  # fmt: skip
    elif earth.figure < min(bare.value, job.earthing.bonding_csa.figure or earth.figure):
        yield _found(
            job, _size_of("conductor"), Severity.NOTE, "buried-guarded", limit=bare, earthing=earth, caution=bare.caution
        )  # fmt: skip


def _least_buried(job: Job, material: str, guard: str) -> Limit | None:
    rows = table("min_protective", job.edition)
    return rows.limit(material, "buried earthing conductor", guard) if material in {_COPPER, "steel"} else None


def _under(job: Job, conductor: str, case: str, least: Limit) -> Iterator[Finding]:
    csa: Reading[SquareMillimetres] = getattr(job.earthing, f"{conductor}_csa")
    if _is_copper(job, conductor) and csa.figure is not None and csa.figure < least.value:
        yield _found(job, _size_of(conductor), shortfall(job), case, limit=least, csa=csa)


def _half(job: Job, least: Limit) -> Iterator[Finding]:
    """A note only: the rule asks for half of what the earthing conductor needs, which may be less than what is there."""
    earth, bond = job.earthing.conductor_csa, job.earthing.bonding_csa
    if earth.figure is None or bond.figure is None or not (_is_copper(job, "conductor") and _is_copper(job, "bonding")):
        return
    share, most = (
        named_figure("main_bonding_not_pme", name, job.edition)
        for name in ("share of the earthing conductor", "need not exceed")
    )
    working = half_the_earthing_conductor(earth.figure, share, least, most)
    if working and least.value <= bond.figure < working.value:
        yield _found(
            job,
            _size_of("bonding"),
            Severity.NOTE,
            "under-half",
            limit=f"{written(working.value)} mm²",
            source=least.source,
            bonding=bond,
            earthing=earth,
            sum=working.sum,
        )


def _smaller_than_bonding(job: Job) -> Iterator[Finding]:
    earth, bond = job.earthing.conductor_csa, job.earthing.bonding_csa
    if earth.figure is None or bond.figure is None or not (_is_copper(job, "conductor") and _is_copper(job, "bonding")):
        return
    smallest = by_neutral(job)
    is_said = job.supply.system.strip().upper() == _PME and earth.figure < smallest.value
    if earth.figure < bond.figure and not is_said:
        yield _found(
            job,
            _size_of("conductor"),
            shortfall(job),
            "earthing-smaller",
            limit=f"{bond.shown} mm²",
            source=smallest.source,
            earthing=earth,
            bonding=bond,
        )


def _size_of(conductor: str) -> Place:
    return Place(section="earthing", box=f"{conductor}_csa")


def _is_copper(job: Job, conductor: str) -> bool:
    return getattr(job.earthing, f"{conductor}_material").strip().casefold() == _COPPER
