"""Sizes of the earthing conductor and of main bonding, as far as the papers tell."""

from collections.abc import Iterator

from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.severities import shortfall
from domain.figures.formulas.bonding import half_the_earthing_conductor
from domain.figures.formulas.rounding import written
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure, table
from domain.forms.box_group import BoxGroup
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Reading
from domain.place import Place

_found = FindingFactory("bonding")
_COPPER, _PME, _EARTHED_BY_CABLE = "copper", "TN-C-S", {"TN-C-S", "TN-S"}


def bonding(job: Job) -> Iterator[Finding]:
    """On PME the smallest bonding conductor of the table; elsewhere half the earthing conductor and its floor."""
    if not job.profile.takes(BoxGroup.ORIGIN):
        return
    system = job.supply.system.strip().upper()
    if system == _PME:
        smallest = table("main_bonding", job.edition).rows[0].figures["at_least"]
        yield from _under(job, "bonding", "main-under-pme", smallest)
        yield from _under(job, "conductor", "earthing-under-pme", smallest)
    elif system in {"TN-S", "TT"}:
        least = named_figure("main_bonding_not_pme", "at least", job.edition)
        yield from _under(job, "bonding", "main-under", least)
        yield from _half(job, least)
    if system in _EARTHED_BY_CABLE:
        yield from _smaller_than_bonding(job)


def _under(job: Job, conductor: str, case: str, least: Limit) -> Iterator[Finding]:
    csa: Reading = getattr(job.earthing, f"{conductor}_csa")
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
    smallest = table("main_bonding", job.edition).rows[0].figures["at_least"]
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
