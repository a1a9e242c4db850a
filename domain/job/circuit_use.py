"""What a circuit feeds, where it runs, and what its design allowed for: typed once, asked by checks, inspection and duties.

None of it stands among the columns of the usual schedules; what is filled in is printed beneath them.
"""

from typing import Annotated, Any

from domain.figures.units import Amperes, Celsius, Millimetres, Percent
from domain.forms.box_group import BoxGroup
from domain.job.box import Box, BoxKind
from domain.job.circuit_conditions import in_use
from domain.job.reading import NOT_TAKEN, Reading
from domain.value import Line, Value

SOCKETS, LIGHTING, COOKER, SHOWER = "socket-outlets", "lighting", "cooker", "shower"
WATER_HEATING, SPACE_HEATING, FLOOR_HEATING = "water heating", "space heating", "floor heating"
MOTOR, CHARGING_POINT, SOLAR, BATTERY, GENERATOR = "fixed motor", "charging point", "solar", "battery", "generator"
SUB_BOARD, ALARM, EXTRA_LOW, OTHER = "sub-board", "fire or smoke alarm", "SELV or PELV", "other"
FEEDS = (
    SOCKETS,
    LIGHTING,
    COOKER,
    SHOWER,
    WATER_HEATING,
    SPACE_HEATING,
    FLOOR_HEATING,
    MOTOR,
    CHARGING_POINT,
    SOLAR,
    BATTERY,
    GENERATOR,
    SUB_BOARD,
    ALARM,
    EXTRA_LOW,
    OTHER,
)
SOURCES = frozenset({SOLAR, BATTERY, GENERATOR})
"""What brings energy in through the circuit."""

BATHROOM, OUTDOORS, CONCEALED, TOUCHED, NOWHERE = (
    "bathroom",
    "outdoors",
    "wall under 50 mm",
    "bare to touch",
    "none of these",
)
RUNS = (BATHROOM, OUTDOORS, CONCEALED, TOUCHED, NOWHERE)


LINE_ONLY = "line only"
OWN_ELECTRODE = "own electrode"


def _charges_vehicles(circuit: Any) -> bool:
    return not circuit.is_spare and CHARGING_POINT in circuit.feeds


class CircuitUse(Value):
    """What is known of a circuit beyond the columns of the schedules."""

    feeds: Annotated[
        Line,
        Box(
            "Feeds",
            BoxKind.CHOICE,
            choices=FEEDS,
            several=True,
            group=BoxGroup.CIRCUIT_USE,
            when=in_use,
            quiet=True,
            width=14,
            help="What it feeds, from the list; more than one with and between them. While empty, the description is gone by as far as its words tell.",
        ),
    ] = ""
    runs: Annotated[
        Line,
        Box(
            "Serves or runs through",
            BoxKind.CHOICE,
            short="Runs",
            choices=RUNS,
            several=True,
            group=BoxGroup.CIRCUIT_USE,
            when=in_use,
            quiet=True,
            width=10,
            help="Where special rules may apply: a bath or shower room, outdoors, a wall with the cable less than 50 mm deep and no earthed metal over it, bare mineral cable that can be touched.",
        ),
    ] = ""
    open_pen: Annotated[
        Line,
        Box(
            "Open-PEN protection",
            BoxKind.CHOICE,
            short="Open PEN",
            choices=("in the charging point", "separate device", OWN_ELECTRODE, "not needed"),
            group=BoxGroup.CIRCUIT_USE,
            when=_charges_vehicles,
            quiet=True,
            width=9,
            help="Of a charging point on a supply earthed by its neutral (TN-C-S): what guards against the loss of that neutral.",
        ),
    ] = ""
    switches: Annotated[
        Line,
        Box(
            "Its device switches",
            BoxKind.CHOICE,
            short="Switches",
            choices=(LINE_ONLY, "line and neutral"),
            group=BoxGroup.CIRCUIT_USE,
            when=in_use,
            quiet=True,
            width=13,
            help="Whether the breaker or RCBO opens the neutral as well as the line. A charging point, solar or a battery wants both opened.",
        ),
    ] = ""
    design_current: Annotated[
        Reading[Amperes],
        Box(
            "Design current Ib",
            BoxKind.NUMBER,
            short="Ib",
            unit="A",
            group=BoxGroup.CIRCUIT_USE,
            when=in_use,
            quiet=True,
            width=5,
            help="If worked out: voltage drop is then for this current instead of the rating of the device.",
        ),
    ] = NOT_TAKEN
    diversity: Annotated[
        Reading[Percent],
        Box(
            "Diversity applied",
            BoxKind.NUMBER,
            short="Div.",
            unit="%",
            group=BoxGroup.CIRCUIT_USE,
            when=in_use,
            quiet=True,
            width=5,
            help="Share of its load taken into the maximum demand, in per cent; 100 for none.",
        ),
    ] = NOT_TAKEN
    grouped: Annotated[
        Reading,
        Box(
            "Circuits grouped together",
            BoxKind.NUMBER,
            short="Group",
            whole=True,
            group=BoxGroup.CIRCUIT_USE,
            when=in_use,
            quiet=True,
            width=5,
            help="How many loaded circuits run together, this one counted; gives the factor Cg.",
        ),
    ] = NOT_TAKEN
    ambient: Annotated[
        Reading[Celsius],
        Box(
            "Ambient temperature",
            BoxKind.NUMBER,
            short="Amb.",
            unit="°C",
            group=BoxGroup.CIRCUIT_USE,
            when=in_use,
            quiet=True,
            width=5,
            help="Where it is not the usual one, 30 °C in air or 20 °C in the ground; gives the factor Ca.",
        ),
    ] = NOT_TAKEN
    in_insulation: Annotated[
        Reading[Millimetres],
        Box(
            "Length within thermal insulation",
            BoxKind.NUMBER,
            short="Insul.",
            unit="mm",
            group=BoxGroup.CIRCUIT_USE,
            when=in_use,
            quiet=True,
            width=6,
            help="Longest stretch wholly surrounded by thermal insulation; gives the factor Ci.",
        ),
    ] = NOT_TAKEN
    terminals: Annotated[
        Line,
        Box(
            "Terminals good for",
            BoxKind.CHOICE,
            short="Term.",
            choices=("70 °C", "90 °C"),
            group=BoxGroup.CIRCUIT_USE,
            when=in_use,
            quiet=True,
            width=5,
            help="A cable that may run at 90 °C is taken at the rating of a 70 °C one unless its terminals at both ends are marked for more (BS 7671, 512.1.5, from memory).",
        ),
    ] = ""
