"""Earth fault loops: Zs worked out, and the highest RA where an RCD protects."""

from decimal import Decimal

from domain.figures.asked.answer import FigureAnswer, tabulated, worked_out
from domain.figures.asked.figure import Figure
from domain.figures.asked.given import Given
from domain.figures.asked.key import number
from domain.figures.formulas.loop import highest_ra, zs
from domain.figures.formulas.rounding import written
from domain.figures.limits.earth_fault import rcd_limit
from domain.figures.limits.loader import named_figure

_NOUGHT, _ONE = Decimal(0), Decimal(1)
_ZE = number("ze", "external impedance, or Zs at the board that feeds", "Ω", at_least=_NOUGHT)
_R1R2 = number("r1r2", "R1+R2 of the circuit", "Ω", at_least=_NOUGHT)
_FACTOR = number("factor", "for the temperature in service", at_most=Decimal(10), default="1")
_IDN = number("idn", "rated residual current IΔn", "mA")
_TOUCH = number("touch", "touch voltage, lower in some special places", "V", at_most=Decimal(1000), default="50 V")


def _zs(given: Given) -> FigureAnswer:
    factor = given.get(_FACTOR, _ONE)
    return worked_out(zs(given.need(_ZE), given.need(_R1R2), factor))


def _ra_max(given: Given) -> FigureAnswer:
    usual = named_figure("loop", "touch voltage", given.edition)
    touch, idn = given.get(_TOUCH, usual.value), given.need(_IDN)
    exact = worked_out(highest_ra(touch, idn), notes=_stable(given))
    limit = rcd_limit(idn, given.edition)
    if limit is None or touch != usual.value:
        return exact
    says = f"{written(touch)} V / {written(idn)} mA, as tabulated"
    assert exact.value is not None
    rounded = () if exact.value == limit.value else (f"worked out {exact.working}; the table rounds up",)
    return tabulated(limit, says, *exact.sources, notes=(*rounded, *exact.notes))


def _stable(given: Given) -> tuple[str, ...]:
    above = named_figure("plausibility", "electrode may be unstable above", given.edition)
    return (f"an electrode over {above.shown} may not stay stable (common practice)",)


ZS = Figure(
    "zs",
    "Zs from Ze and R1+R2",
    "Ω",
    (_ZE, _R1R2, _FACTOR),
    (("ze=0.35", "r1r2=0.52"), ("ze=0.35", "r1r2=0.52", "factor=1.2")),
    _zs,
)
RA_MAX = Figure(
    "ra-max",
    "highest resistance of electrode and protective conductor where an RCD protects",
    "Ω",
    (_IDN, _TOUCH),
    (("idn=30",), ("idn=300", "touch=25")),
    _ra_max,
)
