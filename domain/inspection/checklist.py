"""The items to be inspected, by form set and edition, as data."""

import tomllib
from functools import cache
from importlib.resources import files
from typing import Annotated, Any

from pydantic import Field, model_validator

from domain.edition import Edition
from domain.forms.form_set import FormSet
from domain.source import Source
from domain.value import Line, Value


class ChecklistItem(Value):
    """One thing to look at."""

    number: Annotated[Line, Field(min_length=1)]
    section: Line
    title: Annotated[Line, Field(min_length=1)]
    regulations: Line = ""
    lists: bool = False
    """A pass names in its remark what was inspected."""


class Checklist(Value):
    """The items in walking order, and where the list comes from."""

    source: Source
    items: tuple[ChecklistItem, ...]

    @model_validator(mode="after")
    def _numbers_are_unique(self) -> "Checklist":
        numbers = [item.number for item in self.items]
        if twice := {each for each in numbers if numbers.count(each) > 1}:
            raise ValueError(f"the item number {min(twice)!r} is used twice")
        return self


@cache
def checklist_for(form_set: FormSet, edition: Edition) -> Checklist | None:
    """The list a form set is inspected by; minor works has none. Later editions keep it until their own is known."""
    name = form_set.profile.checklist
    if not name:
        return None
    return checklist_in(files("domain.inspection").joinpath(f"{name}.toml").read_text(encoding="utf-8"))


def checklist_in(text: str) -> Checklist:
    """The checklist a TOML text holds; refuses one without a source or with a number used twice."""
    data: dict[str, Any] = tomllib.loads(text)
    return Checklist(
        source=data["source"],
        items=tuple(
            ChecklistItem(
                number=row["number"],
                section=part["title"],
                title=row["look_at"],
                regulations=row.get("regulations", ""),
                lists=row.get("lists", False),
            )
            for part in data["section"]
            for row in part["item"]
        ),
    )


def items_for(form_set: FormSet, edition: Edition) -> tuple[ChecklistItem, ...]:
    """The items in walking order; none for minor works."""
    checklist = checklist_for(form_set, edition)
    return checklist.items if checklist else ()
