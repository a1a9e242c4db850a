"""Circuits that need an RCD of 30 mA, as far as their description and the use of the premises tell."""

import re
from collections.abc import Iterator
from typing import NamedTuple

from domain.checks.shared.circuits_in_use import Way, ways_in_use
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.rcds import Rcd, says_none
from domain.checks.shared.severities import shortfall
from domain.checks.shared.uses import is_dwelling, use_of
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure, table
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.value import says_nothing

_found = FindingFactory("additional-protection")
_FARM = re.compile(r"agricult|horticult", re.IGNORECASE)


class RcdRule(NamedTuple):
    """Why a circuit needs an RCD, and how sensitive it must be."""

    words: str
    idn: Limit
    has_exception: bool = False
    may_wait: bool = False
    """A time-delayed RCD serves as well."""


def additional_protection(job: Job) -> Iterator[Finding]:
    """Each circuit for which a rule asks for an RCD has one, sensitive enough and without delay."""
    for way in ways_in_use(job):
        rule = rule_for(job, way)
        if rule is None:
            continue
        if any(_serves(rcd, rule) for rcd in way.rcds):
            continue
        if way.rcds:
            yield _unfit(job, way, rule, way.rcds[0])
        elif says_none(way.circuit):
            yield _missing(job, way, rule)


def rule_for(job: Job, way: Way) -> RcdRule | None:
    """The rule that asks for an RCD on a circuit; None where none is seen to."""
    if way.feeds_a_board:
        return None
    use, rating = use_of(way.circuit), way.circuit.rating.figure
    if use.extra_low:
        return None
    most = named_figure("circuit_rules", "socket-outlets with an RCD, up to", job.edition)
    if use.bath:
        return RcdRule(
            "a circuit of a room with a bath or shower",
            _row(job, "701.411.3.3", "circuits of a room with a bath or shower, or through its zones 1 and 2"),
        )
    if use.vehicle:
        return RcdRule(
            "a charge point for vehicles", _row(job, "722.531.3", "each connection point for an electric vehicle")
        )
    if use.sockets and rating is not None and rating <= most.value:
        return RcdRule(
            f"socket-outlets up to {most.shown}",
            _row(job, "411.3.3", "socket-outlets up to 32 A"),
            has_exception=not is_dwelling(job),
        )
    if use.floor_heating:
        return RcdRule("heating in the floor", _row(job, "753", "heating in floors and ceilings"))
    if use.lights and is_dwelling(job):
        return RcdRule("luminaires where people live", _row(job, "411.3.4", "luminaires in domestic premises"))
    if _FARM.search(job.premises.use):
        idn = _row(job, "705", "agricultural premises, other circuits")
        return RcdRule("a circuit of agricultural premises", idn, may_wait=True)
    return None


def _row(job: Job, regulation: str, where: str) -> Limit:
    found = table("rcd_required", job.edition).limit("idn_up_to", regulation, where)
    assert found, f"the table of required RCDs has a row for {where}"
    return found


def _serves(rcd: Rcd, rule: RcdRule) -> bool:
    """An RCD whose rated residual current is not typed yet is a gap, not a fault."""
    return (rcd.idn.figure is None or rcd.idn.figure <= rule.idn.value) and (rule.may_wait or not rcd.is_delayed)


def _missing(job: Job, way: Way, rule: RcdRule) -> Finding:
    says, severity = (
        f"No RCD protects {rule.words}, which {rule.idn.source.table} asks for{rule.idn.caution}",
        shortfall(job),
    )
    if rule.has_exception and not says_nothing(job.work.exceptions):
        severity = Severity.NOTE
        says += "; a permitted exception is written down for this work. Its risk assessment goes with the certificate"
    elif job.profile.states_a_condition:
        says += ". Observe it with the code the use and the users call for"
    elif rule.has_exception:
        says += ". Only a documented risk assessment allows to leave it out, and then under the permitted exceptions"
    else:
        says += f". Fit one of {rule.idn.shown} or less"
    place = way.at("rcd_standard")
    return _found(job, place, severity, says, limit=rule.idn, measured="N/A")


def _unfit(job: Job, way: Way, rule: RcdRule, rcd: Rcd) -> Finding:
    asks, has = rule.idn.source.table, f"{rcd.idn.shown} mA" if rcd.idn.figure is not None else ""
    if rcd.idn.figure is not None and rcd.idn.figure > rule.idn.value:
        says = f"{rcd.named}, of {has}, protects {rule.words}; {asks} asks for {rule.idn.shown} or less"
    else:
        says = f"{rcd.named} is time-delayed and protects {rule.words}; {asks} asks for one that opens without delay"
    box = "rcd_idn" if way.circuit.has_rcd and way.circuit.rcd_idn.is_given else "rcd_standard"
    return _found(job, way.at(box), shortfall(job), says + rule.idn.caution, limit=rule.idn, measured=has)
