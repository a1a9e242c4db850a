"""What a circuit is made of: its cable, as columns of the usual schedule of circuit details."""

from typing import Annotated

from domain.figures.units import Metres, SquareMillimetres
from domain.forms.box_group import BoxGroup
from domain.job.box import Box, BoxKind
from domain.job.circuit_conditions import in_use
from domain.job.reading import NOT_TAKEN, Reading
from domain.job.spelling import letter_code
from domain.value import Line, Value

RING, RADIAL, SPARE = "ring", "radial", "spare"


class CircuitDetails(Value):
    """Columns 1 to 7, and the length of run."""

    number: Annotated[
        Line,
        Box(
            "Circuit number",
            short="No.",
            group=BoxGroup.CIRCUIT,
            must=True,
            by_letter=True,
            width=5,
            help="As marked at the board: 3, or 1L2 for a phase of a three-phase way.",
        ),
    ] = ""
    description: Annotated[
        Line,
        Box(
            "Description",
            group=BoxGroup.CIRCUIT,
            must=True,
            width=22,
            help="What it feeds. Type Spare for an unused way.",
        ),
    ] = ""
    shape: Annotated[
        Line,
        Box(
            "Ring, radial or spare",
            BoxKind.CHOICE,
            short="Shape",
            choices=(RING, RADIAL, SPARE),
            group=BoxGroup.CIRCUIT,
            must=True,
            width=6,
            help="Decides which continuity readings are needed. A spare way needs none.",
        ),
    ] = ""
    wiring: Annotated[
        Line,
        Box(
            "Wiring type",
            BoxKind.CHOICE,
            short="Wiring",
            choices=("A", "B", "C", "D", "E", "F", "G", "H", "O"),
            open_choice=True,
            group=BoxGroup.CIRCUIT,
            must=True,
            when=in_use,
            width=6,
            help="A sheathed cable; B metal conduit; C plastic conduit; D metal trunking; E plastic trunking; F SWA thermoplastic; G SWA thermosetting; H mineral; O other, say which in remarks.",
        ),
    ] = ""
    method: Annotated[
        Line,
        Box(
            "Reference method",
            short="Method",
            group=BoxGroup.CIRCUIT,
            must=True,
            when=in_use,
            not_applicable=True,
            width=6,
            help="Installation method: A, B, C, 100 to 103, D, E, F.",
            spelt=letter_code,
        ),
    ] = ""
    points: Annotated[
        Reading,
        Box(
            "Points served",
            BoxKind.NUMBER,
            short="Points",
            whole=True,
            group=BoxGroup.CIRCUIT,
            must=True,
            when=in_use,
            not_applicable=True,
            width=6,
            help="How many outlets, lamps or appliances it feeds.",
        ),
    ] = NOT_TAKEN
    live_csa: Annotated[
        Reading[SquareMillimetres],
        Box(
            "Live conductors, csa",
            BoxKind.NUMBER,
            short="Live",
            unit="mm²",
            group=BoxGroup.CIRCUIT,
            must=True,
            when=in_use,
            width=5,
        ),
    ] = NOT_TAKEN
    cpc_csa: Annotated[
        Reading[SquareMillimetres],
        Box(
            "cpc, csa",
            BoxKind.NUMBER,
            short="cpc",
            unit="mm²",
            group=BoxGroup.CIRCUIT,
            must=True,
            when=in_use,
            not_applicable=True,
            width=5,
        ),
    ] = NOT_TAKEN
    length: Annotated[
        Reading[Metres],
        Box(
            "Length of run",
            BoxKind.NUMBER,
            group=BoxGroup.CIRCUIT,
            short="Length",
            unit="m",
            width=6,
            help="If known: lets the expected resistance be worked out.",
        ),
    ] = NOT_TAKEN
