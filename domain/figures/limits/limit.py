"""A figure of a table, with its unit and where it comes from."""

from decimal import Decimal

from domain.source import Source, Trust
from domain.value import Value

_ONE_OF = {"years": "year", "days": "day"}


def with_unit(figure: str, unit: str) -> str:
    """A figure with its unit behind it: 5 years, 1 year."""
    return f"{figure} {_ONE_OF.get(unit, unit) if figure == '1' else unit}".rstrip()


class Limit(Value):
    """One figure a reading is compared with or a formula starts from."""

    value: Decimal
    unit: str = ""
    source: Source

    @property
    def shown(self) -> str:
        """The figure as printed in its table, with its unit."""
        return with_unit(f"{self.value}", self.unit)

    @property
    def caution(self) -> str:
        """What a sentence that names the figure adds when nobody has seen it in the book."""
        return " (from memory; check the book)" if self.source.trust is Trust.MEMORY else ""
