"""Insulation resistance: the lowest allowed, and what circuits read together."""

from decimal import Decimal

from domain.edition import Edition
from domain.figures.asked.answer import FigureAnswer, NotAskableError, tabulated, worked_out
from domain.figures.asked.figure import Figure
from domain.figures.asked.given import Given
from domain.figures.asked.key import choice, number, numbers
from domain.figures.formulas.insulation import left_of, parallel
from domain.figures.formulas.rounding import written
from domain.figures.limits.loader import named_figure, table
from domain.figures.limits.table import LimitRow
from domain.figures.units import MEGOHM, VOLT

_EXTRA_LOW, _LOW, _HIGH, _DELICATE = "SELV", "LV", "above 500 V", "sensitive equipment"
_VOLTAGE = number("voltage", "of the circuit or of the test", VOLT, at_most=Decimal(1000))
_CIRCUIT = choice(
    "circuit",
    "the kind of circuit",
    {
        _EXTRA_LOW: ("SELV or PELV", "SELV and PELV"),
        "PELV": (),
        "FELV": (),
        _LOW: ("low voltage", "up to 500 V"),
        _HIGH: ("over 500 V", ">500V", "above 500"),
    }
    | {_DELICATE: ("sensitive", "equipment connected")},
)
_PARALLEL = numbers("parallel", "readings of circuits to be combined", MEGOHM)
_TOGETHER = number(
    "together", "what they read with one circuit more, to have the reading of that one; with parallel=", MEGOHM
)
_ROWS = {
    _EXTRA_LOW: "SELV or PELV",
    "PELV": "SELV or PELV",
    "FELV": "up to 500 V, and FELV",
    _LOW: "up to 500 V, and FELV",
    _HIGH: "above 500 V",
    _DELICATE: "with equipment that could be harmed",
}
"""The row of the table each kind of circuit stands in."""


def _insulation(given: Given) -> FigureAnswer:
    if given.has(_PARALLEL):
        given.refuse("parallel= only combines readings", _VOLTAGE, _CIRCUIT)
        if given.has(_TOGETHER):
            return _left(given)
        return worked_out(parallel(given.need(_PARALLEL)), notes=("the reading all of them give together",))
    given.refuse("it goes with parallel=", _TOGETHER)
    row = _row(given)
    below, new = (
        named_figure("insulation_practice", name, given.edition)
        for name in ("look into below", "new work expected at least")
    )
    notes = (
        f"tested with {row.figures['test_voltage'].shown} d.c.",
        f"below {below.shown} it is looked into, and new work should give {new.shown} or more (common practice)",
    )
    return tabulated(row.figures["at_least"], f"{row.texts['circuit']}, at least", notes=notes)


def _left(given: Given) -> FigureAnswer:
    working = left_of(given.need(_TOGETHER), given.need(_PARALLEL))
    if working is None:
        raise NotAskableError(
            f"together={written(given.need(_TOGETHER))} is no less than those circuits give alone, so no other circuit takes part"
        )
    return worked_out(working, notes=("the one circuit that is not among them",))


def _row(given: Given) -> LimitRow:
    circuit, voltage = given.maybe(_CIRCUIT), given.maybe(_VOLTAGE)
    if circuit is None:
        return _row_for(_by_voltage(given.need(_VOLTAGE), given.edition), given.edition)
    row = _row_for(circuit, given.edition)
    if voltage is None or _runs_at(row, voltage) or voltage == row.figures["test_voltage"].value:
        return row
    above = f"above {row.figures['runs_above'].shown}, " if "runs_above" in row.figures else ""
    raise NotAskableError(
        f"voltage={written(voltage)} does not go with circuit={circuit}: such circuits run at {above}up to "
        f"{row.figures['runs_up_to'].shown}, and are tested with {row.figures['test_voltage'].shown}"
    )


def _row_for(circuit: str, edition: Edition) -> LimitRow:
    return next(row for row in table("insulation", edition).rows if row.texts["circuit"] == _ROWS[circuit])


def _runs_at(row: LimitRow, voltage: Decimal) -> bool:
    above = row.figures.get("runs_above")
    return (above is None or voltage > above.value) and voltage <= row.figures["runs_up_to"].value


def _by_voltage(voltage: Decimal, edition: Edition) -> str:
    extra_low = _row_for(_EXTRA_LOW, edition)
    if _runs_at(extra_low, voltage) or voltage == extra_low.figures["test_voltage"].value:
        raise NotAskableError(f"{written(voltage)} V does not say which circuit; add circuit=, {_CIRCUIT.allowed}")
    return _HIGH if _runs_at(_row_for(_HIGH, edition), voltage) else _LOW


INSULATION = Figure(
    "insulation",
    "lowest insulation resistance, or what circuits read together",
    "MΩ",
    (_VOLTAGE, _CIRCUIT, _PARALLEL, _TOGETHER),
    (("voltage=500", "circuit=LV"), ("circuit=SELV",), ("parallel=40,10,8",), ("parallel=40,10", "together=2")),
    _insulation,
)
