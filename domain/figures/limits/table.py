"""A table of a standard: rows found by their keys, each figure with its source."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property
from typing import TypeVar

from domain.figures.limits.limit import Limit
from domain.figures.units import Unit
from domain.source import Source

Key = str | Decimal
V = TypeVar("V", bound=Decimal)


@dataclass(frozen=True)
class LimitRow:
    """One row: words and figures by column."""

    texts: Mapping[str, str]
    figures: Mapping[str, Limit]
    source: Source

    def key(self, column: str) -> Key:
        """What the row holds in a key column."""
        return self.texts[column] if column in self.texts else self.figures[column].value


@dataclass(frozen=True)
class Table:
    """Rows in printed order. A key outside the table finds nothing; nothing is interpolated."""

    name: str
    keys: tuple[str, ...]
    source: Source
    rows: tuple[LimitRow, ...]

    @cached_property
    def _by_key(self) -> Mapping[tuple[Key, ...], LimitRow]:
        return {tuple(row.key(column) for column in self.keys): row for row in self.rows}

    def row(self, *keys: Key) -> LimitRow | None:
        """The row with exactly these keys."""
        return self._by_key.get(keys)

    def limit(self, column: str, *keys: Key) -> Limit | None:
        """The figure in a column of the row with exactly these keys."""
        row = self.row(*keys)
        return row.figures.get(column) if row else None

    def limit_in(self, unit: Unit[V], column: str, *keys: Key) -> Limit[V] | None:
        """The same, in a unit that is known beforehand."""
        found = self.limit(column, *keys)
        return found.in_unit(unit) if found else None

    def value(self, name: str) -> Limit:
        """A figure by its name, from a table of named figures; a name that is not there is a broken program."""
        return self._by_key[name,].figures["value"]
