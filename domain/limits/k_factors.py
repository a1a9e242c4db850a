"""The adiabatic factor k, found by what a person calls the conductor."""

import re
from functools import cache

from domain.edition import Edition
from domain.limits.loader import table
from domain.limits.table import Row

_WORD = re.compile(r"[a-z]+|[0-9]+")
_MEANT = {
    "pvc": ("70", "thermoplastic"),
    "xlpe": ("90", "thermosetting"),
    "epr": ("90", "thermosetting"),
    "mi": ("mineral",),
}
_SAYS_NOTHING = {"insulated", "insulation", "cable", "cables", "in", "of", "c"}


@cache
def materials(edition: Edition) -> tuple[str, ...]:
    """The materials of the table, in its order."""
    return tuple(dict.fromkeys(row.texts["material"] for row in table("k_values", edition).rows))


@cache
def conductors_called(material: str, insulation: str, edition: Edition) -> tuple[Row, ...]:
    """The rows of a material that hold every word typed, in the order of the table: such as `PVC`."""
    asked = _asked_words(insulation)
    if not asked:
        return ()
    rows = table("k_values", edition).rows
    return tuple(
        row for row in rows if row.texts["material"] == material and asked <= set(_words(row.texts["conductor"]))
    )


def _asked_words(typed: str) -> set[str]:
    asked: set[str] = set()
    for word in _words(typed):
        asked.update(_MEANT.get(word, (word,)))
    return asked - _SAYS_NOTHING


def _words(text: str) -> list[str]:
    return _WORD.findall(text.casefold())
