"""Earth fault loops: Zs worked out, and the highest RA where an RCD protects."""

from decimal import Decimal

from domain.figures.asked.answer import FigureAnswer, NotAskableError, tabulated, worked_out
from domain.figures.asked.figure import Figure
from domain.figures.asked.given import Given
from domain.figures.asked.key import number
from domain.figures.formulas.loop import highest_idn, highest_ra, inside_of, outside_of, zs
from domain.figures.formulas.rounding import written
from domain.figures.limits.earth_fault import rcd_limit
from domain.figures.limits.loader import named_figure, table
from domain.figures.units import MILLIAMPERE, OHM, TIMES, VOLT, Milliamperes, Volts

_NOUGHT, _ONE = Decimal(0), Decimal(1)
_ZE = number("ze", "external impedance, or Zs at the board that feeds", OHM, at_least=_NOUGHT)
_R1R2 = number("r1r2", "R1+R2 of the circuit", OHM, at_least=_NOUGHT)
_ZS = number("zs", "the whole loop, to have the part that is not typed", OHM)
_FACTOR = number("factor", "for the temperature in service", TIMES, at_most=Decimal(10), default="1")
_IDN = number("idn", "rated residual current IΔn", MILLIAMPERE)
_RA = number("ra", "resistance of the electrode, instead of idn=, to have the largest IΔn", OHM)
_TOUCH = number("touch", "touch voltage, lower in some special places", VOLT, at_most=Decimal(1000), default="50 V")


def _zs(given: Given) -> FigureAnswer:
    factor, whole = given.get(_FACTOR, _ONE), given.maybe(_ZS)
    if whole is None:
        return worked_out(zs(given.need(_ZE), given.need(_R1R2), factor))
    if given.one_of(_ZE, _R1R2) is _ZE:
        part, working, name = given.need(_ZE), inside_of(whole, given.need(_ZE), factor), "R1+R2"
    else:
        part, working, name = given.need(_R1R2) * factor, outside_of(whole, given.need(_R1R2), factor), "Ze"
    if part > whole:
        raise NotAskableError(f"zs={written(whole)} is less than the part of it that was typed, {written(part)} Ω")
    return worked_out(working, notes=(f"{name}, as Zs and the other part leave it",))


def _ra_max(given: Given) -> FigureAnswer:
    usual = named_figure("loop", "touch voltage", given.edition)
    touch = given.get(_TOUCH, usual.value)
    if given.one_of(_IDN, _RA) is _RA:
        return _idn_for(given, touch)
    idn = given.need(_IDN)
    exact = worked_out(highest_ra(touch, idn), notes=_stable(given))
    limit = rcd_limit(idn, given.edition)
    if limit is None or touch != usual.value:
        return exact
    says = f"{written(touch)} V / {written(idn)} mA, as tabulated"
    assert exact.value is not None
    rounded = () if exact.value == limit.value else (f"worked out {exact.working}; the table rounds up",)
    return tabulated(limit, says, *exact.sources, notes=(*rounded, *exact.notes))


def _idn_for(given: Given, touch: Volts) -> FigureAnswer:
    """The formula turned: the largest IΔn for an RA, and the largest made that is no more."""
    ra, usual = given.need(_RA), named_figure("loop", "touch voltage", given.edition)
    answer = worked_out(highest_idn(touch, ra), notes=_stable(given))
    exact = touch * 1000 / ra
    made = [Milliamperes(row.figures["idn"].value) for row in table("residual_currents", given.edition).rows]
    tabulated_for = {each: rcd_limit(each, given.edition) if touch == usual.value else None for each in made}
    fitting = [each for each, limit in tabulated_for.items() if each <= exact or (limit and ra <= limit.value)]
    largest = (
        f"the largest made that it allows: {written(max(fitting))} mA" if fitting else "no RCD is made so sensitive"
    )
    return answer.model_copy(update={"notes": (largest, *answer.notes)})


def _stable(given: Given) -> tuple[str, ...]:
    above = named_figure("plausibility", "electrode may be unstable above", given.edition)
    return (f"an electrode over {above.shown} may not stay stable (common practice)",)


ZS = Figure(
    "zs",
    "Zs from Ze and R1+R2, or one of these from Zs and the other",
    "Ω",
    (_ZE, _R1R2, _ZS, _FACTOR),
    (("ze=0.35", "r1r2=0.52"), ("ze=0.35", "r1r2=0.52", "factor=1.2"), ("zs=1.37", "ze=0.35", "factor=1.2")),
    _zs,
)
RA_MAX = Figure(
    "ra-max",
    "highest resistance of electrode and protective conductor where an RCD protects, or the largest RCD for one",
    "Ω",
    (_IDN, _RA, _TOUCH),
    (("idn=30",), ("idn=300", "touch=25")),
    _ra_max,
    turned=(("ra=160",),),
)
