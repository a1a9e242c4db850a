"""A distribution board or consumer unit, with the circuits it feeds."""

from typing import Annotated

from pydantic import Field

from domain.box import Box, BoxKind
from domain.circuit import Circuit
from domain.form_set import EVERY, SCHEDULED
from domain.reading import NOT_TAKEN, Reading
from domain.supply import DEVICE_STANDARDS
from domain.value import Line, Value

CIRCUITS_MAX = 500


class Board(Value):
    """One board and its header on the schedules."""

    id: Line = ""
    """Stays with the board when it is renamed."""
    designation: Annotated[
        Line, Box("Designation", required=EVERY, help="Its name on labels and schedules, such as DB1.")
    ] = ""
    location: Annotated[Line, Box("Location", required=EVERY, help="Where it is found.")] = ""
    supplied_from: Annotated[
        Line,
        Box("Supplied from", on=SCHEDULED, required=SCHEDULED, help="The origin, or another board and way: DB1 / 4."),
    ] = ""
    phases: Annotated[
        Line, Box("Phases", BoxKind.CHOICE, choices=("1", "3"), on=SCHEDULED, required=SCHEDULED, help="1 or 3.")
    ] = ""
    device_standard: Annotated[
        Line,
        Box(
            "Device feeding the board, BS (EN)",
            BoxKind.CHOICE,
            choices=DEVICE_STANDARDS,
            open_choice=True,
            on=SCHEDULED,
            required=SCHEDULED,
            not_applicable=True,
            help="N/A at the origin, where the supply device is recorded already.",
        ),
    ] = ""
    device_type: Annotated[
        Line, Box("Device feeding the board, type", on=SCHEDULED, required=SCHEDULED, not_applicable=True)
    ] = ""
    device_rating: Annotated[
        Reading,
        Box(
            "Device feeding the board, rating",
            BoxKind.NUMBER,
            unit="A",
            on=SCHEDULED,
            required=SCHEDULED,
            not_applicable=True,
        ),
    ] = NOT_TAKEN
    zs: Annotated[
        Reading,
        Box(
            "Zs at the board, Zdb",
            BoxKind.READING,
            short="Zdb",
            unit="Ω",
            required=EVERY,
            help="Loop impedance at the board with everything connected. At the origin it is close to Ze or below it.",
        ),
    ] = NOT_TAKEN
    ipf: Annotated[
        Reading,
        Box(
            "Ipf at the board",
            BoxKind.READING,
            short="Ipf",
            unit="kA",
            on=SCHEDULED,
            required=SCHEDULED,
            help="The larger of line-neutral and line-earth.",
        ),
    ] = NOT_TAKEN
    polarity: Annotated[
        Reading, Box("Polarity confirmed at the board", BoxKind.TICK, on=SCHEDULED, required=SCHEDULED)
    ] = NOT_TAKEN
    phase_sequence: Annotated[
        Reading,
        Box(
            "Phase sequence confirmed",
            BoxKind.TICK,
            on=SCHEDULED,
            required=SCHEDULED,
            not_applicable=True,
            help="N/A on a single phase.",
        ),
    ] = NOT_TAKEN
    spd_type: Annotated[
        Line,
        Box(
            "SPD, type",
            on=SCHEDULED,
            required=SCHEDULED,
            not_applicable=True,
            help="Surge protective device: T1, T2, T3, or N/A.",
        ),
    ] = ""
    spd_indicator: Annotated[
        Reading, Box("SPD indicator healthy", BoxKind.TICK, required=EVERY, not_applicable=True)
    ] = NOT_TAKEN
    vulnerable: Annotated[
        Line,
        Box(
            "Equipment vulnerable to test voltages",
            on=SCHEDULED,
            help="What had to be disconnected before insulation tests.",
        ),
    ] = ""
    tested_by: Annotated[
        Line, Box("Tested by", on=SCHEDULED, required=SCHEDULED, help="Who took the readings of this board.")
    ] = ""
    tested_on: Annotated[Line, Box("Tested on", BoxKind.DATE, on=SCHEDULED, required=SCHEDULED)] = ""
    circuits: Annotated[tuple[Circuit, ...], Field(max_length=CIRCUITS_MAX, fail_fast=True)] = ()

    def circuit(self, circuit_id: str) -> Circuit | None:
        """The circuit with this id."""
        return next((circuit for circuit in self.circuits if circuit.id == circuit_id), None)

    @property
    def name(self) -> str:
        """Its designation, as a person would say it."""
        return self.designation.strip() or "without a designation"
