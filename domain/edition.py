"""The editions of BS 7671 a job may be worked to: facts of each as data, and which one a day calls for."""

import tomllib
from collections.abc import Mapping
from datetime import date
from enum import StrEnum
from functools import cache
from importlib.resources import files
from typing import Any

from domain.source import Source
from domain.value import Value


class Edition(StrEnum):
    """What documents and people call an edition; all else about it is a row of `editions.toml`."""

    EARLIER = "an earlier edition of BS 7671"
    """The job names which one."""
    A2 = "BS 7671:2018+A2:2022"
    A3 = "BS 7671:2018+A2:2022+A3:2024"
    A4 = "BS 7671:2018+A4:2026"

    __hash__ = str.__hash__
    """Tables are looked up by edition many times a second; the hash of an enumeration is the slow one."""

    @property
    def facts(self) -> "EditionFacts":
        """Its row of the table."""
        return editions()[self]

    @property
    def lineage(self) -> "tuple[Edition, ...]":
        """This edition, then those whose tables it takes over, nearest first."""
        older = self.facts.inherits
        return (self, *older.lineage) if older else (self,)

    def of_older(self, owner: "Edition") -> str:
        """What is said beside a figure or rule of `owner` that this edition takes over; "" where it is its own."""
        said = (each.facts.of_inherited for each in self.lineage[: self.lineage.index(owner)])
        return "; ".join(dict.fromkeys(each for each in said if each))


class EditionFacts(Value):
    """One edition: its days, the amendment it is known by, and where its figures come from."""

    edition: Edition
    amended_to: str = ""
    """The amendment that a declaration names; "" where the person names it."""
    published: date | None = None
    mandatory_from: date | None = None
    """From this day new work and reports follow it."""
    withdrawn: date | None = None
    """After this day it is no longer in force."""
    tables: str = ""
    """The folder of its own tables; "" where it has none."""
    inherits: Edition | None = None
    """The edition whose tables it takes over where it has none of its own."""
    of_inherited: str = ""
    """What is said beside each figure taken over."""
    of_guidance: str = ""
    """What it asks of the guidance with a report, where that was not to be read."""
    called: tuple[str, ...] = ()
    """Other spellings of its name."""
    source: Source
    """Of its days."""


@cache
def editions() -> Mapping[Edition, EditionFacts]:
    """Every edition in order of publication."""
    data: dict[str, Any] = tomllib.loads(files("domain").joinpath("editions.toml").read_text(encoding="utf-8"))
    rows = [
        EditionFacts.model_validate(row | {name: Edition[row[name]] for name in ("edition", "inherits") if name in row})
        for row in data["edition"]
    ]
    return {row.edition: row for row in rows}


def edition_for(on: date) -> Edition:
    """The edition that work begun or inspected on this day follows: the last that had become mandatory by then."""
    follow = [row.edition for row in editions().values() if row.mandatory_from is None or row.mandatory_from <= on]
    return follow[-1]


def newest() -> Edition:
    """The edition published last."""
    return [*editions()][-1]
