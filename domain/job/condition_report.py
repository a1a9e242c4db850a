"""Why a condition report was made, how far it went, and what its author recommends."""

from typing import Annotated, Any

from pydantic import Field

from domain.figures.units import Days
from domain.forms.box_group import BoxGroup
from domain.job.box import Box, BoxKind
from domain.job.reading import NOT_TAKEN, Reading
from domain.value import Line, Prose, Value, is_empty, says_nothing


def _some_agreed(report: Any) -> bool:
    return not says_nothing(report.agreed_limitations)


def _is_decided(report: Any) -> bool:
    return bool(report.fi_alone.strip())


def _is_not_taken(reading: Reading) -> bool:
    return reading == NOT_TAKEN


class Report(Value):
    """Why a condition report was made, how far it went, and what its author recommends."""

    reason: Annotated[
        Prose,
        Box(
            "Reason for the report",
            BoxKind.PROSE,
            group=BoxGroup.CONDITION,
            must=True,
            names=True,
            help="Why it was ordered: new tenancy, purchase, interval reached.",
        ),
    ] = ""
    inspected_from: Annotated[
        Line,
        Box(
            "First day of inspection",
            BoxKind.DATE,
            group=BoxGroup.CONDITION,
            not_applicable=True,
            help="Only when it took several days.",
        ),
    ] = ""
    inspected_on: Annotated[
        Line,
        Box(
            "Inspected and tested on",
            BoxKind.DATE,
            group=BoxGroup.CONDITION,
            must=True,
            help="The day, or the last of several days.",
        ),
    ] = ""
    extent: Annotated[
        Prose,
        Box(
            "Extent covered",
            BoxKind.PROSE,
            group=BoxGroup.CONDITION,
            must=True,
            names=True,
            help="Which parts were inspected and tested, and what share of them.",
        ),
    ] = ""
    agreed_limitations: Annotated[
        Prose,
        Box(
            "Agreed limitations, with reasons",
            BoxKind.PROSE,
            group=BoxGroup.CONDITION,
            must=True,
            help="What was agreed beforehand to be left out, and why. Type None when nothing was.",
        ),
    ] = ""
    agreed_with: Annotated[
        Line,
        Box(
            "Agreed with",
            group=BoxGroup.CONDITION,
            must=True,
            when=_some_agreed,
            not_applicable=True,
            help="Name of the person who agreed the limitations.",
        ),
    ] = ""
    agreed_position: Annotated[
        Line,
        Box(
            "Position of that person",
            group=BoxGroup.CONDITION,
            must=True,
            when=_some_agreed,
            not_applicable=True,
            help="On whose behalf they could agree: owner, managing agent, facilities manager.",
        ),
    ] = ""
    operational_limitations: Annotated[
        Prose,
        Box(
            "Operational limitations, with reasons",
            BoxKind.PROSE,
            group=BoxGroup.CONDITION,
            must=True,
            help="What could not be reached or switched off on the day, and why. Type None when nothing.",
        ),
    ] = ""
    general_condition: Annotated[
        Prose,
        Box(
            "General condition, in words",
            BoxKind.PROSE,
            group=BoxGroup.CONDITION,
            must=True,
            names=True,
            help="The state of the installation as regards safety.",
        ),
    ] = ""
    fi_alone: Annotated[
        Line,
        Box(
            "Outcome where FI stands alone",
            BoxKind.CHOICE,
            choices=("satisfactory", "unsatisfactory"),
            quiet=True,
            group=BoxGroup.CONDITION,
            must=True,
            when=_is_decided,
            help="Only for an FI without a C1 or C2 under an edition whose rule on it is contested: the inspector decides.",
        ),
        Field(exclude_if=is_empty),
    ] = ""
    fi_alone_because: Annotated[
        Prose,
        Box(
            "Reason for that outcome",
            BoxKind.PROSE,
            quiet=True,
            group=BoxGroup.CONDITION,
            must=True,
            when=_is_decided,
            help="Why the inspector reads it so, for this installation.",
        ),
        Field(exclude_if=is_empty),
    ] = ""
    remedy_within: Annotated[
        Reading[Days],
        Box(
            "Urgent work asked for within",
            BoxKind.NUMBER,
            unit="days",
            whole=True,
            quiet=True,
            group=BoxGroup.CONDITION,
            help="Only where this report asks for C1, C2 or FI to be dealt with sooner than the law does; days run with it.",
        ),
        Field(exclude_if=_is_not_taken),
    ] = NOT_TAKEN
    next_inspection: Annotated[
        Line,
        Box(
            "Next inspection recommended",
            group=BoxGroup.CONDITION,
            must=True,
            help="A date, or an interval such as 5 years.",
        ),
    ] = ""
    interval_reason: Annotated[
        Prose,
        Box(
            "Reason for that interval",
            BoxKind.PROSE,
            group=BoxGroup.CONDITION,
            must=True,
            names=True,
            help="Why this interval suits this installation.",
        ),
    ] = ""
    attachments: Annotated[
        Prose,
        Box(
            "Papers that go with the report",
            BoxKind.PROSE,
            group=BoxGroup.CONDITION,
            help="Photographs, thermal images, reports of others: what each is, and how many pages.",
        ),
    ] = ""
