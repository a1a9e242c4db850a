"""How far a reading may be from what it should be before it is looked at again."""

from collections.abc import Callable, Sequence
from decimal import Decimal

from domain.edition import Edition
from domain.figures.formulas.rounding import half_up
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import named_figure
from domain.figures.units import Ohms

_TABLE = "second_look"
_PLACES = 2


def tolerance(name: str, edition: Edition) -> Limit:
    """A width or a number of rows, by its name."""
    return named_figure(_TABLE, name, edition)


def loop_margin(expected: Ohms, edition: Edition, *, by_rcd: bool = False, on_tt: bool = False) -> Ohms:
    """Measuring error of a loop: a flat part, larger where the test current is held below an RCD's, and a share."""
    flat = "Zs and its parts, apart by" + (" where an RCD may lift the reading" if by_rcd else "")
    share = tolerance(f"Zs and its parts, apart by share{' on TT' if on_tt else ''}", edition).value
    return Ohms(half_up(tolerance(flat, edition).value + share * expected, _PLACES))


def length_margin(expected: Ohms, edition: Edition) -> Ohms:
    """What is put down to the length, the temperature and the cable: a flat part and a share."""
    share = tolerance("R1+R2 and the length, apart by share", edition).value
    return Ohms(half_up(tolerance("R1+R2 and the length, apart by", edition).value + share * expected, _PLACES))


def near(expected: Decimal, edition: Edition) -> Callable[[Decimal], bool]:
    """Whether a figure is close enough to be the one that was meant."""
    flat = tolerance("a moved point fits within", edition).value
    share = tolerance("a moved point fits within share", edition).value
    return lambda figure: abs(figure - expected) <= flat + share * expected


def is_majority(some: Sequence[object], of: Sequence[object], edition: Edition) -> bool:
    """Several rows, and more than half of them: the cause is then looked for in what they share."""
    return len(some) >= tolerance("circuits that share a cause", edition).value and len(some) * 2 > len(of)
