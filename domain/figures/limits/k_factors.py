"""The adiabatic factor k, found by what a person calls the conductor."""

import re
from functools import cache

from domain.edition import Edition
from domain.figures.limits.loader import table
from domain.figures.limits.table import LimitRow

_WORD = re.compile(r"[a-z]+|[0-9]+")
_MEANT = {
    "pvc": ("70", "thermoplastic"),
    "xlpe": ("90", "thermosetting"),
    "epr": ("90", "thermosetting"),
    "mi": ("mineral",),
    "micc": ("mineral",),
    "swa": ("armour",),
    "armoured": ("armour",),
}
_ORDINARY = re.compile("in cable(?!, over)")
_SAYS_NOTHING = {"insulated", "insulation", "cable", "cables", "in", "of", "c"}


@cache
def conductors_called(material: str, insulation: str, edition: Edition) -> tuple[LimitRow, ...]:
    """The rows of a material that hold every word typed, in the order of the table: such as `PVC`."""
    asked = _asked_words(insulation)
    if not asked:
        return ()
    rows = table("k_values", edition).rows
    return tuple(
        row for row in rows if row.texts["material"] == material and asked <= set(_words(row.texts["conductor"]))
    )


def usual_among(rows: tuple[LimitRow, ...]) -> LimitRow | None:
    """The one row meant: the only one, or the only one of an ordinary core in a cable; None where several might be."""
    ordinary = rows if len(rows) == 1 else tuple(row for row in rows if _ORDINARY.search(row.texts["conductor"]))
    return ordinary[0] if len(ordinary) == 1 else None


def _asked_words(typed: str) -> set[str]:
    words = _words(typed)
    asked: set[str] = set()
    for word in words:
        asked.update(_MEANT.get(word, (word,)))
    if "thermoplastic" in asked and not any(word.isdigit() for word in asked):
        asked.update(_MEANT["pvc"])
    return asked - _SAYS_NOTHING


def _words(text: str) -> list[str]:
    return _WORD.findall(text.casefold())
