"""A figure of a table, with its unit and where it comes from."""

from decimal import Decimal
from typing import TYPE_CHECKING, Generic, Self, cast

from typing_extensions import TypeVar

from domain.figures.units import Unit
from domain.source import Source, Trust
from domain.value import Value

_ONE_OF = {"years": "year", "days": "day"}


def with_unit(figure: str, unit: str) -> str:
    """A figure with its unit behind it: 5 years, 1 year."""
    return f"{figure} {_ONE_OF.get(unit, unit) if figure == '1' else unit}".rstrip()


U = TypeVar("U", bound=Decimal, covariant=True, default=Decimal)
V = TypeVar("V", bound=Decimal)


class Limit(Value, Generic[U]):
    """One figure a reading is compared with or a formula starts from; `Limit[Ohms]` where its unit is known beforehand."""

    if not TYPE_CHECKING:

        @classmethod
        def __class_getitem__(cls, unit: object) -> type[Self]:
            """The class itself: the unit is for the type checker alone."""
            return cls

    value: U
    unit: str = ""
    source: Source

    def in_unit(self, unit: Unit[V]) -> "Limit[V]":
        """The same, known to be in a unit; ValueError where its table has it in another, which is a broken program."""
        if self.unit != unit.sign:
            raise ValueError(f"{self.shown} is not in {unit.sign}")
        return cast("Limit[V]", self)

    @property
    def shown(self) -> str:
        """The figure as printed in its table, with its unit."""
        return with_unit(f"{self.value}", self.unit)

    @property
    def caution(self) -> str:
        """What a sentence that names the figure adds when nobody has seen it in the book."""
        return " (from memory; check the book)" if self.source.trust is Trust.MEMORY else ""
