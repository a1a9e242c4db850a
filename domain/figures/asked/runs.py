"""The formulas of a run turned round: what a reading says of its parts, its length, and the way round a ring."""

from decimal import Decimal

from domain.figures.asked.answer import FigureAnswer, NotAskableError, worked_out
from domain.figures.asked.figure import Figure
from domain.figures.asked.given import Given
from domain.figures.asked.key import FigureKey, either, number
from domain.figures.formulas.ring import crossed_at, lowest_crossed, quarter, share_at
from domain.figures.formulas.rounding import half_up, written
from domain.figures.formulas.working import Working
from domain.figures.limits.conductors import resistance_of, sizes_with_resistance
from domain.figures.limits.limit import Limit
from domain.figures.units import OHM, SQUARE_MILLIMETRE, TIMES, MilliohmsPerMetre, Ohms, SquareMillimetres

_PLACES = 3
_LINE = number("line", "size of the line conductor", SQUARE_MILLIMETRE, at_most=Decimal(1000))
_CPC = number("cpc", "size of the protective conductor", SQUARE_MILLIMETRE, at_most=Decimal(1000))
_READING = number("reading", "R1+R2 as measured, at about 20 °C", OHM, at_most=Decimal(1000))
_R1 = number("r1", "line conductor alone", OHM, at_most=Decimal(1000))
_R2 = number("r2", "protective conductor alone", OHM, at_most=Decimal(1000))
_END_LINE = number("r1", "line, end to end", OHM, at_most=Decimal(1000))
_END_CPC = number("r2", "cpc, end to end", OHM, at_most=Decimal(1000))
_POINTS = number("points", "how many socket-outlets, evenly spread", TIMES, at_most=Decimal(60), default="7")
_SPOT = number("reading", "a reading on the way round, to have where it belongs", OHM, at_most=Decimal(1000))
_SEVEN = Decimal(7)


def _both(given: Given) -> tuple[Limit[MilliohmsPerMetre], Limit[MilliohmsPerMetre]]:
    return _of(_LINE, given), _of(_CPC, given)


def _of(key: FigureKey[SquareMillimetres], given: Given) -> Limit[MilliohmsPerMetre]:
    csa = given.need(key)
    limit = resistance_of("copper", csa, given.edition)
    if limit is None:
        known = either(tuple(written(size) for size in sizes_with_resistance("copper", given.edition)))
        raise NotAskableError(f"{key.name}={written(csa)}: the table of copper conductors holds {known} mm²")
    return limit


def _length(given: Given) -> FigureAnswer:
    (line, cpc), reading = _both(given), given.need(_READING)
    by_metre = line.value + cpc.value
    value = half_up(reading * 1000 / by_metre, 1)
    sums = f"{written(reading)} Ω / ({line.value} + {cpc.value}) {line.unit} = {value} m"
    working = Working(value=value, unit="m", sum=sums, source=line.source)
    return worked_out(working, cpc.source, notes=("of one run without branches, at 20 °C",))


def _split(given: Given) -> FigureAnswer:
    (line, cpc), reading = _both(given), given.need(_READING)
    share = cpc.value / (line.value + cpc.value)
    value = half_up(reading * share, _PLACES)
    rest = half_up(reading - reading * share, _PLACES)
    sums = f"R2 = {written(reading)} Ω × {cpc.value} / ({line.value} + {cpc.value}) = {value} Ω"
    working = Working(value=value, unit="Ω", sum=sums, source=line.source)
    return worked_out(working, cpc.source, notes=(f"R1 = {written(reading)} Ω - {value} Ω = {rest} Ω",))


def _other_conductor(given: Given) -> FigureAnswer:
    line, cpc = _both(given)
    if given.one_of(_R1, _R2) is _R1:
        known, name, ratio, shown = given.need(_R1), "R2", cpc.value / line.value, f"{cpc.value} / {line.value}"
    else:
        known, name, ratio, shown = given.need(_R2), "R1", line.value / cpc.value, f"{line.value} / {cpc.value}"
    value = half_up(known * ratio, _PLACES)
    sums = f"{name} = {written(known)} Ω × {shown} = {value} Ω"
    whole = f"R1+R2 = {written(known + value)} Ω"
    return worked_out(Working(value=value, unit="Ω", sum=sums, source=line.source), cpc.source, notes=(whole,))


def _profile(given: Given) -> FigureAnswer:
    r1, r2, points = given.need(_END_LINE), given.need(_END_CPC), given.get(_POINTS, _SEVEN)
    if given.has(_SPOT):
        given.refuse("reading= asks where on the ring it is", _POINTS)
        return _spot(r1, r2, given.need(_SPOT))
    if points % 1:
        raise NotAskableError("points is a whole number of socket-outlets")
    parts = points + 1
    along = tuple(half_up(crossed_at(r1, r2, Decimal(at) / parts), _PLACES) for at in range(1, int(points) + 1))
    notes = tuple(f"socket-outlet {at}: {reading} Ω" for at, reading in enumerate(along, start=1))
    return worked_out(quarter(r1, r2), notes=(*notes, "a spur reads more, by its own length"))


def _spot(r1: Ohms, r2: Ohms, reading: Ohms) -> FigureAnswer:
    """The profile turned: how far round the ring a reading belongs, from the nearer end."""
    lowest, highest = lowest_crossed(r1, r2), quarter(r1, r2)
    if r1 == r2:
        raise NotAskableError(
            f"r1 and r2 are alike, so the ring reads {written(highest.value)} Ω all round, and no reading tells the place"
        )
    share = share_at(r1, r2, reading)
    if share is None:
        raise NotAskableError(
            f"the ring reads from {written(lowest.value)} Ω at the board to {written(highest.value)} Ω half way round;"
            f" {written(reading)} Ω is a spur, a joint or another figure"
        )
    value = half_up(100 * share, 0)
    sums = (
        f"x × (1 - x) = ({written(reading)} Ω × {written(r1 + r2)} Ω - {r1} Ω × {r2} Ω) / ({written(abs(r1 - r2))} Ω)²,"
        f" x = {value} %"
    )
    notes = (f"or {100 - value} % of the way, from the other end: both read alike", "of a ring without spurs")
    return worked_out(Working(value=value, unit="%", sum=sums, source=highest.source), notes=notes)


LENGTH = Figure(
    "length",
    "length of a run from its R1+R2",
    "m",
    (_READING, _LINE, _CPC),
    (("reading=0.35", "line=2.5", "cpc=1.5"),),
    _length,
)
SPLIT = Figure(
    "r1-r2-split",
    "R1 and R2 out of R1+R2, by the sizes",
    "Ω",
    (_READING, _LINE, _CPC),
    (("reading=0.35", "line=2.5", "cpc=1.5"),),
    _split,
)
OTHER_CONDUCTOR = Figure(
    "other-conductor",
    "R2 from R1, or R1 from R2, by the sizes",
    "Ω",
    (_R1, _R2, _LINE, _CPC),
    (("r1=0.13", "line=2.5", "cpc=1.5"), ("r2=0.22", "line=2.5", "cpc=1.5")),
    _other_conductor,
)
RING_PROFILE = Figure(
    "ring-profile",
    "what a ring reads from socket-outlet to socket-outlet, line and cpc cross-connected",
    "Ω",
    (_END_LINE, _END_CPC, _POINTS, _SPOT),
    (("r1=0.46", "r2=0.75"), ("r1=0.46", "r2=0.75", "points=9")),
    _profile,
    (("r1=0.46", "r2=0.75", "reading=0.295"),),
)
