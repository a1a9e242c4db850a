"""Who ordered the work, where it is, and who did it."""

from typing import Annotated, Any

from domain.forms.box_group import BoxGroup
from domain.job.box import Box, BoxKind
from domain.job.spelling import postcode as postcode_spelt
from domain.job.spelling import years
from domain.value import Line, Prose, Value


def _alterations_of_unknown_age(premises: Any) -> bool:
    return premises.alterations.strip().casefold() == "yes"


def _never_waited_for(_: Any) -> bool:
    """Going on passes over it: few clients give one."""
    return False


class Client(Value):
    """The person who ordered the work or the report."""

    name: Annotated[
        Line,
        Box(
            "Client",
            group=BoxGroup.CLIENT,
            must=True,
            names=True,
            figures_most=0,
            help="Who ordered the work. The original goes to them.",
        ),
    ] = ""
    address: Annotated[
        Prose,
        Box(
            "Client's address",
            BoxKind.PROSE,
            group=BoxGroup.CLIENT,
            must=True,
            names=True,
            help="Where the original is sent.",
        ),
    ] = ""
    postcode: Annotated[
        Line, Box("Client's postcode", group=BoxGroup.CLIENT, help="Of the client's own address.", spelt=postcode_spelt)
    ] = ""
    contact: Annotated[
        Line, Box("Telephone or e-mail", group=BoxGroup.CLIENT, help="How the office reaches the client.")
    ] = ""
    reference: Annotated[
        Line,
        Box(
            "Client's reference",
            group=BoxGroup.CLIENT,
            when=_never_waited_for,
            quiet=True,
            help="An order or job number of theirs, where they gave one: the log finds the job by it. Up or Down comes here.",
        ),
    ] = ""


class Premises(Value):
    """Where the installation is."""

    address: Annotated[
        Prose,
        Box(
            "Installation address",
            BoxKind.PROSE,
            group=BoxGroup.PREMISES,
            must=True,
            names=True,
            help="Where the installation is, which need not be where the client lives.",
        ),
    ] = ""
    postcode: Annotated[
        Line,
        Box(
            "Installation postcode",
            group=BoxGroup.PREMISES,
            must=True,
            not_applicable=True,
            help="The log finds the address by it next time.",
            spelt=postcode_spelt,
        ),
    ] = ""
    occupier: Annotated[
        Line,
        Box("Occupier", group=BoxGroup.OCCUPIER, must=True, help="Who lives or works there; Vacant when nobody does."),
    ] = ""
    use: Annotated[
        Line,
        Box(
            "Use of the premises",
            BoxKind.CHOICE,
            choices=("domestic", "commercial", "industrial", "agricultural"),
            open_choice=True,
            group=BoxGroup.USE,
            must=True,
            help="What the building is used for; type another use if none of these fits.",
        ),
    ] = ""
    age: Annotated[
        Line,
        Box(
            "Estimated age of the wiring",
            group=BoxGroup.HISTORY,
            must=True,
            help="In years, as near as can be judged.",
            spelt=years,
        ),
    ] = ""
    alterations: Annotated[
        Line,
        Box(
            "Signs of additions or alterations",
            BoxKind.CHOICE,
            choices=("yes", "no", "not apparent"),
            open_choice=True,
            group=BoxGroup.HISTORY,
            must=True,
            help="Add their age where it can be judged, such as: yes, about 8 years.",
        ),
    ] = ""
    alterations_age: Annotated[
        Line,
        Box(
            "Estimated age of the alterations",
            group=BoxGroup.HISTORY,
            must=True,
            when=_alterations_of_unknown_age,
            help="In years, as near as can be judged, unless it is said above.",
            spelt=years,
        ),
    ] = ""
    records: Annotated[
        Line,
        Box(
            "Earlier records",
            group=BoxGroup.HISTORY,
            must=True,
            help="Certificates and reports seen. None seen, when there were none.",
        ),
    ] = ""
    records_held_by: Annotated[
        Line,
        Box(
            "Records held by",
            group=BoxGroup.HISTORY,
            must=True,
            help="Who keeps them. N/A when there are none, Not known when nobody could say.",
        ),
    ] = ""
    last_inspection: Annotated[
        Line,
        Box(
            "Last inspected on",
            group=BoxGroup.HISTORY,
            must=True,
            help="Date of the last report. Not known, when nobody could say.",
        ),
    ] = ""
    last_report: Annotated[
        Line,
        Box(
            "Number of the last report",
            group=BoxGroup.HISTORY,
            must=True,
            help="Its number and who made it. Not known, when it was not seen.",
        ),
    ] = ""


class Firm(Value):
    """The firm whose people sign."""

    name: Annotated[
        Line,
        Box(
            "Firm",
            group=BoxGroup.FIRM,
            must=True,
            names=True,
            help="Trading name of the firm that answers for the work.",
        ),
    ] = ""
    address: Annotated[
        Prose,
        Box(
            "Firm's address",
            BoxKind.PROSE,
            group=BoxGroup.FIRM,
            must=True,
            names=True,
            help="Business address with postcode.",
        ),
    ] = ""
    contact: Annotated[
        Line, Box("Firm's telephone or e-mail", group=BoxGroup.FIRM, help="How a recipient asks a question.")
    ] = ""
    membership: Annotated[
        Line,
        Box(
            "Registration",
            group=BoxGroup.FIRM,
            help="Registration with a competent person scheme, if any: body and number.",
        ),
    ] = ""
