"""The catalogue of sentences: what a check or the gate says, by what it says it of. Code holds ids and values, never the words."""

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from string import Formatter
from typing import Any, NamedTuple, cast

_FOLDER = "sentences"
_KEYS = {"says", "report", "word", "lifted"}


class CatalogueError(Exception):
    """A file of sentences that must not be used, with the reason."""


class Sentence(NamedTuple):
    """One row: a sentence with its placeholders in braces, in one voice or two."""

    says: str
    report: str = ""
    """To the inspector, where that differs: what is wrong, not what an installer does about it."""
    word: str = ""
    """What kind of thing it is, in two words, such as `over limit`; "" where its severity says enough."""
    lifted: bool = True
    """A person's reason can lift the question; where it cannot, what is asked about fails."""

    @property
    def placeholders(self) -> frozenset[str]:
        """The names of the values it takes, in either voice."""
        parsed = (part for text in (self.says, self.report) for part in Formatter().parse(text))
        return frozenset(name for _, name, _, _ in parsed if name)

    def filled(self, values: Mapping[str, str], *, on_report: bool) -> str:
        """The sentence for these papers. A value is set in as it stands, whatever it holds."""
        return (self.report if on_report and self.report else self.says).format_map(values)


@cache
def catalogue_of(room: str) -> Mapping[str, Sentence]:
    """Every row of a room of domain by its id, `check.case`; its files lie in the folder `sentences` of the room."""
    rows: dict[str, Sentence] = {}
    for file in sorted(files(room).joinpath(_FOLDER).iterdir(), key=lambda each: each.name):
        for subject, cases in tomllib.loads(file.read_text(encoding="utf-8")).items():
            for case, row in cases.items():
                name = f"{subject}.{case}"
                if name in rows:
                    raise CatalogueError(f"{file.name}: {name} stands in the catalogue already")
                rows[name] = _row(name, row)
    return rows


def _row(name: str, row: object) -> Sentence:
    if not isinstance(row, dict) or not {"says"} <= set(fields := cast(dict[str, Any], row)) <= _KEYS:
        raise CatalogueError(f"{name} takes `says`, and may have `report`, `word` and `lifted`")
    return Sentence(**fields)
