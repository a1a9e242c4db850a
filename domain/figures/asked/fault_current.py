"""Prospective fault current from a loop impedance."""

from decimal import Decimal

from domain.figures.asked.answer import FigureAnswer, worked_out
from domain.figures.asked.figure import Figure
from domain.figures.asked.given import Given
from domain.figures.asked.key import choice, number
from domain.figures.formulas.fault_current import fault_current, loop_for, three_phase_balanced, three_phase_doubled
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure
from domain.figures.units import AMPERE, OHM, VOLT, Ohms, Volts

_U0 = number("u0", "nominal voltage to earth", VOLT, at_most=Decimal(1000), default="230 V")
_Z = number("z", "loop impedance; of line and neutral for three phases", OHM)
_CURRENT = number("current", "the fault current, instead of z=, to have the loop", AMPERE)
_PHASES = choice(
    "phases", "how many phases the fault is between", {"1": ("single", "one"), "3": ("three",)}, default="1"
)


def _fault_current(given: Given) -> FigureAnswer:
    nominal = named_figure("loop", "U0", given.edition).in_unit(VOLT)
    u0 = nominal.model_copy(update={"value": given.get(_U0, nominal.value)})
    if given.one_of(_Z, _CURRENT) is _CURRENT:
        twice = named_figure("fault_current", "three phases, times the single-phase figure", given.edition)
        times = twice if given.get(_PHASES, "1") == "3" else None
        return worked_out(loop_for(u0, given.need(_CURRENT), times), notes=("the loop that lets this current flow",))
    z = given.need(_Z)
    if given.get(_PHASES, "1") == "1":
        return worked_out(
            fault_current(u0, z), notes=("the higher of the two, line to neutral and line to earth, is recorded",)
        )
    return _three_phases(given, u0, z)


def _three_phases(given: Given, u0: Limit[Volts], z: Ohms) -> FigureAnswer:
    times = named_figure("fault_current", "three phases, times the single-phase figure", given.edition)
    balanced = worked_out(three_phase_balanced(u0.value, z))
    notes = (
        f"with √3 it is {balanced.value} A: {balanced.working}",
        "the doubled figure is the one recorded on site: with a neutral no thinner than a line it is never too low",
    )
    return worked_out(three_phase_doubled(u0.value, z, times), *balanced.sources, notes=notes)


FAULT_CURRENT = Figure(
    "fault-current",
    "prospective fault current, or the loop for one",
    "A",
    (_U0, _Z, _CURRENT, _PHASES),
    (("u0=230", "z=0.35"), ("phases=3", "z=0.23")),
    _fault_current,
    turned=(("current=1200",),),
)
