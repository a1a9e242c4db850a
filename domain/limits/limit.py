"""A figure of a table, with its unit and where it comes from."""

from decimal import Decimal

from domain.limits.source import Source, Trust
from domain.value import Value

_ONE_OF = {"years": "year", "days": "day"}


class Limit(Value):
    """One figure a reading is compared with or a formula starts from."""

    value: Decimal
    unit: str = ""
    source: Source

    @property
    def shown(self) -> str:
        """The figure as printed in its table, with its unit."""
        unit = _ONE_OF.get(self.unit, self.unit) if self.value == 1 else self.unit
        return f"{self.value} {unit}".rstrip()

    @property
    def caution(self) -> str:
        """What a sentence that names the figure adds when nobody has seen it in the book."""
        return " (from memory; check the book)" if self.source.trust is Trust.MEMORY else ""
