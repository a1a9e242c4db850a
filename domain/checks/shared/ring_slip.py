"""A ring of which one reading has its point in the wrong place: moved, all four fit."""

from collections.abc import Callable
from decimal import Decimal

from domain.checks.shared.decimal_slip import decimal_shift
from domain.job.circuit import Circuit
from domain.job.reading import Reading

_BOXES = ("ring_r1", "ring_rn", "ring_r2", "r1_r2")
Fits = Callable[[Circuit], bool]


def moved_reading(circuit: Circuit, fits: Fits) -> tuple[str, Decimal] | None:
    """The box whose reading, its point moved, makes the ring fit, and what the reading would be."""
    for box in _BOXES:
        reading: Reading = getattr(circuit, box)
        moved = decimal_shift(reading, _with(circuit, box, fits))
        if moved is not None:
            return box, moved
    return None


def _with(circuit: Circuit, box: str, fits: Fits) -> Callable[[Decimal], bool]:
    def fits_as(value: Decimal) -> bool:
        reading = Reading.of(f"{value.normalize():f}")
        return reading.figure is not None and fits(circuit.model_copy(update={box: reading}))

    return fits_as
