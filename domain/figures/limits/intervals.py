"""How long until the next inspection: recommended by kind of premises, and asked by law of rented homes."""

import re

from domain.edition import Edition
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import table
from domain.figures.limits.table import LimitRow

_WORD = re.compile(r"[a-z]+(?:'s)?")
_SAYS_NOTHING = {"a", "the", "of", "in", "premise", "property", "building", "installation"}


def premises(edition: Edition) -> tuple[str, ...]:
    """The kinds of premises of the table, in its order."""
    return tuple(row.texts["premises"] for row in table("intervals", edition).rows)


def premises_called(typed: str, edition: Edition) -> tuple[LimitRow, ...]:
    """The row of exactly this name, else those it is another name of, else every row that holds all the words typed."""
    asked = _stems(typed)
    rows = table("intervals", edition).rows
    exact = tuple(row for row in rows if _stems(row.texts["premises"]) == asked)
    alias = tuple(row for row in rows if asked in map(_stems, row.texts.get("also_called", "").split(",")))
    return exact or alias or tuple(row for row in rows if asked and asked <= _stems(_names(row)))


def rented_homes_in(nation: str, edition: Edition) -> LimitRow | None:
    """What the law of a nation asks of rented homes."""
    return table("statutory_intervals", edition).row(nation)


def longest_where_let(nation: str | None, tenure: str | None, edition: Edition) -> Limit | None:
    """The longest interval that law allows for a home let so, in years; None where none is known."""
    row = rented_homes_in(nation, edition) if nation else None
    if row is None or tenure is None or tenure not in row.texts["tenancies"].split(", "):
        return None
    return row.figures["years"]


def longest_anywhere_let(edition: Edition) -> Limit:
    """The longest interval that the law of any nation allows for a rented home, in years."""
    return _longest("statutory_intervals", edition)


def longest_recommended(edition: Edition) -> Limit:
    """The longest interval recommended for any kind of premises, in years."""
    return _longest("intervals", edition)


def _longest(name: str, edition: Edition) -> Limit:
    known = (row.figures.get("years") for row in table(name, edition).rows)
    return max((limit for limit in known if limit), key=lambda limit: limit.value)


def _names(row: LimitRow) -> str:
    return f"{row.texts['premises']}, {row.texts.get('also_called', '')}"


def _stems(text: str) -> set[str]:
    words = (word.removesuffix("'s").removesuffix("s") for word in _WORD.findall(text.casefold().replace("’", "'")))
    return {word for word in words if word and word not in _SAYS_NOTHING}
