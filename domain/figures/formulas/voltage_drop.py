"""Voltage drop along a cable, and the share of the nominal voltage it takes."""

from decimal import Decimal

from domain.figures.formulas.rounding import down, half_up, measurable, written
from domain.figures.formulas.working import Working
from domain.figures.limits.limit import Limit
from domain.figures.units import Amperes, Metres, MillivoltsPerAmpereMetre, Volts
from domain.regulation import regulation

_PLACES = 2
_RULE = "voltage drop"


def voltage_drop(by_ampere_and_metre: MillivoltsPerAmpereMetre, current: Amperes, length: Metres) -> Working | None:
    """The drop in volts, from millivolts for an ampere and a metre."""
    if not measurable(by_ampere_and_metre, current, length):
        return None
    value = half_up(exact_drop(by_ampere_and_metre, current, length), _PLACES)
    factors = f"{written(by_ampere_and_metre)} mV/A/m × {written(current)} A × {written(length)} m"
    return Working(value=value, unit="V", sum=f"{factors} / 1000 = {written(value)} V", source=regulation(_RULE))


def exact_drop(by_ampere_and_metre: MillivoltsPerAmpereMetre, current: Amperes, length: Metres) -> Volts:
    """The drop in volts before rounding, for comparing with a limit."""
    return Volts(by_ampere_and_metre * current * length / 1000)


def highest_drop(
    nominal: Limit, share: Limit, length: Metres, beyond: Limit, by_the_metre: Limit, most: Limit
) -> Volts:
    """What the drop may be in volts: a share of the nominal voltage, and a little more on a long run."""
    added = min(most.value, max(Decimal(0), length - beyond.value) * by_the_metre.value)
    return Volts(nominal.value * (share.value + added).scaleb(-2))


def longest_run(
    by_ampere_and_metre: MillivoltsPerAmpereMetre,
    current: Amperes,
    nominal: Limit,
    share: Limit,
    beyond: Limit,
    by_the_metre: Limit,
    most: Limit,
) -> Working | None:
    """The longest run in metres within a share of the nominal voltage, and the little more a long run may have; rounded down."""
    if not measurable(by_ampere_and_metre, current):
        return None
    by_metre = by_ampere_and_metre * current / 1000
    per_cent = nominal.value.scaleb(-2)
    plain, most_of_all = share.value * per_cent / by_metre, (share.value + most.value) * per_cent / by_metre
    exact = plain
    if plain > beyond.value:
        slope = by_metre - by_the_metre.value * per_cent
        # Above nought wherever the run is longer than `beyond` without anything added.
        rising = (share.value - beyond.value * by_the_metre.value) * per_cent / slope if slope > 0 else most_of_all
        exact = min(rising, most_of_all)
    value = down(exact, 1)
    allowed = half_up(by_metre * exact, _PLACES)
    return Working(
        value=value,
        unit="m",
        sum=f"{written(allowed)} V × 1000 / ({written(by_ampere_and_metre)} mV/A/m × {written(current)} A) = {written(value)} m",
        source=share.source,
    )


def highest_load(by_ampere_and_metre: MillivoltsPerAmpereMetre, length: Metres, highest: Volts) -> Working | None:
    """The highest current in amperes over a run whose drop stays within so many volts; rounded down."""
    if not measurable(by_ampere_and_metre, length, highest):
        return None
    value = down(highest * 1000 / (by_ampere_and_metre * length), 1)
    return Working(
        value=value,
        unit="A",
        sum=f"{written(highest)} V × 1000 / ({written(by_ampere_and_metre)} mV/A/m × {written(length)} m) = {written(value)} A",
        source=regulation(_RULE),
    )
