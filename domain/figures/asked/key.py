"""A key that may be typed when a figure is asked for, and how its value is read."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Generic, TypeVar

from domain.edition import editions
from domain.figures.asked.answer import NotAskableError
from domain.figures.asked.typed_number import typed_number
from domain.figures.formulas.rounding import written
from domain.figures.limits.device import standard_in
from domain.figures.units import U, Unit

T = TypeVar("T")
_NOUGHT = Decimal(0)
_VAST = Decimal(1_000_000)
_FEW = 60
_BEFORE_A_NUMBER = re.compile(r"\s+(?=[0-9.<>≤≥+-])")


@dataclass(frozen=True, slots=True)
class FigureKey(Generic[T]):
    """One key: its name, what it means, what may stand for it."""

    name: str
    says: str
    allowed: str
    read: Callable[[str], T]
    unit: str = ""
    default: str = ""
    """What is taken when it is not typed, in words; empty where nothing is."""


def number(
    name: str,
    says: str,
    unit: Unit[U],
    *,
    above: Decimal = _NOUGHT,
    at_least: Decimal | None = None,
    at_most: Decimal = _VAST,
    default: str = "",
) -> FigureKey[U]:
    """A key for a number of a unit within bounds: above nought where nothing else is said."""
    low = f"from {written(at_least)}" if at_least is not None else f"above {written(above)}"
    allowed = f"a number {low} to {written(at_most)} {unit.sign}".rstrip()

    def read(typed: str) -> U:
        value = typed_number(name, unit.sign, typed)
        fits = value >= at_least if at_least is not None else value > above
        if not fits or value > at_most:
            raise NotAskableError(f"{name}={typed.strip()} cannot be meant; {name} is {allowed}")
        return unit.of(value)

    return FigureKey(name, says, allowed, read, unit.sign, default)


def numbers(name: str, says: str, unit: Unit[U]) -> FigureKey[tuple[U, ...]]:
    """A key for several numbers above nought, with commas or blanks between, or semicolons where commas are decimal."""
    one = number(name, says, unit)

    def read(typed: str) -> tuple[U, ...]:
        between = next((mark for mark in ";," if mark in typed), None)
        parts = typed.split(between) if between else _BEFORE_A_NUMBER.split(typed.strip())
        if len(parts) > _FEW:
            raise NotAskableError(f"{name} takes at most {_FEW} numbers")
        return tuple(one.read(part) for part in parts)

    return FigureKey(
        name, says, f"numbers of {unit.sign} above 0 with commas between, such as 40,10,8", read, unit.sign
    )


def choice(name: str, says: str, spelled: Mapping[str, tuple[str, ...]], *, default: str = "") -> FigureKey[str]:
    """A key for one of several words; each may be spelled otherwise too, and case and blanks do not matter."""
    meant = {_bare(word): known for known, others in spelled.items() for word in (known, *others)}
    allowed = either(tuple(spelled))

    def read(typed: str) -> str:
        known = meant.get(_bare(typed))
        if known is None:
            raise NotAskableError(f"{name} is {allowed}, not {typed.strip()!r}")
        return known

    return FigureKey(name, says, allowed, read, default=default)


def one_of_numbers(
    name: str,
    says: str,
    unit: str,
    options: tuple[Decimal, ...],
    *,
    spelled: Mapping[str, Decimal] | None = None,
    remark: str = "",
    default: str = "",
) -> FigureKey[Decimal]:
    """A key for one of several numbers; some may be spelled otherwise too."""
    allowed = f"{either(tuple(written(each) for each in options))} {unit}".rstrip()
    one, meant = number(name, says, Unit(unit or "times", Decimal)), spelled or {}

    def read(typed: str) -> Decimal:
        value = meant.get(typed.strip()) or one.read(typed)
        if value not in options:
            raise NotAskableError(f"{name} is {allowed}, not {typed.strip()!r}")
        return value

    return FigureKey(name, says, f"{allowed}{remark}", read, unit, default)


def device(name: str, says: str, standards: tuple[str, ...]) -> FigureKey[str]:
    """A key for the standard of a device, written as people write it."""
    allowed = either(standards)

    def read(typed: str) -> str:
        known = standard_in(typed)
        if known not in standards:
            raise NotAskableError(f"{name} is {allowed}, not {typed.strip()!r}")
        return known

    return FigureKey(name, says, allowed, read)


def words(name: str, says: str, allowed: str) -> FigureKey[str]:
    """A key for words that are looked up in a table."""

    def read(typed: str) -> str:
        if not typed.strip():
            raise NotAskableError(f"{name} is empty; it is {allowed}")
        return typed.strip()

    return FigureKey(name, says, allowed, read)


def either(options: tuple[str, ...]) -> str:
    """The options in words: A, B or C."""
    *most, last = options
    return f"{', '.join(most)} or {last}" if most else last


def _bare(text: str) -> str:
    return "".join(letter for letter in text.casefold() if letter.isalnum())


EDITION = choice(
    "edition",
    "the edition of BS 7671",
    {each.name: (each.value, *facts.called) for each, facts in editions().items()},
    default="the edition of today",
)
