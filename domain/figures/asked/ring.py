"""What a ring final circuit should read at each step of its test."""

from decimal import Decimal

from domain.figures.asked.answer import FigureAnswer, NotAskableError, worked_out
from domain.figures.asked.figure import Figure
from domain.figures.asked.given import Given
from domain.figures.asked.key import either, number
from domain.figures.formulas.ring import fitting_r2, lowest_crossed, quarter
from domain.figures.formulas.rounding import half_up, written
from domain.figures.formulas.working import Working
from domain.figures.limits.conductors import ratios_of, sizes_with_resistance
from domain.figures.limits.loader import named_figure
from domain.figures.units import OHM, SQUARE_MILLIMETRE, Ohms

_R1 = number("r1", "line, end to end", OHM, at_most=Decimal(1000))
_RN = number("rn", "neutral, end to end", OHM, at_most=Decimal(1000))
_R2 = number("r2", "cpc, end to end", OHM, at_most=Decimal(1000))
_LINE = number("line", "size of line and neutral", SQUARE_MILLIMETRE, at_most=Decimal(1000))
_CPC = number("cpc", "size of the protective conductor", SQUARE_MILLIMETRE, at_most=Decimal(1000))
_READING = number("reading", "R1+R2 of the ring, instead of r1= and r2=, to have its ends", OHM, at_most=Decimal(1000))
_PLACES = 3


def _ring(given: Given) -> FigureAnswer:
    if given.has(_READING):
        return _ends(given)
    r1, r2 = given.need(_R1), given.need(_R2)
    if given.has(_LINE) != given.has(_CPC):
        raise NotAskableError("ring takes line= and cpc= together: the ratio of r2 to r1 follows from both sizes")
    span = lowest_crossed(r1, r2)
    highest = quarter(r1, r2)
    notes = (
        *_neutral(given, r1),
        f"line and cpc cross-connected read from {span.value} Ω at the board to {written(highest.value)} Ω half way round",
        f"least: {span.sum}",
        "the highest is recorded as R1+R2",
        *_ratio(given, r1, r2),
        "a reading above the span is a spur, or a joint to look at",
    )
    apart = named_figure("ring", "end to end, apart by", given.edition)
    return worked_out(highest, *((apart.source,) if given.has(_RN) else ()), notes=notes)


def _ends(given: Given) -> FigureAnswer:
    """The quarter turned: the ends of a ring that reads so, shared out by the sizes."""
    reading = given.need(_READING)
    given.refuse("reading= asks for the ends", _R1, _RN, _R2)
    ratios = ratios_of(given.need(_LINE), given.need(_CPC), given.edition)
    if len(ratios) == 1:
        raise NotAskableError(_sizes_known(given))
    r1 = Ohms(half_up(4 * reading / (1 + ratios[0]), _PLACES))
    r2 = Ohms(half_up(4 * reading - r1, _PLACES))
    sums = f"4 × {written(reading)} Ω / (1 + {half_up(ratios[0], _PLACES)}) = {written(r1)} Ω"
    notes = (
        f"r2 = 4 × {written(reading)} Ω - {written(r1)} Ω = {written(r2)} Ω",
        "rn is about r1",
        "of a ring without spurs; the reading is the highest, cross-connected",
    )
    return worked_out(Working(value=r1, unit="Ω", sum=sums, source=quarter(r1, r2).source), notes=notes)


def _sizes_known(given: Given) -> str:
    known = either(tuple(written(size) for size in sizes_with_resistance("copper", given.edition)))
    return f"line and cpc are sizes of the table: {known} mm²"


def _neutral(given: Given, r1: Ohms) -> tuple[str, ...]:
    rn = given.maybe(_RN)
    if rn is None:
        return ()
    within = named_figure("ring", "end to end, apart by", given.edition)
    apart = abs(r1 - rn)
    verdict = f"within {within.shown}" if apart <= within.value else f"more than {within.shown}, look for a loose joint"
    crossed = quarter(r1, rn, "r1 + rn").sum
    return (
        f"r1 and rn are {written(apart)} Ω apart: {verdict}",
        f"line and neutral cross-connected read alike at every socket, about {crossed}",
    )


def _ratio(given: Given, r1: Ohms, r2: Ohms) -> tuple[str, ...]:
    measured = f"r2 / r1 = {written(r2)} / {written(r1)} = {half_up(r2 / r1, _PLACES)}"
    line, cpc = given.maybe(_LINE), given.maybe(_CPC)
    if line is None or cpc is None:
        return (measured,)
    ratios = ratios_of(line, cpc, given.edition)
    if len(ratios) == 1:
        raise NotAskableError(_sizes_known(given))
    name = "cross-connected, apart by"
    flat, share = (
        named_figure("ring", name, given.edition),
        named_figure("ring", "cpc by its size, apart by share", given.edition),
    )
    lowest, highest = fitting_r2(r1, ratios, flat, share)
    fits = lowest <= r2 <= highest
    by_resistance, by_size = (written(half_up(ratio, _PLACES)) for ratio in ratios)
    sizes = f"{written(line)}/{written(cpc)} mm²"
    verdict = "fits" if fits else "does not fit: check the sizes and the joints of the cpc"
    expected = f"r2 is expected between {lowest} Ω and {highest} Ω, and {verdict}"
    return (f"{measured}; {sizes} has {by_resistance} by resistance and {by_size} by size, so {expected}",)


RING = Figure(
    "ring",
    "R1+R2 of a ring, and what its other readings should be, or its ends for an R1+R2",
    "Ω",
    (_R1, _RN, _R2, _LINE, _CPC, _READING),
    (
        ("r1=0.32", "rn=0.32", "r2=0.53"),
        ("r1=0.32", "rn=0.32", "r2=0.53", "line=2.5", "cpc=1.5"),
        ("reading=0.28", "line=2.5", "cpc=1.5"),
    ),
    _ring,
)
