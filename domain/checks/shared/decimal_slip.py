"""Slips of the decimal point: what a reading would have been had the point stood elsewhere."""

from collections.abc import Callable, Sequence
from decimal import Decimal

from domain.checks.shared.phrases import phrase
from domain.job.reading import Reading

ONE_PLACE = (-1, 1)
_SHIFTS = (*ONE_PLACE, -2, 2, -3, 3)


def decimal_shift(reading: Reading, fits: Callable[[Decimal], bool], shifts: Sequence[int] = _SHIFTS) -> Decimal | None:
    """The same digits with the point moved, where that fits; up to three places, for a slip of the unit."""
    if reading.figure is None or reading.figure <= 0:
        return None
    return next((moved for shift in shifts if fits(moved := reading.figure.scaleb(shift))), None)


def did_you_mean(
    reading: Reading,
    unit: str,
    fits: Callable[[Decimal], bool],
    shifts: Sequence[int] = _SHIFTS,
    *,
    of: str = "",
) -> str:
    """The question to end a sentence with; "" where no moved point fits. `of` names the reading where it is another one."""
    moved = decimal_shift(reading, fits, shifts)
    return did_you_mean_figure(moved, unit, of=of) if moved is not None else ""


def did_you_mean_figure(value: Decimal, unit: str, *, of: str = "") -> str:
    """Whether this was meant."""
    figure = f"{value.normalize():f} {unit}"
    return phrase("did-you-mean-for", name=of, figure=figure) if of else phrase("did-you-mean", figure=figure)
