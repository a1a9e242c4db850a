"""The items to be inspected, by form set and edition, as data."""

import tomllib
from functools import cache
from importlib.resources import files

from domain.edition import Edition
from domain.form_set import FormSet
from domain.value import Value


class Item(Value):
    """One thing to look at."""

    number: str
    section: str
    title: str
    regulations: str = ""


@cache
def items_for(form_set: FormSet, edition: Edition) -> tuple[Item, ...]:
    """The items in walking order; none for minor works. Later editions keep the list until their own is known."""
    if not form_set.has_schedules:
        return ()
    name = "periodic.toml" if form_set.is_report else "initial.toml"
    data = tomllib.loads(files("domain.inspection").joinpath(name).read_text(encoding="utf-8"))
    return tuple(
        Item(number=row["number"], section=part["title"], title=row["look_at"], regulations=row.get("regulations", ""))
        for part in data["section"]
        for row in part["item"]
    )
