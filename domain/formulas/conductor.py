"""Resistance of conductors at 20 °C."""

from decimal import Decimal

from domain.formulas.working import Working
from domain.limits.limit import Limit

_MILLI = Decimal("0.001")


def resistance(by_the_metre: Limit, length: Decimal) -> Working:
    """Resistance of a run in ohms, from the figure in milliohms a metre."""
    value = by_the_metre.value * length * _MILLI
    return Working(
        value=value,
        unit="Ω",
        sum=f"{by_the_metre.shown} × {length} m = {value.normalize():f} Ω",
        source=by_the_metre.source,
    )


def r1_r2(line: Limit, cpc: Limit, length: Decimal) -> Working:
    """R1+R2 of a run in ohms."""
    value = (line.value + cpc.value) * length * _MILLI
    return Working(
        value=value,
        unit="Ω",
        sum=f"({line.value} + {cpc.value}) {line.unit} × {length} m = {value.normalize():f} Ω",
        source=line.source,
        notes=(resistance(line, length).sum, resistance(cpc, length).sum),
    )
