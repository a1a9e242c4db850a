"""What was measured on a circuit: the columns of the usual schedule of test results."""

from typing import Annotated, Any

from domain.figures.units import Megohms, Milliseconds, Ohms, Volts
from domain.forms.box_group import BoxGroup
from domain.job.box import Box, BoxKind
from domain.job.circuit_conditions import has_rcd, in_use
from domain.job.reading import NOT_TAKEN, Meaning, Reading
from domain.value import Line, Value, says_none


def _is_ring(circuit: Any) -> bool:
    return circuit.is_ring


def _may_have_afdd(circuit: Any) -> bool:
    return not circuit.is_spare and not says_none(circuit.afdd_standard)


def _wants_both(circuit: Any) -> bool:
    """R1+R2 of a ring stands for itself; elsewhere R2 does as well."""
    return not circuit.is_spare and (circuit.is_ring or not _is_taken(circuit.r2))


def _wants_cpc(circuit: Any) -> bool:
    return not (circuit.is_spare or circuit.is_ring or _is_taken(circuit.r1_r2))


def _is_taken(reading: Reading) -> bool:
    return reading.is_given and reading.meaning is not Meaning.NOT_APPLICABLE


class CircuitResults(Value):
    """Columns 18 to 31."""

    ring_r1: Annotated[
        Reading[Ohms],
        Box(
            "Ring line, end to end, r1",
            BoxKind.READING,
            short="r1",
            unit="Ω",
            group=BoxGroup.CIRCUIT,
            must=True,
            when=_is_ring,
            not_applicable=True,
            width=6,
            help="Line conductor of the ring, end to end.",
        ),
    ] = NOT_TAKEN
    ring_rn: Annotated[
        Reading[Ohms],
        Box(
            "Ring neutral, end to end, rn",
            BoxKind.READING,
            short="rn",
            unit="Ω",
            group=BoxGroup.CIRCUIT,
            must=True,
            when=_is_ring,
            not_applicable=True,
            width=6,
        ),
    ] = NOT_TAKEN
    ring_r2: Annotated[
        Reading[Ohms],
        Box(
            "Ring cpc, end to end, r2",
            BoxKind.READING,
            short="r2",
            unit="Ω",
            group=BoxGroup.CIRCUIT,
            must=True,
            when=_is_ring,
            not_applicable=True,
            width=6,
        ),
    ] = NOT_TAKEN
    r1_r2: Annotated[
        Reading[Ohms],
        Box(
            "R1+R2",
            BoxKind.READING,
            group=BoxGroup.CIRCUIT,
            short="R1+R2",
            unit="Ω",
            when=_wants_both,
            not_applicable=True,
            width=6,
            help="Line and cpc joined at the board, measured at the far end. Or give R2.",
        ),
    ] = NOT_TAKEN
    r2: Annotated[
        Reading[Ohms],
        Box(
            "R2",
            BoxKind.READING,
            group=BoxGroup.CIRCUIT,
            short="R2",
            unit="Ω",
            when=_wants_cpc,
            not_applicable=True,
            width=6,
            help="cpc alone, by the long lead. Either this or R1+R2.",
        ),
    ] = NOT_TAKEN
    test_voltage: Annotated[
        Reading[Volts],
        Box(
            "Insulation test voltage",
            BoxKind.NUMBER,
            short="Test V",
            unit="V",
            group=BoxGroup.CIRCUIT,
            must=True,
            when=in_use,
            width=6,
            help="500 V up to 500 V nominal; 250 V for SELV, PELV or where equipment could be harmed.",
        ),
    ] = NOT_TAKEN
    ir_live: Annotated[
        Reading[Megohms],
        Box(
            "Insulation, live to live",
            BoxKind.READING,
            short="IR L-L",
            unit="MΩ",
            group=BoxGroup.CIRCUIT,
            must=True,
            when=in_use,
            not_applicable=True,
            width=6,
            help="N/A where lives were joined to protect connected equipment. A > alone repeats the end of the range last shown.",
        ),
    ] = NOT_TAKEN
    ir_earth: Annotated[
        Reading[Megohms],
        Box(
            "Insulation, live to earth",
            BoxKind.READING,
            short="IR L-E",
            unit="MΩ",
            group=BoxGroup.CIRCUIT,
            must=True,
            when=in_use,
            width=6,
            help="Lives together against earth. A > alone repeats the end of the range last shown.",
        ),
    ] = NOT_TAKEN
    polarity: Annotated[
        Reading,
        Box(
            "Polarity",
            BoxKind.TICK,
            short="Pol.",
            group=BoxGroup.CIRCUIT,
            must=True,
            when=in_use,
            width=4,
            help="Y when confirmed correct.",
        ),
    ] = NOT_TAKEN
    zs: Annotated[
        Reading[Ohms],
        Box(
            "Measured Zs",
            BoxKind.READING,
            short="Zs",
            unit="Ω",
            group=BoxGroup.CIRCUIT,
            must=True,
            when=in_use,
            width=6,
            help="The highest found on the circuit, in ohms.",
        ),
    ] = NOT_TAKEN
    rcd_time: Annotated[
        Reading[Milliseconds],
        Box(
            "RCD operating time",
            BoxKind.READING,
            short="RCD t",
            unit="ms",
            group=BoxGroup.CIRCUIT,
            must=True,
            when=has_rcd,
            not_applicable=True,
            width=6,
            help="At rated residual current, the longer of the two half-cycles.",
        ),
    ] = NOT_TAKEN
    rcd_button: Annotated[
        Reading,
        Box(
            "RCD test button",
            BoxKind.TICK,
            short="RCD btn",
            group=BoxGroup.CIRCUIT,
            must=True,
            when=has_rcd,
            not_applicable=True,
            width=7,
        ),
    ] = NOT_TAKEN
    afdd_button: Annotated[
        Reading,
        Box(
            "AFDD test button",
            BoxKind.TICK,
            short="AFDD btn",
            group=BoxGroup.CIRCUIT,
            must=True,
            when=_may_have_afdd,
            not_applicable=True,
            width=7,
            help="N/A when there is no arc fault detection device.",
        ),
    ] = NOT_TAKEN
    remarks: Annotated[
        Line, Box("Remarks", group=BoxGroup.CIRCUIT, width=24, help="Anything the reader of the schedule should know.")
    ] = ""
