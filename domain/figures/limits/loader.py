"""Reads the tables, and refuses one that hides where its figures come from or cannot be trusted to be in order."""

import tomllib
from collections.abc import Mapping
from decimal import Decimal, InvalidOperation
from functools import cache
from importlib.resources import files
from typing import Any, cast

from domain.edition import Edition
from domain.figures.limits.limit import Limit
from domain.figures.limits.table import Key, LimitRow, Table
from domain.source import Source, Trust

_REQUIRED_OF_SOURCE = ("standard", "table", "seen_in", "trust")
_OF_SOURCE = {*_REQUIRED_OF_SOURCE, "note"}


class LimitTableError(Exception):
    """A table file that must not be used, with the reason."""


@cache
def table(name: str, edition: Edition) -> Table:
    """A table as this edition has it: its own, else that of the edition it takes its tables over from.

    What is said of such a table stands in the source of every figure.
    """
    for owner in edition.lineage:
        file = files("domain.figures.limits").joinpath(owner.facts.tables, f"{name}.toml")
        if owner.facts.tables and file.is_file():
            return table_from(name, file.read_text(encoding="utf-8"), note=edition.of_older(owner))
    raise LimitTableError(f"there is no table {name!r} for {edition}")


@cache
def named_figure(name: str, figure: str, edition: Edition) -> Limit:
    """One figure of a table of named figures."""
    return table(name, edition).value(figure)


def table_from(name: str, text: str, *, note: str = "") -> Table:
    """The table a TOML text holds, or `TableError`. `note` is added to the source of every figure."""
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise LimitTableError(f"{name}: {error}") from None
    source = _source(name, data.get("source"), note)
    columns = _columns(name, data.get("columns"))
    keys = tuple(data.get("keys", ()))
    if not keys or not set(keys) <= set(columns):
        raise LimitTableError(f"{name}: its keys must be columns of it")
    rows = tuple(_row(name, each, keys, columns, source) for each in data.get("row", ()))
    if not rows:
        raise LimitTableError(f"{name}: it has no rows")
    _refuse_disorder(name, keys, rows)
    return Table(name=name, keys=keys, source=source, rows=rows)


def _source(name: str, given: object, note: str) -> Source:
    if not isinstance(given, dict):
        raise LimitTableError(f"{name}: it names no source")
    said = cast(dict[str, str], given)
    for part in _REQUIRED_OF_SOURCE:
        if not str(said.get(part, "")).strip():
            raise LimitTableError(f"{name}: its source lacks {part}")
    if unknown := set(said) - _OF_SOURCE:
        raise LimitTableError(f"{name}: its source holds {min(unknown)}, which is no part of one")
    notes = "; ".join(each for each in (said.get("note", ""), note) if each)
    return Source(
        standard=said["standard"],
        table=said["table"],
        seen_in=said["seen_in"],
        trust=_trust(name, said["trust"]),
        note=notes,
    )


def _trust(name: str, said: str) -> Trust:
    try:
        return Trust(said)
    except ValueError:
        raise LimitTableError(f"{name}: trust is one of {', '.join(Trust)}, not {said!r}") from None


def _columns(name: str, given: object) -> Mapping[str, str]:
    if not isinstance(given, dict) or not given:
        raise LimitTableError(f"{name}: it declares no columns")
    return cast(dict[str, str], given)


def _row(
    name: str, given: Mapping[str, Any], keys: tuple[str, ...], columns: Mapping[str, str], source: Source
) -> LimitRow:
    for column, held in given.items():
        if column not in columns and column not in _OF_SOURCE:
            raise LimitTableError(f"{name}: {column} is no column of it")
        if not isinstance(held, str):
            raise LimitTableError(f"{name}: {column} = {held} must stand in quotes, so that it stays exact")
    if missing := [column for column in keys if column not in given]:
        raise LimitTableError(f"{name}: a row lacks {missing[0]}")
    own = _row_source(name, given, source)
    texts = {column: given[column] for column, unit in columns.items() if column in given and unit == "text"}
    figures = {
        column: Limit(value=_figure(name, given[column]), unit=_unit(columns[column], texts), source=own)
        for column in columns
        if column in given and columns[column] != "text"
    }
    return LimitRow(texts=texts, figures=figures, source=own)


def _row_source(name: str, given: Mapping[str, str], source: Source) -> Source:
    said = {part: given[part] for part in _OF_SOURCE if part in given}
    if not said:
        return source
    changed: dict[str, object] = dict(said)
    if "trust" in said:
        changed["trust"] = _trust(name, said["trust"])
    if "note" in said and source.note:
        changed["note"] = f"{said['note']}; {source.note}"
    return source.model_copy(update=changed)


def _unit(declared: str, texts: Mapping[str, str]) -> str:
    return texts.get("unit", "") if declared == "number" else declared


def _figure(name: str, text: str) -> Decimal:
    try:
        figure = Decimal(text)
    except InvalidOperation:
        raise LimitTableError(f"{name}: {text!r} is no figure") from None
    if not figure.is_finite():
        raise LimitTableError(f"{name}: {text!r} is no figure")
    return figure


def _refuse_disorder(name: str, keys: tuple[str, ...], rows: tuple[LimitRow, ...]) -> None:
    """Rows of one group stand together, and the last key climbs within the group where it is a figure."""
    last: dict[tuple[Key, ...], Key] = {}
    before: tuple[Key, ...] | None = None
    seen: set[tuple[Key, ...]] = set()
    for row in rows:
        *leading, key = (row.key(column) for column in keys)
        group = tuple(leading)
        says = " ".join(str(part) for part in (*group, key))
        if (*group, key) in seen:
            raise LimitTableError(f"{name}: {says} stands there twice")
        if group in last and group != before:
            raise LimitTableError(f"{name}: {says} stands apart from its group")
        above = last.get(group)
        if isinstance(key, Decimal) and isinstance(above, Decimal) and key < above:
            raise LimitTableError(f"{name}: {says} stands out of order")
        seen.add((*group, key))
        last[group] = key
        before = group
