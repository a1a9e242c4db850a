"""Subjects that came with an edition, with inspection items of one's own for installations that have them, as data."""

import re
import tomllib
from collections.abc import Iterable
from functools import cache
from importlib.resources import files
from typing import Any

from pydantic import Field

from domain.edition import Edition
from domain.source import Source
from domain.value import Line, Prose, Value


class OfferedItem(Value):
    """A row that can be added to the inspection."""

    title: Line
    regulations: Line


class NewSubject(Value):
    """One subject of an edition."""

    edition: Edition
    about: Line
    named: tuple[str, ...]
    """Patterns; any of them in a text means that the installation has it."""
    but: str = ""
    """A pattern of texts that mean something else."""
    says: Line
    on_paper: Prose = ""
    """What a paper says of it beside its rows; figures of `medical_bonding` stand in braces."""
    items: tuple[OfferedItem, ...] = Field(alias="item")
    source: Source

    def is_named_in(self, texts: Iterable[str]) -> bool:
        """One of the texts names it."""
        is_other = re.compile(self.but, re.IGNORECASE) if self.but else None
        named = re.compile("|".join(self.named), re.IGNORECASE)
        return any(named.search(text) and not (is_other and is_other.search(text)) for text in texts)


@cache
def new_subjects(edition: Edition) -> tuple[NewSubject, ...]:
    """The subjects that came with an edition or with those whose rules it takes over."""
    data: dict[str, Any] = tomllib.loads(files("domain.inspection").joinpath("new_subjects.toml").read_text("utf-8"))
    made = (
        NewSubject.model_validate(
            {name: value for name, value in row.items() if name != "table"}
            | {"edition": Edition[row["edition"]], "source": data["source"] | {"table": row["table"]}}
        )
        for row in data["subject"]
    )
    return tuple(each for each in made if each.edition in edition.lineage)
