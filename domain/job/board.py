"""A distribution board or consumer unit, with the circuits it feeds."""

from typing import Annotated, Any

from pydantic import Field

from domain.figures.units import Amperes, Kiloamperes, Milliamperes, Milliseconds, Ohms
from domain.forms.box_group import BoxGroup
from domain.job.box import Box, BoxKind
from domain.job.circuit import Circuit
from domain.job.reading import NOT_TAKEN, Reading
from domain.job.spelling import TYPE_LETTERS
from domain.job.supply import DEVICE_STANDARDS
from domain.value import Line, Value, says_none, says_nothing

CIRCUITS_MAX = 500


def _has_rcd(board: Any) -> bool:
    return board.has_rcd


def _is_fed_by_a_device(board: Any) -> bool:
    return not says_none(board.device_standard)


def _may_have_spd(board: Any) -> bool:
    return not says_none(board.spd_type)


class Board(Value):
    """One board and its header on the schedules."""

    id: Line = ""
    """Stays with the board when it is renamed."""
    designation: Annotated[
        Line,
        Box(
            "Designation",
            group=BoxGroup.BOARD,
            must=True,
            by_letter=True,
            help="Its name on labels and schedules, such as DB1.",
        ),
    ] = ""
    location: Annotated[Line, Box("Location", group=BoxGroup.BOARD, must=True, help="Where it is found.")] = ""
    kind: Annotated[
        Line,
        Box(
            "Kind of board",
            group=BoxGroup.ONE_CIRCUIT,
            must=True,
            figures_most=0,
            help="Consumer unit, distribution board, switch fuse; metal or plastic; its maker where it matters.",
        ),
    ] = ""
    supplied_from: Annotated[
        Line,
        Box(
            "Supplied from", group=BoxGroup.BOARD_FEED, must=True, help="The origin, or another board and way: DB1 / 4."
        ),
    ] = ""
    phases: Annotated[
        Line, Box("Phases", BoxKind.CHOICE, choices=("1", "3"), group=BoxGroup.BOARD_FEED, must=True, help="1 or 3.")
    ] = ""
    device_standard: Annotated[
        Line,
        Box(
            "Device feeding the board, BS (EN)",
            BoxKind.CHOICE,
            choices=DEVICE_STANDARDS,
            open_choice=True,
            group=BoxGroup.BOARD_FEED,
            must=True,
            not_applicable=True,
            help="N/A at the origin, where the supply device is recorded already.",
        ),
    ] = ""
    device_type: Annotated[
        Line,
        Box(
            "Device feeding the board, type",
            group=BoxGroup.BOARD_FEED,
            must=True,
            when=_is_fed_by_a_device,
            figures_most=1,
            letters_known=TYPE_LETTERS,
            not_applicable=True,
        ),
    ] = ""
    device_rating: Annotated[
        Reading[Amperes],
        Box(
            "Device feeding the board, rating",
            BoxKind.NUMBER,
            unit="A",
            group=BoxGroup.BOARD_FEED,
            must=True,
            when=_is_fed_by_a_device,
            not_applicable=True,
        ),
    ] = NOT_TAKEN
    main_switch: Annotated[
        Line,
        Box(
            "Main switch of the board",
            group=BoxGroup.BOARD_FEED,
            help="Poles, rating and BS (EN). At the origin it is recorded on the first sheet.",
        ),
    ] = ""
    rcd_type: Annotated[
        Line,
        Box(
            "RCD of the board, type",
            BoxKind.CHOICE,
            choices=("AC", "A", "F", "B", "S", "N/A"),
            open_choice=True,
            group=BoxGroup.BOARD_FEED,
            not_applicable=True,
            help="An RCD that protects the whole board or its supply. N/A when there is none.",
        ),
    ] = ""
    rcd_idn: Annotated[
        Reading[Milliamperes],
        Box(
            "RCD of the board, IΔn",
            BoxKind.NUMBER,
            unit="mA",
            group=BoxGroup.BOARD_FEED,
            must=True,
            when=_has_rcd,
            not_applicable=True,
        ),
    ] = NOT_TAKEN
    rcd_rating: Annotated[
        Reading[Amperes],
        Box(
            "RCD of the board, rating",
            BoxKind.NUMBER,
            unit="A",
            group=BoxGroup.BOARD_FEED,
            when=_has_rcd,
            not_applicable=True,
            quiet=True,
            help="Rated current as marked; held against the devices behind it and the one before it.",
        ),
    ] = NOT_TAKEN
    rcd_time: Annotated[
        Reading[Milliseconds],
        Box(
            "RCD of the board, measured time",
            BoxKind.READING,
            unit="ms",
            group=BoxGroup.BOARD_FEED,
            must=True,
            when=_has_rcd,
            not_applicable=True,
        ),
    ] = NOT_TAKEN
    zs: Annotated[
        Reading[Ohms],
        Box(
            "Zs at the board, Zdb",
            BoxKind.READING,
            short="Zdb",
            unit="Ω",
            group=BoxGroup.BOARD,
            must=True,
            help="Loop impedance at the board with everything connected. At the origin it is close to Ze or below it.",
        ),
    ] = NOT_TAKEN
    ipf: Annotated[
        Reading[Kiloamperes],
        Box(
            "Ipf at the board",
            BoxKind.READING,
            short="Ipf",
            unit="kA",
            group=BoxGroup.BOARD_FEED,
            must=True,
            help="The larger of line-neutral and line-earth.",
        ),
    ] = NOT_TAKEN
    polarity: Annotated[
        Reading, Box("Polarity confirmed at the board", BoxKind.TICK, group=BoxGroup.BOARD_FEED, must=True)
    ] = NOT_TAKEN
    phase_sequence: Annotated[
        Reading,
        Box(
            "Phase sequence confirmed",
            BoxKind.TICK,
            group=BoxGroup.BOARD_FEED,
            must=True,
            not_applicable=True,
            help="N/A on a single phase.",
        ),
    ] = NOT_TAKEN
    spd_type: Annotated[
        Line,
        Box(
            "SPD, type",
            group=BoxGroup.BOARD,
            must=True,
            not_applicable=True,
            help="Surge protective device: T1, T2, T3, or N/A.",
        ),
    ] = ""
    spd_indicator: Annotated[
        Reading,
        Box(
            "SPD indicator healthy",
            BoxKind.TICK,
            group=BoxGroup.BOARD,
            must=True,
            when=_may_have_spd,
            not_applicable=True,
        ),
    ] = NOT_TAKEN
    vulnerable: Annotated[
        Line,
        Box(
            "Equipment vulnerable to test voltages",
            group=BoxGroup.BOARD_FEED,
            help="What had to be disconnected before insulation tests.",
        ),
    ] = ""
    tested_by: Annotated[
        Line,
        Box("Tested by", group=BoxGroup.BOARD_FEED, must=True, names=True, help="Who took the readings of this board."),
    ] = ""
    tested_on: Annotated[Line, Box("Tested on", BoxKind.DATE, group=BoxGroup.BOARD_FEED, must=True)] = ""
    circuits: Annotated[tuple[Circuit, ...], Field(max_length=CIRCUITS_MAX, fail_fast=True)] = ()

    def circuit(self, circuit_id: str) -> Circuit | None:
        """The circuit with this id."""
        return next((circuit for circuit in self.circuits if circuit.id == circuit_id), None)

    @property
    def has_rcd(self) -> bool:
        """An RCD is named that protects the whole board or its supply."""
        return not says_nothing(self.rcd_type)

    @property
    def name(self) -> str:
        """Its designation, as a person would say it."""
        return self.designation.strip() or "not named yet"
