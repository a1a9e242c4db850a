"""Insulation resistance: the lowest allowed, and what circuits read together."""

from decimal import Decimal

from domain.figures.answer import Answer, NotAskableError, tabulated, worked_out
from domain.figures.figure import Figure
from domain.figures.given import Given
from domain.figures.key import choice, number, numbers
from domain.formulas.insulation import parallel
from domain.formulas.rounding import written
from domain.limits.loader import named_figure, table

_EXTRA_LOW, _LOW, _HIGH, _DELICATE = "SELV", "LV", "above 500 V", "sensitive equipment"
_VOLTAGE = number("voltage", "of the circuit or of the test", "V", at_most=Decimal(1000))
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
_PARALLEL = numbers("parallel", "readings of circuits to be combined", "MΩ")
_ROWS = {
    _EXTRA_LOW: (Decimal(250), "SELV or PELV"),
    _DELICATE: (Decimal(250), "with equipment that could be harmed"),
    _LOW: (Decimal(500), "up to 500 V, and FELV"),
    _HIGH: (Decimal(1000), "above 500 V"),
}
_ALIKE = {"PELV": _EXTRA_LOW, "FELV": _LOW}
_TOP_OF_EXTRA_LOW, _TOP_OF_LOW = Decimal(50), Decimal(500)


def _insulation(given: Given) -> Answer:
    if given.has(_PARALLEL):
        given.refuse("parallel= only combines readings", _VOLTAGE, _CIRCUIT)
        return worked_out(parallel(given.need(_PARALLEL)), notes=("the reading all of them give together",))
    circuit = _circuit(given)
    test, named = _ROWS[circuit]
    limit = table("insulation", given.edition).limit("at_least", test, named)
    assert limit
    below, new = (
        named_figure("insulation_practice", name, given.edition)
        for name in ("look into below", "new work expected at least")
    )
    notes = (
        f"tested with {written(test)} V d.c.",
        f"below {below.shown} it is looked into, and new work should give {new.shown} or more (common practice)",
    )
    return tabulated(limit, f"{named}, at least", notes=notes)


def _circuit(given: Given) -> str:
    circuit, voltage = given.maybe(_CIRCUIT), given.maybe(_VOLTAGE)
    if circuit is None:
        return _by_voltage(given.need(_VOLTAGE))
    kind = _ALIKE.get(circuit, circuit)
    if voltage is None or _may_be(kind, voltage):
        return kind
    raise NotAskableError(f"voltage={written(voltage)} does not go with circuit={circuit}; {_ALLOWED[kind]}")


_ALLOWED = {
    _EXTRA_LOW: "SELV and PELV run at up to 50 V and are tested with 250 V",
    _LOW: "these circuits run at up to 500 V and are tested with 500 V",
    _HIGH: "these circuits run above 500 V and are tested with 1000 V",
    _DELICATE: "with such equipment connected the test is made with 250 V",
}


def _may_be(kind: str, voltage: Decimal) -> bool:
    test, _ = _ROWS[kind]
    if kind == _EXTRA_LOW:
        return voltage <= _TOP_OF_EXTRA_LOW or voltage == test
    if kind == _HIGH:
        return voltage > _TOP_OF_LOW
    return voltage <= _TOP_OF_LOW


def _by_voltage(voltage: Decimal) -> str:
    extra_low_test, _ = _ROWS[_EXTRA_LOW]
    if voltage <= _TOP_OF_EXTRA_LOW or voltage == extra_low_test:
        raise NotAskableError(f"{written(voltage)} V does not say which circuit; add circuit=, {_CIRCUIT.allowed}")
    return _HIGH if voltage > _TOP_OF_LOW else _LOW


INSULATION = Figure(
    "insulation",
    "lowest insulation resistance, or what circuits read together",
    "MΩ",
    (_VOLTAGE, _CIRCUIT, _PARALLEL),
    (("voltage=500", "circuit=LV"), ("circuit=SELV",), ("parallel=40,10,8",)),
    _insulation,
)
