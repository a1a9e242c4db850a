"""Within what time an RCD opens, at a multiple of its rated residual current."""

from decimal import Decimal

from domain.figures.asked.answer import FigureAnswer, NotAskableError, not_known, tabulated
from domain.figures.asked.figure import Figure
from domain.figures.asked.given import Given
from domain.figures.asked.key import choice, device, number, one_of_numbers
from domain.figures.formulas.rounding import written
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import table
from domain.figures.limits.table import LimitRow
from domain.figures.units import MILLIAMPERE, MILLISECOND
from domain.source import Source

_STANDARDS = ("BS EN 61008", "BS EN 61009", "BS EN 62423", "BS 4293", "BS 7288")
_DELAYED_BY_SETTING = "BS 4293"
_HALF = Decimal("0.5")
_TIMES = (_HALF, Decimal(1), Decimal(2), Decimal(5))


_STANDARD = device("standard", "the standard of the device", _STANDARDS)
_TYPE = choice(
    "type",
    "general, or S with a time delay",
    {
        "general": ("G", "AC", "A", "F", "B", "type AC", "type A", "type F", "type B"),
        "S": ("type S", "selective", "delayed", "time delayed", "time delay", "AC S", "A S", "F S", "B S"),
    },
    default="general",
)
_IDN = number("idn", "rated residual current IΔn", MILLIAMPERE)
_MULTIPLE = one_of_numbers("times", "multiple of IΔn", "", _TIMES, spelled={"½": _HALF, "1/2": _HALF}, default="1")
_DELAY = number("delay", "delay marked on a BS 4293 device", MILLISECOND, at_most=Decimal(10000))


def _rcd_time(given: Given) -> FigureAnswer:
    standard, kind = given.need(_STANDARD), given.get(_TYPE, "general")
    times = given.get(_MULTIPLE, Decimal(1))
    if given.has(_DELAY) and standard != _DELAYED_BY_SETTING:
        raise NotAskableError(f"delay goes with {_DELAYED_BY_SETTING} only; other delayed devices are type=S")
    rows = table("rcd_times", given.edition)
    at = _at(given.maybe(_IDN), times)
    if times == _HALF:
        says = f"{standard}, {at}: it must not open"
        return not_known("ms", says, rows.source, notes=("opening at all is a fail",), because="must not open")
    row = rows.row(standard, "general" if given.has(_DELAY) else kind, times)
    named = f"{standard}, {'delayed' if given.has(_DELAY) else kind}, {at}"
    if row is None:
        return not_known("ms", f"The table has no time for {named}", rows.source)
    return _window(row, rows.source, named, given.maybe(_DELAY))


def _at(idn: Decimal | None, times: Decimal) -> str:
    current = f" = {written(idn * times)} mA" if idn is not None else ""
    return f"at {written(times)} × {'IΔn' if idn is None else f'{written(idn)} mA'}{current}"


def _window(row: LimitRow, basis: Source, device: str, delay: Decimal | None) -> FigureAnswer:
    most, least = row.figures["at_most"], row.figures.get("at_least")
    if delay is not None:
        least, most = _later(most, delay / 2), _later(most, delay)
    window = f"from {least.shown} to {most.shown}" if least else f"within {most.shown}"
    answer = tabulated(most, device, basis, notes=(*_least(least), *_AS_TESTED))
    return answer.model_copy(update={"working": f"{device}: {window}"})


def _later(limit: Limit, by: Decimal) -> Limit:
    return limit.model_copy(update={"value": limit.value + by})


def _least(least: Limit | None) -> tuple[str, ...]:
    return (f"not sooner than {least.shown}",) if least else ()


_AS_TESTED = (
    "tested with a.c. in both half-cycles, the longer time recorded",
    "since Amendment 2 one test at IΔn is asked for, whatever the type",
)
RCD_TIME = Figure(
    "rcd-time",
    "longest operating time of an RCD, and the shortest where it has one",
    "ms",
    (_STANDARD, _TYPE, _IDN, _MULTIPLE, _DELAY),
    (
        ("standard=BS EN 61008", "idn=30"),
        ("standard=BS EN 61008", "type=S", "idn=100"),
        ("standard=BS EN 61009", "idn=30", "times=5"),
    ),
    _rcd_time,
)
