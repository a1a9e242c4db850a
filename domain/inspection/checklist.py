"""The items to be inspected, by form set and edition, as data."""

import tomllib
from collections.abc import Collection, Iterator, Mapping
from decimal import Decimal
from functools import cache
from importlib.resources import files
from typing import Annotated, Any

from pydantic import Field, model_validator

from domain.edition import Edition
from domain.forms.form_set import FormSet
from domain.inspection.extent import Extent
from domain.source import Source
from domain.value import Line, Value

BOARDS = "Boards and consumer units"
"""The section of a report's items that are looked at where the boards are."""


class ChecklistItem(Value):
    """One thing to look at."""

    number: Annotated[Line, Field(min_length=1)]
    section: Line
    title: Annotated[Line, Field(min_length=1)]
    regulations: Line = ""
    lists: bool = False
    """A pass names in its remark what was inspected."""
    distributors: bool = False
    """It is about what the distributor or the supplier owns: who found a fault there tells them."""
    where: Extent | None = None
    """It is looked at only where the installation goes that far."""
    part_of: Line = ""
    """The item that it is one outcome of; a record that marks that one as a whole keeps it so."""


class Larger(Value):
    """What makes an installation larger than a home."""

    over_amperes: Decimal
    phases: Line


class Checklist(Value):
    """All items in walking order, and where the list comes from."""

    edition: Edition
    """The one it was made for."""
    source: Source
    named: Mapping[str, Line]
    """How a paper names the list: `domestic`, and by the extent of the installation."""
    larger: Larger | None = None
    """None where one list serves every size."""
    items: tuple[ChecklistItem, ...]

    @model_validator(mode="after")
    def _numbers_are_unique(self) -> "Checklist":
        numbers = [item.number for item in self.items]
        if twice := {each for each in numbers if numbers.count(each) > 1}:
            raise ValueError(f"the item number {min(twice)!r} is used twice")
        return self

    def name_for(self, extent: Collection[Extent]) -> str:
        """What the list for an installation of this extent is called."""
        which = next((each for each in (Extent.LARGER, Extent.DISTRIBUTION) if each in extent), "domestic")
        return self.named.get(which) or self.named["domestic"]

    def items_in(self, extent: Collection[Extent], marked: Collection[str]) -> Iterator[ChecklistItem]:
        """What is looked at in an installation of this extent; `marked` are the numbers its record already names."""
        wholes = {item.part_of for item in self.items if item.part_of}
        for item in self.items:
            is_there = item.where is None or item.where in extent
            is_split = item.part_of in marked if item.part_of else item.number in wholes and item.number not in marked
            if is_there and not is_split:
                yield item


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
        edition=Edition[data["edition"]],
        source=data["source"],
        named=data["named"],
        larger=data.get("larger"),
        items=tuple(each for part in data["section"] for row in part["item"] for each in _items(part, row)),
    )


def _items(part: dict[str, Any], row: dict[str, Any]) -> Iterator[ChecklistItem]:
    for each in (row, *row.get("parts", ())):
        yield ChecklistItem(
            number=each["number"],
            section=part["title"],
            title=each["look_at"],
            regulations=each.get("regulations", ""),
            lists=each.get("lists", False),
            distributors=each.get("distributors", False),
            where=part.get("where"),
            part_of="" if each is row else row["number"],
        )


def items_for(
    form_set: FormSet, edition: Edition, extent: Collection[Extent] = (), marked: Collection[str] = ()
) -> tuple[ChecklistItem, ...]:
    """The items in walking order for an installation of this extent, a home without more; none for minor works."""
    checklist = checklist_for(form_set, edition)
    return tuple(checklist.items_in(extent, marked)) if checklist else ()
