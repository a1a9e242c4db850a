"""The main switch or isolator of the installation."""

from typing import Annotated, Any

from domain.figures.units import Amperes, Milliamperes, Milliseconds, Volts
from domain.forms.box_group import BoxGroup
from domain.job.box import Box, BoxKind
from domain.job.reading import NOT_TAKEN, Reading
from domain.value import Line, Value, says_nothing


def _is_rcd(switch: Any) -> bool:
    return switch.is_rcd


class MainSwitch(Value):
    """The main switch or isolator of the installation."""

    location: Annotated[
        Line, Box("Location", group=BoxGroup.ORIGIN, must=True, help="Where it is found in an emergency.")
    ] = ""
    standard: Annotated[
        Line,
        Box(
            "BS (EN)",
            BoxKind.CHOICE,
            choices=("BS EN 60947-3", "BS EN 61008", "BS EN 60947-2", "BS 5419"),
            open_choice=True,
            group=BoxGroup.ORIGIN,
            must=True,
        ),
    ] = ""
    poles: Annotated[Reading, Box("Poles", BoxKind.NUMBER, whole=True, group=BoxGroup.ORIGIN, must=True)] = NOT_TAKEN
    current_rating: Annotated[
        Reading[Amperes], Box("Current rating", BoxKind.NUMBER, unit="A", group=BoxGroup.ORIGIN, must=True)
    ] = NOT_TAKEN
    fuse_rating: Annotated[
        Reading[Amperes],
        Box(
            "Fuse or device rating or setting",
            BoxKind.NUMBER,
            unit="A",
            group=BoxGroup.ORIGIN,
            must=True,
            not_applicable=True,
            help="N/A when the main switch is not a fuse switch or breaker.",
        ),
    ] = NOT_TAKEN
    voltage_rating: Annotated[
        Reading[Volts], Box("Voltage rating", BoxKind.NUMBER, unit="V", group=BoxGroup.ORIGIN, must=True)
    ] = NOT_TAKEN
    rcd_type: Annotated[
        Line,
        Box(
            "RCD main switch, type",
            BoxKind.CHOICE,
            choices=("AC", "A", "F", "B", "S", "N/A"),
            open_choice=True,
            group=BoxGroup.ORIGIN,
            must=True,
            not_applicable=True,
            help="N/A when the main switch is no RCD.",
        ),
    ] = ""
    rcd_idn: Annotated[
        Reading[Milliamperes],
        Box(
            "RCD main switch, IΔn",
            BoxKind.NUMBER,
            unit="mA",
            group=BoxGroup.ORIGIN,
            must=True,
            when=_is_rcd,
            not_applicable=True,
        ),
    ] = NOT_TAKEN
    rcd_delay: Annotated[
        Reading[Milliseconds],
        Box(
            "RCD main switch, time delay",
            BoxKind.NUMBER,
            unit="ms",
            group=BoxGroup.ORIGIN,
            must=True,
            when=_is_rcd,
            not_applicable=True,
            help="As marked on a time-delayed RCD; N/A when it has none.",
        ),
    ] = NOT_TAKEN
    rcd_time: Annotated[
        Reading[Milliseconds],
        Box(
            "RCD main switch, measured time",
            BoxKind.READING,
            unit="ms",
            group=BoxGroup.ORIGIN,
            must=True,
            when=_is_rcd,
            not_applicable=True,
        ),
    ] = NOT_TAKEN

    @property
    def is_rcd(self) -> bool:
        """A type of RCD is named for it."""
        return not says_nothing(self.rcd_type)
