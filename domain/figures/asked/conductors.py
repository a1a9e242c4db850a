"""Resistance of conductors: R1+R2 of a run, and any resistance at another temperature."""

from decimal import Decimal

from domain.edition import Edition
from domain.figures.asked.answer import FigureAnswer, NotAskableError, worked_out
from domain.figures.asked.figure import Figure
from domain.figures.asked.given import Given
from domain.figures.asked.key import FigureKey, choice, either, number
from domain.figures.formulas.conductor import at_reference, at_temperature, r1_r2, resistance, with_factor
from domain.figures.formulas.rounding import written
from domain.figures.formulas.working import Working
from domain.figures.limits.conductors import armour_of, resistance_of, sizes_with_resistance
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure
from domain.figures.units import (
    DEGREE,
    METRE,
    OHM,
    SQUARE_MILLIMETRE,
    TIMES,
    MilliohmsPerMetre,
    Ohms,
    SquareMillimetres,
    Unit,
)

_COLDEST, _HOTTEST = Decimal(-50), Decimal(250)
_LINE = number("line", "size of the line conductor", SQUARE_MILLIMETRE, at_most=Decimal(1000))
_CPC = number("cpc", "size of the protective conductor", SQUARE_MILLIMETRE, at_most=Decimal(1000))
_CORES = number(
    "cores", "how many cores, where their steel wire armour is the protective conductor", TIMES, at_most=Decimal(5)
)
_LENGTH = number("length", "length of the run", METRE)
_TEMPERATURE = number(
    "temperature", "temperature of the conductors", DEGREE, at_least=_COLDEST, at_most=_HOTTEST, default="20 °C"
)
_NEEDED_TEMPERATURE = number(
    "temperature", "temperature asked about, or that of r=", DEGREE, at_least=_COLDEST, at_most=_HOTTEST
)
_FACTOR = number(
    "factor", "for the temperature in service, instead of temperature=", TIMES, at_most=Decimal(10), default="1"
)
_MATERIAL = choice(
    "material",
    "what the conductors are made of",
    {"copper": ("cu",), "flexible copper": ("flexible",), "aluminium": ("al", "aluminum")},
    default="copper",
)
_ARMOURED = "it holds 2 to 5 cores of 1.5, 2.5, 4 or 6 mm²"
_R20 = number("r20", "resistance at 20 °C", OHM)
_WARM = number("r", "resistance at temperature=, instead of r20=, to have the one at 20 °C", OHM)
_ALPHA = number(
    "alpha", "change for each degree", Unit("per K", Decimal), at_most=Decimal("0.01"), default="0.004 per K"
)


def _r1_r2(given: Given) -> FigureAnswer:
    if given.has(_TEMPERATURE) and given.has(_FACTOR):
        raise NotAskableError(
            "r1-r2 takes temperature= or factor=, not both: each stands for the warmth of the conductors"
        )
    length = given.need(_LENGTH)
    line = _of(_LINE, given)
    cpc = _of(_CPC, given) if given.one_of(_CPC, _CORES) is _CPC else _armour(given)
    at_20 = r1_r2(line, cpc, length)
    parts = (f"r1: {resistance(line, length).sum}", f"r2: {resistance(cpc, length).sum}", "both at 20 °C")
    warm = _warm(given, at_20)
    sums = at_20.sum if warm is None else f"{at_20.sum}; {warm.sum}"
    also = (cpc.source, *((warm.source,) if warm and warm.source else ()))
    working = (warm or at_20).model_copy(update={"sum": sums, "source": at_20.source, "notes": ()})
    return worked_out(working, *also, notes=parts)


def _of(key: FigureKey[SquareMillimetres], given: Given) -> Limit[MilliohmsPerMetre]:
    material, csa = given.get(_MATERIAL, "copper"), given.need(key)
    limit = resistance_of(material, csa, given.edition)
    if limit is None:
        known = either(tuple(written(size) for size in sizes_with_resistance(material, given.edition)))
        raise NotAskableError(f"{key.name}={written(csa)}: the table of {material} conductors holds {known} mm²")
    return limit


def _armour(given: Given) -> Limit[MilliohmsPerMetre]:
    cores, line = given.need(_CORES), given.need(_LINE)
    limit = armour_of(cores, line, given.edition)
    if limit is None:
        raise NotAskableError(
            f"The armour of a cable with {written(cores)} cores of {written(line)} mm² is not in the table; {_ARMOURED}"
        )
    return limit


def _warm(given: Given, at_20: Working) -> Working | None:
    """What the temperature or the factor makes of it; None where neither was typed."""
    if given.has(_FACTOR):
        return _certain(with_factor(Ohms(at_20.value), given.need(_FACTOR)))
    if not given.has(_TEMPERATURE):
        return None
    coefficient, reference = _coefficients(given.edition)
    return _certain(at_temperature(Ohms(at_20.value), given.need(_TEMPERATURE), coefficient, reference))


def _certain(working: Working | None) -> Working:
    if working is None:
        raise NotAskableError("The run is too short or too long to be worked out; check length=")
    return working


def _coefficients(edition: Edition) -> tuple[Limit, Limit]:
    name = "resistance_coefficients"
    return named_figure(name, "simplified", edition), named_figure(name, "reference temperature", edition)


def _resistance_at(given: Given) -> FigureAnswer:
    coefficient, reference = _coefficients(given.edition)
    if given.has(_ALPHA):
        coefficient = reference.model_copy(update={"value": given.need(_ALPHA), "unit": coefficient.unit})
    at = given.need(_NEEDED_TEMPERATURE)
    if given.one_of(_R20, _WARM) is _R20:
        return worked_out(at_temperature(given.need(_R20), at, coefficient, reference), reference.source)
    return worked_out(
        at_reference(given.need(_WARM), at, coefficient, reference), reference.source, notes=("at 20 °C",)
    )


R1_R2 = Figure(
    "r1-r2",
    "R1+R2 of a run from its sizes and length",
    "Ω",
    (_LINE, _CPC, _CORES, _LENGTH, _TEMPERATURE, _FACTOR, _MATERIAL),
    (
        ("line=2.5", "cpc=1.5", "length=18"),
        ("line=6mm2", "cpc=2.5mm2", "length=18m", "factor=1.2"),
        ("line=4", "cores=3", "length=20"),
    ),
    _r1_r2,
)
RESISTANCE_AT = Figure(
    "resistance-at",
    "a resistance known at 20 °C, at another temperature, or the other way about",
    "Ω",
    (_R20, _WARM, _NEEDED_TEMPERATURE, _ALPHA),
    (("r20=0.5", "temperature=70"), ("r20=0.5", "temperature=70", "alpha=0.00393"), ("r=0.45", "temperature=8")),
    _resistance_at,
)
