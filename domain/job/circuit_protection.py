"""What protects a circuit: its device, its RCD and its AFDD, as columns of the usual schedule of circuit details."""

from typing import Annotated

from domain.figures.units import Amperes, Kiloamperes, Milliamperes, Ohms, Seconds
from domain.forms.box_group import BoxGroup
from domain.job.box import Box, BoxKind
from domain.job.circuit_conditions import has_rcd, in_use
from domain.job.reading import NOT_TAKEN, Reading
from domain.job.spelling import TYPE_LETTERS
from domain.job.supply import DEVICE_STANDARDS
from domain.value import Line, Value


class CircuitProtection(Value):
    """Columns 8 to 16."""

    device_standard: Annotated[
        Line,
        Box(
            "Protective device, BS (EN)",
            BoxKind.CHOICE,
            short="Device",
            choices=DEVICE_STANDARDS,
            open_choice=True,
            group=BoxGroup.CIRCUIT,
            must=True,
            when=in_use,
            width=12,
            help="The standard marked on the device: 60898 breaker, 61009 RCBO.",
        ),
    ] = ""
    device_type: Annotated[
        Line,
        Box(
            "Protective device, type",
            BoxKind.CHOICE,
            short="Type",
            choices=("B", "C", "D", "gG", "N/A"),
            open_choice=True,
            group=BoxGroup.CIRCUIT,
            must=True,
            when=in_use,
            figures_most=1,
            letters_known=TYPE_LETTERS,
            not_applicable=True,
            width=4,
            help="B, C or D of a breaker; N/A for fuses.",
        ),
    ] = ""
    rating: Annotated[
        Reading[Amperes],
        Box(
            "Protective device, rating",
            BoxKind.NUMBER,
            short="In",
            unit="A",
            group=BoxGroup.CIRCUIT,
            must=True,
            when=in_use,
            width=5,
        ),
    ] = NOT_TAKEN
    breaking_capacity: Annotated[
        Reading[Kiloamperes],
        Box(
            "Breaking capacity",
            BoxKind.NUMBER,
            short="Icn",
            unit="kA",
            group=BoxGroup.CIRCUIT,
            must=True,
            when=in_use,
            width=5,
            help="Marked on a breaker in a box: 6000 is 6 kA.",
        ),
    ] = NOT_TAKEN
    zs_permitted: Annotated[
        Reading[Ohms],
        Box(
            "Maximum permitted Zs",
            BoxKind.NUMBER,
            group=BoxGroup.CIRCUIT,
            short="Max Zs",
            unit="Ω",
            not_applicable=True,
            width=6,
            help="Leave empty to have the tabulated figure for the device printed. Type another only where the design fixes one.",
        ),
    ] = NOT_TAKEN
    disconnection_time: Annotated[
        Reading[Seconds],
        Box(
            "Maximum disconnection time",
            BoxKind.NUMBER,
            short="Disc.",
            unit="s",
            group=BoxGroup.ONE_CIRCUIT,
            must=True,
            when=in_use,
            not_applicable=True,
            width=6,
            help="What the circuit must disconnect within: on a 230 V TN supply 0.4 s for most final circuits, 5 s for distribution (BS 7671, 411.3.2).",
        ),
    ] = NOT_TAKEN
    rcd_standard: Annotated[
        Line,
        Box(
            "RCD, BS (EN)",
            BoxKind.CHOICE,
            short="RCD",
            choices=("BS EN 61009", "BS EN 61008", "BS EN 62423", "BS 4293", "BS 7288", "N/A"),
            open_choice=True,
            group=BoxGroup.CIRCUIT,
            must=True,
            when=in_use,
            not_applicable=True,
            width=12,
            help="N/A when no RCD protects the circuit.",
        ),
    ] = ""
    rcd_type: Annotated[
        Line,
        Box(
            "RCD, type",
            BoxKind.CHOICE,
            short="RCD type",
            choices=("AC", "A", "F", "B", "S", "N/A"),
            open_choice=True,
            group=BoxGroup.CIRCUIT,
            must=True,
            when=has_rcd,
            not_applicable=True,
            width=8,
            help="Waveform type as marked; add S for a time-delayed one, such as A S.",
        ),
    ] = ""
    rcd_idn: Annotated[
        Reading[Milliamperes],
        Box(
            "RCD, IΔn",
            BoxKind.NUMBER,
            short="IΔn",
            unit="mA",
            group=BoxGroup.CIRCUIT,
            must=True,
            when=has_rcd,
            not_applicable=True,
            width=5,
        ),
    ] = NOT_TAKEN
    rcd_rating: Annotated[
        Reading[Amperes],
        Box(
            "RCD, rating",
            BoxKind.NUMBER,
            short="RCD In",
            unit="A",
            group=BoxGroup.CIRCUIT,
            must=True,
            when=has_rcd,
            not_applicable=True,
            width=6,
        ),
    ] = NOT_TAKEN
    afdd_standard: Annotated[
        Line,
        Box(
            "AFDD, BS (EN)",
            BoxKind.CHOICE,
            short="AFDD",
            choices=("BS EN 62606", "N/A"),
            open_choice=True,
            group=BoxGroup.ONE_CIRCUIT,
            must=True,
            when=in_use,
            not_applicable=True,
            width=12,
            help="N/A when no arc fault detection device protects the circuit.",
        ),
    ] = ""
