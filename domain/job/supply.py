"""Characteristics of the supply at the origin."""

from typing import Annotated

from domain.figures.units import Amperes, Hertz, Kiloamperes, Ohms, SquareMillimetres, Volts
from domain.forms.box_group import BoxGroup
from domain.job.box import Box, BoxKind
from domain.job.reading import NOT_TAKEN, Reading
from domain.job.spelling import TYPE_LETTERS
from domain.value import Line, Prose, Value

DEVICE_STANDARDS = (
    "BS EN 60898",
    "BS EN 61009",
    "BS 88-3",
    "BS 1361",
    "BS 88-2",
    "BS 3036",
    "BS 1362",
    "BS EN 60947-2",
    "BS 3871",
)
_ENQUIRY = ("measured", "enquiry", "calculated")
_NOMINAL = ("measured", "enquiry")


class Supply(Value):
    """Characteristics of the supply."""

    system: Annotated[
        Line,
        Box(
            "System",
            BoxKind.CHOICE,
            choices=("TN-C-S", "TN-S", "TT", "TN-C", "IT"),
            group=BoxGroup.SYSTEM,
            must=True,
            help="How the supply is earthed.",
        ),
    ] = ""
    live_conductors: Annotated[
        Line,
        Box(
            "Live conductors",
            BoxKind.CHOICE,
            choices=(
                "AC 1-phase 2-wire",
                "AC 2-phase 3-wire",
                "AC 3-phase 3-wire",
                "AC 3-phase 4-wire",
                "DC 2-wire",
                "DC 3-wire",
                "DC other",
            ),
            group=BoxGroup.ORIGIN,
            must=True,
            help="Number and kind of live conductors.",
        ),
    ] = ""
    polarity: Annotated[
        Reading,
        Box(
            "Supply polarity confirmed",
            BoxKind.TICK,
            group=BoxGroup.ORIGIN,
            must=True,
            help="Confirmed by test at the origin, before anything else live.",
        ),
    ] = NOT_TAKEN
    voltage: Annotated[
        Reading[Volts],
        Box(
            "Nominal U",
            BoxKind.NUMBER,
            unit="V",
            not_applicable=True,
            group=BoxGroup.ORIGIN,
            must=True,
            help="Between lines: 400 V on three phases; 230 V on one.",
        ),
    ] = NOT_TAKEN
    voltage_to_earth: Annotated[
        Reading[Volts],
        Box(
            "Nominal U0",
            BoxKind.NUMBER,
            unit="V",
            group=BoxGroup.ORIGIN,
            must=True,
            help="Line to earth: 230 V on the public supply.",
        ),
    ] = NOT_TAKEN
    frequency: Annotated[
        Reading[Hertz],
        Box(
            "Frequency",
            BoxKind.NUMBER,
            unit="Hz",
            group=BoxGroup.ORIGIN,
            must=True,
            not_applicable=True,
            help="50 Hz on the public supply.",
        ),
    ] = NOT_TAKEN
    nominal_by: Annotated[
        Line,
        Box(
            "U, U0 and frequency found by",
            BoxKind.CHOICE,
            choices=_NOMINAL,
            group=BoxGroup.ORIGIN,
            must=True,
            help="Nominal values are asked of the distributor, or known to be those of the public supply.",
        ),
    ] = ""
    neutral_csa: Annotated[
        Reading[SquareMillimetres],
        Box(
            "Supply neutral, csa",
            BoxKind.NUMBER,
            unit="mm²",
            not_applicable=True,
            quiet=True,
            group=BoxGroup.ORIGIN,
            help="Copper size of the neutral coming in, where it can be seen or is known. On TN-C-S the sizes of main bonding go by it; while empty, up to 35 mm² is taken.",
        ),
    ] = NOT_TAKEN
    ipf: Annotated[
        Reading[Kiloamperes],
        Box(
            "Prospective fault current Ipf",
            BoxKind.READING,
            short="Ipf",
            unit="kA",
            group=BoxGroup.ORIGIN,
            must=True,
            help="The larger of line-neutral and line-earth at the origin.",
        ),
    ] = NOT_TAKEN
    ipf_by: Annotated[
        Line,
        Box(
            "Ipf found by",
            BoxKind.CHOICE,
            choices=_ENQUIRY,
            group=BoxGroup.ORIGIN,
            must=True,
            help="Measured, or asked of the distributor.",
        ),
    ] = ""
    ze: Annotated[
        Reading[Ohms],
        Box(
            "External loop impedance Ze",
            BoxKind.READING,
            short="Ze",
            unit="Ω",
            group=BoxGroup.ORIGIN,
            must=True,
            help="At the origin with the installation's earthing taken off, isolated and secured.",
        ),
    ] = NOT_TAKEN
    ze_by: Annotated[
        Line,
        Box(
            "Ze found by",
            BoxKind.CHOICE,
            choices=_ENQUIRY,
            group=BoxGroup.ORIGIN,
            must=True,
            help="Measured, or asked of the distributor.",
        ),
    ] = ""
    device_standard: Annotated[
        Line,
        Box(
            "Supply device, BS (EN)",
            BoxKind.CHOICE,
            choices=("BS 88-3", "BS 1361", "BS 88-2", "BS 3036"),
            open_choice=True,
            group=BoxGroup.ORIGIN,
            must=True,
            not_applicable=True,
            help="The distributor's fuse. Do not break seals to read it.",
        ),
    ] = ""
    device_type: Annotated[
        Line,
        Box(
            "Supply device, type",
            group=BoxGroup.ORIGIN,
            must=True,
            figures_most=1,
            letters_known=TYPE_LETTERS,
            not_applicable=True,
            help="Type or fuse system as marked.",
        ),
    ] = ""
    device_rating: Annotated[
        Reading[Amperes],
        Box(
            "Supply device, rating",
            BoxKind.NUMBER,
            unit="A",
            group=BoxGroup.ORIGIN,
            must=True,
            not_applicable=True,
            help="As marked on the cut-out.",
        ),
    ] = NOT_TAKEN
    other_sources: Annotated[
        Prose,
        Box(
            "Other sources of supply",
            BoxKind.PROSE,
            group=BoxGroup.ORIGIN,
            must=True,
            help="Solar, battery, generator: each with its rating, how it is connected and how it is isolated. Type None when there is none.",
        ),
    ] = ""
