"""Who signs an Electrical Installation Certificate, where they do not all belong to the firm named on it."""

from collections.abc import Callable
from typing import Annotated, Any

from domain.forms.box_group import BoxGroup
from domain.job.box import Box, BoxKind
from domain.value import Line, Prose, Value, says_nothing

_SAME = "Leave empty when it is the firm responsible."


def _has_own(firm: str) -> Callable[[Any], bool]:
    return lambda signatories: not says_nothing(getattr(signatories, firm))


def _is_shared(signatories: Any) -> bool:
    return signatories.design_is_shared


class Signatories(Value):
    """Particulars of the designer, of a second one, of the constructor and of the inspector."""

    design_firm: Annotated[Line, Box("Designer's firm", group=BoxGroup.SIGNATORIES, help=_SAME)] = ""
    design_address: Annotated[
        Prose,
        Box(
            "Designer's address",
            BoxKind.PROSE,
            group=BoxGroup.SIGNATORIES,
            must=True,
            when=_has_own("design_firm"),
            help="With its postcode. " + _SAME,
        ),
    ] = ""
    design_contact: Annotated[Line, Box("Designer's telephone or e-mail", group=BoxGroup.SIGNATORIES, help=_SAME)] = ""
    second_designer: Annotated[
        Line,
        Box(
            "Second designer",
            group=BoxGroup.SIGNATORIES,
            help="Name of who shares the design; they sign for their part too. Leave empty when one person designed it.",
        ),
    ] = ""
    second_part: Annotated[
        Line,
        Box(
            "What the second designer answers for",
            group=BoxGroup.SIGNATORIES,
            must=True,
            when=_is_shared,
            help="Such as: the submain and the main board.",
        ),
    ] = ""
    second_firm: Annotated[Line, Box("Second designer's firm", group=BoxGroup.SIGNATORIES, help=_SAME)] = ""
    second_address: Annotated[
        Prose,
        Box(
            "Second designer's address",
            BoxKind.PROSE,
            group=BoxGroup.SIGNATORIES,
            must=True,
            when=_has_own("second_firm"),
            help="With its postcode. " + _SAME,
        ),
    ] = ""
    second_contact: Annotated[
        Line, Box("Second designer's telephone or e-mail", group=BoxGroup.SIGNATORIES, help=_SAME)
    ] = ""
    construction_firm: Annotated[Line, Box("Constructor's firm", group=BoxGroup.SIGNATORIES, help=_SAME)] = ""
    construction_address: Annotated[
        Prose,
        Box(
            "Constructor's address",
            BoxKind.PROSE,
            group=BoxGroup.SIGNATORIES,
            must=True,
            when=_has_own("construction_firm"),
            help="With its postcode. " + _SAME,
        ),
    ] = ""
    construction_contact: Annotated[
        Line, Box("Constructor's telephone or e-mail", group=BoxGroup.SIGNATORIES, help=_SAME)
    ] = ""
    inspection_firm: Annotated[Line, Box("Inspector's firm", group=BoxGroup.SIGNATORIES, help=_SAME)] = ""
    inspection_address: Annotated[
        Prose,
        Box(
            "Inspector's address",
            BoxKind.PROSE,
            group=BoxGroup.SIGNATORIES,
            must=True,
            when=_has_own("inspection_firm"),
            help="With its postcode. " + _SAME,
        ),
    ] = ""
    inspection_contact: Annotated[
        Line, Box("Inspector's telephone or e-mail", group=BoxGroup.SIGNATORIES, help=_SAME)
    ] = ""

    @property
    def design_is_shared(self) -> bool:
        """A second designer is named."""
        return not says_nothing(self.second_designer)
