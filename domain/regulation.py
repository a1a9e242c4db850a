"""Regulations and rules by name, each with the edition it was read or remembered in, as data."""

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any

from domain.edition import Edition
from domain.source import Source, Trust
from domain.value import Value


class _RegulationRow(Value):
    """A row of the table."""

    id: str
    edition: Edition
    table: str
    seen_in: str = ""
    trust: Trust


@cache
def regulation(name: str, edition: Edition | None = None) -> Source:
    """A regulation by its name, as the source of what follows from it; without an edition as it was read.

    For an edition that takes it over from an older one the source names the older one and says so. A name that
    is not there is a broken program.
    """
    rule = _rules()[name]
    note = edition.of_older(rule.edition) if edition else ""
    return Source(standard=rule.edition, table=rule.table, seen_in=rule.seen_in, trust=rule.trust, note=note)


def regulations() -> tuple[str, ...]:
    """Every name."""
    return (*_rules(),)


@cache
def _rules() -> Mapping[str, _RegulationRow]:
    data: dict[str, Any] = tomllib.loads(files("domain").joinpath("regulations.toml").read_text(encoding="utf-8"))
    rows = [_RegulationRow.model_validate(row | {"edition": Edition[row["edition"]]}) for row in data["regulation"]]
    rules = {row.id: row for row in rows}
    if len(rules) < len(rows):
        raise ValueError("two regulations have one name")
    return rules
