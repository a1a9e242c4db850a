"""What was done, as a certificate says it."""

from typing import Annotated, Any

from pydantic import Field

from domain.forms.box_group import BoxGroup
from domain.job.box import Box, BoxKind
from domain.value import Line, Prose, Value, is_empty, says_nothing

NEW, REPLACED_UNIT = "new", "a replaced consumer unit"


def _some_excepted(work: Any) -> bool:
    return not says_nothing(work.exceptions)


def _day_of_design_told(work: Any) -> bool:
    return bool(work.designed_on.strip())


def _day_of_start_told(work: Any) -> bool:
    return bool(work.started_on.strip())


class Work(Value):
    """The work a certificate covers."""

    kind: Annotated[
        Line,
        Box(
            "The installation is",
            BoxKind.CHOICE,
            choices=(
                NEW,
                "an addition",
                "an alteration",
                REPLACED_UNIT,
            ),
            several=True,
            group=BoxGroup.INSTALLATION,
            must=True,
            help="Which of these the certificate covers; where it is several, type them with and between: 2 and 4.",
        ),
    ] = ""
    description: Annotated[
        Prose,
        Box(
            "Description of the work",
            BoxKind.PROSE,
            group=BoxGroup.WORK,
            must=True,
            names=True,
            help="What was installed or altered, so that a stranger finds it.",
        ),
    ] = ""
    extent: Annotated[
        Prose,
        Box(
            "Extent covered, and what is not",
            BoxKind.PROSE,
            group=BoxGroup.INSTALLATION,
            must=True,
            names=True,
            help="The boundary of this certificate. Name what was left out.",
        ),
    ] = ""
    designed_on: Annotated[
        Line,
        Box(
            "Date of the design",
            BoxKind.DATE,
            group=BoxGroup.WORK,
            when=_day_of_design_told,
            quiet=True,
            help="Where it matters which edition the design began under. Leave empty otherwise.",
        ),
        Field(exclude_if=is_empty),
    ] = ""
    started_on: Annotated[
        Line,
        Box(
            "Work begun on",
            BoxKind.DATE,
            group=BoxGroup.WORK,
            when=_day_of_start_told,
            quiet=True,
            help="Where the work took more than a day or two. Leave empty otherwise.",
        ),
        Field(exclude_if=is_empty),
    ] = ""
    completed_on: Annotated[
        Line,
        Box(
            "Date completed",
            BoxKind.DATE,
            group=BoxGroup.WORK,
            must=True,
            help="The day the work was finished and tested.",
        ),
    ] = ""
    departures: Annotated[
        Prose,
        Box(
            "Departures from BS 7671",
            BoxKind.PROSE,
            group=BoxGroup.WORK,
            must=True,
            help="Design decisions not to follow the standard, no less safe (120.3, 133.5). Not for defects. Type None when there is none.",
        ),
    ] = ""
    construction_departures: Annotated[
        Prose,
        Box(
            "Departures in construction",
            BoxKind.PROSE,
            group=BoxGroup.INSTALLATION,
            must=True,
            help="What the constructor departed from, beyond the design. Type None when there is none.",
        ),
    ] = ""
    inspection_departures: Annotated[
        Prose,
        Box(
            "Departures in inspection and testing",
            BoxKind.PROSE,
            group=BoxGroup.INSTALLATION,
            must=True,
            help="What the inspector departed from. Type None when there is none.",
        ),
    ] = ""
    exceptions: Annotated[
        Prose,
        Box(
            "Permitted exceptions",
            BoxKind.PROSE,
            group=BoxGroup.WORK,
            must=True,
            help="RCD omitted under 411.3.3 on a written risk assessment, which goes with this. Type None when there is none.",
        ),
    ] = ""
    risk_assessment: Annotated[
        Prose,
        Box(
            "Risk assessment for the exceptions",
            BoxKind.PROSE,
            group=BoxGroup.WORK,
            must=True,
            when=_some_excepted,
            help="The assessment itself; or its title, author, date and pages, where it is attached as a paper of its own.",
        ),
    ] = ""
    comments: Annotated[
        Prose,
        Box(
            "Comments on the existing installation",
            BoxKind.PROSE,
            group=BoxGroup.WORK,
            must=True,
            help="Defects seen in parts that this work did not touch (644.1.2). Type None when nothing was seen.",
        ),
    ] = ""
    next_inspection: Annotated[
        Line,
        Box(
            "Next inspection due",
            group=BoxGroup.INSTALLATION,
            must=True,
            help="A date, or an interval such as 10 years. The designer recommends it.",
        ),
    ] = ""
    limitations: Annotated[
        Prose,
        Box(
            "Agreed limitations on the testing",
            BoxKind.PROSE,
            group=BoxGroup.ONE_CIRCUIT,
            help="What was agreed not to be tested beyond the altered circuit, with whom, and why.",
        ),
    ] = ""
    attachments: Annotated[
        Prose,
        Box(
            "Papers that go with the certificate",
            BoxKind.PROSE,
            group=BoxGroup.WORK,
            help="Solar, charging, fire alarm or lighting papers, drawings, photographs: what each is, and how many pages.",
        ),
    ] = ""
