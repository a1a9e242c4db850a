"""A figure worked out, with the sum written out so that a person can follow it."""

from decimal import Decimal

from domain.source import Source
from domain.value import Value


class Working(Value):
    """What a formula gives: the figure, the sum with its numbers, and the rule it follows."""

    value: Decimal
    unit: str
    sum: str
    """Such as `0.8 × 1.09 Ω = 0.87 Ω, rounded down`."""
    source: Source | None = None
    notes: tuple[str, ...] = ()

    @property
    def shown(self) -> str:
        """The figure with its unit."""
        return f"{self.value} {self.unit}".rstrip()
