"""Earthing and bonding of the installation."""

from typing import Annotated, Any, Final

from domain.figures.units import Ohms, SquareMillimetres
from domain.forms.box_group import BoxGroup
from domain.job.box import Box, BoxKind
from domain.job.reading import NOT_TAKEN, Reading
from domain.value import Line, Value

DISTRIBUTOR, ELECTRODE, BOTH = "distributor's facility", "electrode", "both"
"""Who provides the earth."""
_MATERIALS = ("copper", "aluminium", "steel")
NOT_BURIED = "not in the ground"
BURIED = (NOT_BURIED, "against corrosion and damage", "against corrosion only", "against nothing")
"""What an earthing conductor in the ground is protected against."""


def _has_electrode(earthing: Any) -> bool:
    return earthing.means in {ELECTRODE, BOTH}


BONDED: Final = ("bonded_water", "bonded_gas", "bonded_oil", "bonded_steel", "bonded_lightning")
"""Boxes of what is bonded, in their order."""


class Earthing(Value):
    """Earthing and bonding of the installation."""

    means: Annotated[
        Line,
        Box(
            "Means of earthing",
            BoxKind.CHOICE,
            choices=(DISTRIBUTOR, ELECTRODE, BOTH),
            group=BoxGroup.ORIGIN,
            must=True,
            help="Who provides the earth.",
        ),
    ] = ""
    electrode_type: Annotated[
        Line,
        Box(
            "Electrode, type",
            group=BoxGroup.ORIGIN,
            must=True,
            when=_has_electrode,
            help="Rod, tape, plate; number of rods.",
        ),
    ] = ""
    electrode_location: Annotated[
        Line,
        Box(
            "Electrode, location",
            group=BoxGroup.ORIGIN,
            must=True,
            when=_has_electrode,
            help="So that it is found next time.",
        ),
    ] = ""
    electrode_resistance: Annotated[
        Reading[Ohms],
        Box(
            "Electrode, resistance RA",
            BoxKind.READING,
            short="RA",
            unit="Ω",
            group=BoxGroup.ORIGIN,
            must=True,
            when=_has_electrode,
            not_applicable=True,
            help="Resistance to earth.",
        ),
    ] = NOT_TAKEN
    maximum_demand: Annotated[
        Line,
        Box(
            "Maximum demand",
            group=BoxGroup.ORIGIN,
            must=True,
            measured_in=("A", "kVA"),
            help="With its unit: 60 A, or 14 kVA; per phase on three phases.",
        ),
    ] = ""
    conductor_material: Annotated[
        Line,
        Box(
            "Earthing conductor, material",
            BoxKind.CHOICE,
            choices=_MATERIALS,
            open_choice=True,
            group=BoxGroup.ORIGIN,
            must=True,
        ),
    ] = ""
    conductor_csa: Annotated[
        Reading[SquareMillimetres],
        Box(
            "Earthing conductor, csa", BoxKind.NUMBER, unit="mm²", group=BoxGroup.ORIGIN, must=True, not_applicable=True
        ),
    ] = NOT_TAKEN
    conductor_buried: Annotated[
        Line,
        Box(
            "Earthing conductor in the ground",
            BoxKind.CHOICE,
            short="Buried",
            choices=BURIED,
            quiet=True,
            group=BoxGroup.ORIGIN,
            help="Where it runs in the ground, what it is protected against; its least size follows from that (Table 54.1).",
        ),
    ] = ""
    conductor_verified: Annotated[
        Reading,
        Box(
            "Earthing conductor adequate and sound",
            BoxKind.TICK,
            group=BoxGroup.BONDING,
            must=True,
            help="Size enough, connection seen and continuity confirmed.",
        ),
    ] = NOT_TAKEN
    bonding_material: Annotated[
        Line,
        Box(
            "Main bonding conductor, material",
            BoxKind.CHOICE,
            choices=_MATERIALS,
            open_choice=True,
            group=BoxGroup.ORIGIN,
            must=True,
            not_applicable=True,
        ),
    ] = ""
    bonding_csa: Annotated[
        Reading[SquareMillimetres],
        Box(
            "Main bonding conductor, csa",
            BoxKind.NUMBER,
            unit="mm²",
            group=BoxGroup.ORIGIN,
            must=True,
            not_applicable=True,
        ),
    ] = NOT_TAKEN
    bonding_verified: Annotated[
        Reading,
        Box(
            "Main bonding adequate and sound",
            BoxKind.TICK,
            group=BoxGroup.BONDING,
            must=True,
            not_applicable=True,
            help="Sizes enough, connections seen and continuity confirmed. N/A only where there is nothing to bond.",
        ),
    ] = NOT_TAKEN
    bonded_water: Annotated[
        Reading,
        Box(
            "Bonded: water",
            BoxKind.TICK,
            group=BoxGroup.BONDING,
            must=True,
            not_applicable=True,
            help="Y when bonded, N/A when the pipe is plastic or absent.",
        ),
    ] = NOT_TAKEN
    bonded_gas: Annotated[
        Reading, Box("Bonded: gas", BoxKind.TICK, group=BoxGroup.BONDING, must=True, not_applicable=True)
    ] = NOT_TAKEN
    bonded_oil: Annotated[
        Reading, Box("Bonded: oil", BoxKind.TICK, group=BoxGroup.BONDING, must=True, not_applicable=True)
    ] = NOT_TAKEN
    bonded_steel: Annotated[
        Reading, Box("Bonded: structural steel", BoxKind.TICK, group=BoxGroup.BONDING, must=True, not_applicable=True)
    ] = NOT_TAKEN
    bonded_lightning: Annotated[
        Reading,
        Box("Bonded: lightning protection", BoxKind.TICK, group=BoxGroup.ORIGIN, must=True, not_applicable=True),
    ] = NOT_TAKEN
    bonded_other: Annotated[
        Line,
        Box(
            "Bonded: other",
            group=BoxGroup.BONDING,
            must=True,
            help="Name it, such as an air line. N/A when there is nothing else.",
        ),
    ] = ""
