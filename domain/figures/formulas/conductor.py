"""Resistance of conductors, at 20 °C and warmer."""

from decimal import Decimal

from domain.figures.formulas.rounding import half_up, measurable, written
from domain.figures.formulas.working import Working
from domain.figures.limits.limit import Limit
from domain.figures.units import Celsius, Metres, MilliohmsPerMetre, Ohms

_MILLI = Decimal("0.001")
_PLACES = 4
_HOTTEST = 1000


def resistance(by_the_metre: Limit[MilliohmsPerMetre], length: Metres) -> Working:
    """Resistance of a run in ohms, from the figure in milliohms a metre."""
    value = by_the_metre.value * length * _MILLI
    return Working(
        value=value,
        unit="Ω",
        sum=f"{by_the_metre.shown} × {length} m = {value.normalize():f} Ω",
        source=by_the_metre.source,
    )


def r1_r2(line: Limit[MilliohmsPerMetre], cpc: Limit[MilliohmsPerMetre], length: Metres) -> Working:
    """R1+R2 of a run in ohms."""
    value = (line.value + cpc.value) * length * _MILLI
    return Working(
        value=value,
        unit="Ω",
        sum=f"({line.value} + {cpc.value}) {line.unit} × {length} m = {value.normalize():f} Ω",
        source=line.source,
        notes=(resistance(line, length).sum, resistance(cpc, length).sum),
    )


def at_temperature(r20: Ohms, temperature: Celsius, coefficient: Limit, reference: Limit) -> Working | None:
    """Resistance at a temperature in degrees Celsius, from the one at the reference: R × (1 + α × (t - 20))."""
    if not measurable(r20, coefficient.value) or not temperature.is_finite() or abs(temperature) > _HOTTEST:
        return None
    factor = 1 + coefficient.value * (temperature - reference.value)
    if factor < 0:
        return None  # colder than the straight line holds for
    value = half_up(r20 * factor, _PLACES)
    rise = f"({written(temperature)} - {written(reference.value)})"
    return Working(
        value=value,
        unit="Ω",
        sum=f"{written(r20)} Ω × (1 + {written(coefficient.value)} × {rise}) = {written(value)} Ω",
        source=coefficient.source,
    )


def at_reference(warm: Ohms, temperature: Celsius, coefficient: Limit, reference: Limit) -> Working | None:
    """Resistance at the reference temperature, from the one at another: R / (1 + α × (t - 20))."""
    if not measurable(warm, coefficient.value) or not temperature.is_finite() or abs(temperature) > _HOTTEST:
        return None
    factor = 1 + coefficient.value * (temperature - reference.value)
    if factor <= 0:
        return None
    value = half_up(warm / factor, _PLACES)
    rise = f"({written(temperature)} - {written(reference.value)})"
    return Working(
        value=value,
        unit="Ω",
        sum=f"{written(warm)} Ω / (1 + {written(coefficient.value)} × {rise}) = {written(value)} Ω",
        source=coefficient.source,
    )


def with_factor(resistance_at_20: Ohms, factor: Decimal) -> Working | None:
    """Resistance in service, by the factor of its insulation."""
    if not measurable(resistance_at_20, factor):
        return None
    value = half_up(resistance_at_20 * factor, _PLACES)
    return Working(value=value, unit="Ω", sum=f"{written(resistance_at_20)} Ω × {written(factor)} = {written(value)} Ω")
