"""Circuits that need an RCD of 30 mA, as far as their description and the use of the premises tell."""

import re
from collections.abc import Iterator
from typing import NamedTuple

from domain.checks.feeders import feeds_of
from domain.checks.rcds_before import Rcd, rcds_before, says_none
from domain.checks.severities import shortfall
from domain.checks.uses import is_dwelling, use_of
from domain.checks.ways import Way, ways_in_use
from domain.finding import Finding, Severity
from domain.job import Job
from domain.limits.device import RCBO, standard_in
from domain.limits.limit import Limit
from domain.limits.loader import named_figure, table
from domain.reading import Meaning, Reading

_CHECK = "additional-protection"
_FARM = re.compile(r"agricult|horticult", re.IGNORECASE)
_NONE = {"", "none", "no", "nil", "n/a", "na", "-", "none."}


class Rule(NamedTuple):
    """Why a circuit needs an RCD, and how sensitive it must be."""

    words: str
    idn: Limit
    has_exception: bool = False
    may_wait: bool = False
    """A time-delayed RCD serves as well."""


def additional_protection(job: Job) -> Iterator[Finding]:
    """Each circuit for which a rule asks for an RCD has one, sensitive enough and without delay."""
    feeds = feeds_of(job)
    for way in ways_in_use(job):
        rule = rule_for(job, way)
        if rule is None:
            continue
        rcds = rcds_before(job, way, feeds)
        if any(_serves(rcd, rule) for rcd in rcds):
            continue
        if rcds:
            yield from _unfit(job, way, rule, rcds[0])
        elif says_none(way.circuit) and standard_in(way.circuit.device_standard) != RCBO:
            yield _missing(job, way, rule)


def rule_for(job: Job, way: Way) -> Rule | None:
    """The rule that asks for an RCD on a circuit; None where none is seen to."""
    if way.feeds_a_board:
        return None
    use, rating = use_of(way.circuit), way.circuit.rating.figure
    if use.extra_low:
        return None
    most = named_figure("circuit_rules", "socket-outlets with an RCD, up to", job.edition)
    if use.bath:
        return Rule(
            "a circuit of a room with a bath or shower",
            _row(job, "701.411.3.3", "circuits of a room with a bath or shower, or through its zones 1 and 2"),
        )
    if use.vehicle:
        return Rule(
            "a charge point for vehicles", _row(job, "722.531.3", "each connection point for an electric vehicle")
        )
    if use.sockets and rating is not None and rating <= most.value:
        return Rule(
            f"socket-outlets up to {most.shown}",
            _row(job, "411.3.3", "socket-outlets up to 32 A"),
            has_exception=not is_dwelling(job),
        )
    if use.floor_heating:
        return Rule("heating in the floor", _row(job, "753", "heating in floors and ceilings"))
    if use.lights and is_dwelling(job):
        return Rule("luminaires where people live", _row(job, "411.3.4", "luminaires in domestic premises"))
    if _FARM.search(job.premises.use):
        idn = _row(job, "705", "agricultural premises, other circuits")
        return Rule("a circuit of agricultural premises", idn, may_wait=True)
    return None


def _row(job: Job, regulation: str, where: str) -> Limit:
    found = table("rcd_required", job.edition).limit("idn_up_to", regulation, where)
    assert found, f"the table of required RCDs has a row for {where}"
    return found


def _serves(rcd: Rcd, rule: Rule) -> bool:
    """An RCD whose rated residual current is not typed yet is a gap, not a fault."""
    return (rcd.idn is None or rcd.idn <= rule.idn.value) and (rule.may_wait or not rcd.is_delayed)


def _missing(job: Job, way: Way, rule: Rule) -> Finding:
    says = f"No RCD protects {rule.words}, which {rule.idn.source.table} asks for"
    if rule.has_exception and job.work.exceptions.strip().casefold() not in _NONE:
        says += "; a permitted exception is written down for this work. Its risk assessment goes with the certificate"
        return _finding(way, "rcd_standard", Severity.NOTE, "N/A", rule, says)
    if job.form_set.is_report:
        says += ". Observe it with the code the use and the users call for"
    elif rule.has_exception:
        says += ". Only a documented risk assessment allows to leave it out, and then under the permitted exceptions"
    return _finding(way, "rcd_standard", shortfall(job), "N/A", rule, says)


def _unfit(job: Job, way: Way, rule: Rule, rcd: Rcd) -> Iterator[Finding]:
    idn = f"{rcd.shown} mA"
    if rcd.idn is not None and rcd.idn > rule.idn.value:
        says = f"An RCD of {idn} protects {rule.words}; {rule.idn.source.table} asks for {rule.idn.shown} or less"
    else:
        says = (
            f"A time-delayed RCD protects {rule.words}; {rule.idn.source.table} asks for one that opens without delay"
        )
    box = "rcd_idn" if Reading.of(way.circuit.rcd_idn.typed).meaning is not Meaning.EMPTY else "rcd_standard"
    yield _finding(way, box, shortfall(job), idn, rule, says)


def _finding(way: Way, box: str, severity: Severity, measured: str, rule: Rule, says: str) -> Finding:
    return Finding(
        check=_CHECK,
        place=way.at(box),
        severity=severity,
        measured=measured,
        limit=rule.idn.shown,
        source=rule.idn.source,
        says=f"{says}{rule.idn.caution}",
    )
