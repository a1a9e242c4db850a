"""What was done, or what the report covers and where it stops."""

from typing import Annotated, Any

from domain.box import Box, BoxKind
from domain.form_set import CERTIFICATES, ONLY_EIC, ONLY_REPORT
from domain.value import Line, Prose, Value


class Work(Value):
    """The work a certificate covers."""

    kind: Annotated[
        Line,
        Box(
            "The installation is",
            BoxKind.CHOICE,
            choices=("new", "an addition", "an alteration", "a replaced consumer unit"),
            on=ONLY_EIC,
            required=ONLY_EIC,
            help="Which of these the certificate covers.",
        ),
    ] = ""
    description: Annotated[
        Prose,
        Box(
            "Description of the work",
            BoxKind.PROSE,
            on=CERTIFICATES,
            required=CERTIFICATES,
            help="What was installed or altered, so that a stranger finds it.",
        ),
    ] = ""
    extent: Annotated[
        Prose,
        Box(
            "Extent covered, and what is not",
            BoxKind.PROSE,
            on=ONLY_EIC,
            required=ONLY_EIC,
            help="The boundary of this certificate. Name what was left out.",
        ),
    ] = ""
    completed_on: Annotated[
        Line,
        Box(
            "Date completed",
            BoxKind.DATE,
            on=CERTIFICATES,
            required=CERTIFICATES,
            help="The day the work was finished and tested.",
        ),
    ] = ""
    departures: Annotated[
        Prose,
        Box(
            "Departures from BS 7671",
            BoxKind.PROSE,
            on=CERTIFICATES,
            required=CERTIFICATES,
            help="Design decisions not to follow the standard, no less safe (120.3, 133.5). Not for defects. Type None when there is none.",
        ),
    ] = ""
    exceptions: Annotated[
        Prose,
        Box(
            "Permitted exceptions",
            BoxKind.PROSE,
            on=CERTIFICATES,
            required=CERTIFICATES,
            help="RCD omitted under 411.3.3 on a written risk assessment, which goes with this. Type None when there is none.",
        ),
    ] = ""
    comments: Annotated[
        Prose,
        Box(
            "Comments on the existing installation",
            BoxKind.PROSE,
            on=CERTIFICATES,
            required=CERTIFICATES,
            help="Defects seen in parts that this work did not touch (644.1.2). Type None when nothing was seen.",
        ),
    ] = ""
    next_inspection: Annotated[
        Line,
        Box(
            "Next inspection due",
            on=ONLY_EIC,
            required=ONLY_EIC,
            help="A date, or an interval such as 10 years. The designer recommends it.",
        ),
    ] = ""


def _some_agreed(report: Any) -> bool:
    return bool(report.agreed_limitations.strip()) and report.agreed_limitations.strip().casefold() != "none"


class Report(Value):
    """Why a condition report was made, how far it went, and what its author recommends."""

    reason: Annotated[
        Prose,
        Box(
            "Reason for the report",
            BoxKind.PROSE,
            on=ONLY_REPORT,
            required=ONLY_REPORT,
            help="Why it was ordered: new tenancy, purchase, interval reached.",
        ),
    ] = ""
    inspected_on: Annotated[
        Line,
        Box(
            "Inspected and tested on",
            BoxKind.DATE,
            on=ONLY_REPORT,
            required=ONLY_REPORT,
            help="The day, or the last of several days.",
        ),
    ] = ""
    extent: Annotated[
        Prose,
        Box(
            "Extent covered",
            BoxKind.PROSE,
            on=ONLY_REPORT,
            required=ONLY_REPORT,
            help="Which parts were inspected and tested, and what share of them.",
        ),
    ] = ""
    agreed_limitations: Annotated[
        Prose,
        Box(
            "Agreed limitations, with reasons",
            BoxKind.PROSE,
            on=ONLY_REPORT,
            required=ONLY_REPORT,
            help="What was agreed beforehand to be left out, and why. Type None when nothing was.",
        ),
    ] = ""
    agreed_with: Annotated[
        Line,
        Box(
            "Agreed with",
            on=ONLY_REPORT,
            required=ONLY_REPORT,
            when=_some_agreed,
            not_applicable=True,
            help="Name and position of the person who agreed the limitations.",
        ),
    ] = ""
    operational_limitations: Annotated[
        Prose,
        Box(
            "Operational limitations, with reasons",
            BoxKind.PROSE,
            on=ONLY_REPORT,
            required=ONLY_REPORT,
            help="What could not be reached or switched off on the day, and why. Type None when nothing.",
        ),
    ] = ""
    general_condition: Annotated[
        Prose,
        Box(
            "General condition, in words",
            BoxKind.PROSE,
            on=ONLY_REPORT,
            required=ONLY_REPORT,
            help="The state of the installation as regards safety.",
        ),
    ] = ""
    next_inspection: Annotated[
        Line,
        Box(
            "Next inspection recommended",
            on=ONLY_REPORT,
            required=ONLY_REPORT,
            help="A date, or an interval such as 5 years.",
        ),
    ] = ""
    interval_reason: Annotated[
        Prose,
        Box(
            "Reason for that interval",
            BoxKind.PROSE,
            on=ONLY_REPORT,
            required=ONLY_REPORT,
            help="Why this interval suits this installation.",
        ),
    ] = ""
