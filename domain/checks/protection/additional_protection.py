"""Circuits that need an RCD of 30 mA, as far as their description and the use of the premises tell."""

import re
from collections.abc import Iterator
from typing import NamedTuple

from domain.checks.shared.cables import runs_in_earthed_metal
from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.part_by_part import of_each_way
from domain.checks.shared.phrases import phrase
from domain.checks.shared.rcds import Rcd, says_none
from domain.checks.shared.severities import shortfall
from domain.checks.shared.system import is_reduced_low_voltage
from domain.checks.shared.uses import Use, is_dwelling, use_of
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure, table
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.value import is_hollow

_found = FindingFactory("additional-protection")
_SOCKETS = "use-sockets"
_FARM = re.compile(
    r"agricult|horticult|\bfarm\b(?![ -]?(?:house|shop|office))|\bdairy\b|\bstables?\b|\bmilking\b|\bpoultry\b",
    re.IGNORECASE,
)


class RcdRule(NamedTuple):
    """Why a circuit needs an RCD, and how sensitive it must be."""

    use: str
    """Which use of the circuit asks for it, as a phrase of the catalogue."""
    idn: Limit
    has_exception: bool = False
    may_wait: bool = False
    """A time-delayed RCD serves as well."""
    most: Limit | None = None
    """The rating up to which the rule holds."""

    @property
    def words(self) -> str:
        """What it is for, to stand in a sentence."""
        return phrase(self.use, most=self.most.shown if self.most else "")


@of_each_way
def additional_protection(job: Job, way: Way) -> Iterator[Finding]:
    """Each circuit for which a rule asks for an RCD has one, sensitive enough and without delay."""
    rule = rule_for(job, way)
    if rule is None:
        return
    if any(_serves(rcd, rule) for rcd in way.rcds):
        return
    if way.rcds:
        yield _unfit(job, way, rule, way.rcds[0])
    elif says_none(way.circuit):
        yield _missing(job, way, rule)


def rule_for(job: Job, way: Way) -> RcdRule | None:
    """The rule that asks for an RCD on a circuit; None where none is seen to."""
    if way.feeds_a_board:
        return None
    use, rating = use_of(way.circuit), way.circuit.rating.figure
    if use.extra_low or is_reduced_low_voltage(job):
        return None
    most = named_figure("circuit_rules", "socket-outlets with an RCD, up to", job.edition)
    if use.bath:
        return RcdRule(
            "use-bath",
            _row(job, "701.411.3.3", "circuits of a room with a bath or shower, or through its zones 1 and 2"),
        )
    if use.vehicle:
        return RcdRule("use-vehicle", _row(job, "722.531.3", "each connection point for an electric vehicle"))
    if use.sockets and rating is not None and rating <= most.value:
        return RcdRule(
            _SOCKETS,
            _row(job, "411.3.3", "socket-outlets up to 32 A"),
            has_exception=not is_dwelling(job),
            most=most,
        )
    return _by_place(job, way, use)


def _by_place(job: Job, way: Way, use: Use) -> RcdRule | None:
    if use.pitch:
        where = "each socket-outlet of a caravan pitch or a marina"
        return RcdRule("use-pitch", _row(job, "708 and 709", where))
    if use.floor_heating:
        return RcdRule("use-floor-heating", _row(job, "753", "heating in floors and ceilings"))
    if use.lights and is_dwelling(job):
        return RcdRule("use-lights", _row(job, "411.3.4", "luminaires in domestic premises"))
    return _by_premises(job, way, use)


def _by_premises(job: Job, way: Way, use: Use) -> RcdRule | None:
    if use.concealed and not runs_in_earthed_metal(way.circuit):
        where = "cable concealed in a wall less than 50 mm deep, without earthed or mechanical protection"
        return RcdRule("use-concealed", _row(job, "522.6.202", where))
    if _FARM.search(job.premises.use) and use.sockets:
        idn = _row(job, "705", "agricultural premises, socket-outlets over 32 A")
        return RcdRule("use-farm-sockets", idn, may_wait=True)
    if _FARM.search(job.premises.use):
        idn = _row(job, "705", "agricultural premises, other circuits")
        return RcdRule("use-farm", idn, may_wait=True)
    return None


def _row(job: Job, regulation: str, where: str) -> Limit:
    found = table("rcd_required", job.edition).limit("idn_up_to", regulation, where)
    assert found, f"the table of required RCDs has a row for {where}"
    return found


def _serves(rcd: Rcd, rule: RcdRule) -> bool:
    """An RCD whose rated residual current is not typed yet is a gap, not a fault."""
    return (rcd.idn.figure is None or rcd.idn.figure <= rule.idn.value) and (rule.may_wait or not rcd.is_delayed)


def _missing(job: Job, way: Way, rule: RcdRule) -> Finding:
    case, severity = "missing", shortfall(job)
    said = {"use": rule.words, "regulation": rule.idn.source.table, "caution": rule.idn.caution}
    if rule.has_exception and not is_hollow(job.work.exceptions):
        case, severity = "missing-as-excepted", Severity.NOTE
    elif rule.has_exception and not job.profile.states_a_condition:
        case = "missing-unless-assessed"
    elif rule.use == _SOCKETS and not job.profile.states_a_condition and not use_of(way.circuit).is_guess:
        # What is missing is the RCD: the figure stands in the sentence, and no reading is over or under it.
        named = said | {"idn": rule.idn.shown}
        place, source = way.at("rcd_standard"), rule.idn.source
        return _found(job, place, severity, "missing-in-dwelling", source=source, measured="N/A", said=named)
    return _found(job, way.at("rcd_standard"), severity, case, limit=rule.idn, measured="N/A", said=said)


def _unfit(job: Job, way: Way, rule: RcdRule, rcd: Rcd) -> Finding:
    box = "rcd_idn" if way.circuit.has_rcd and way.circuit.rcd_idn.is_given else "rcd_standard"
    is_too_large = rcd.idn.figure is not None and rcd.idn.figure > rule.idn.value
    return _found(
        job,
        way.at(box),
        shortfall(job),
        "too-insensitive" if is_too_large else "delayed",
        limit=rule.idn,
        measured=f"{rcd.idn.shown} mA" if rcd.idn.figure is not None else "",
        typed={"rcd_type": rcd.kind.strip()},
        rcd=rcd.named,
        idn=rcd.idn,
        use=rule.words,
        regulation=rule.idn.source.table,
        caution=rule.idn.caution,
    )
