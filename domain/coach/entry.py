"""What the coach says: for each box, inspection item and screen what it is, why, how, what can hurt, and the rule."""

import tomllib
from collections.abc import Iterable, Mapping
from functools import cache
from importlib.resources import files
from typing import Any

from domain.coach.cautions import cautions
from domain.source import Source
from domain.value import Value

_FILES = (
    "circuits",
    "circuit_use",
    "results",
    "supply",
    "earthing",
    "boards",
    "work",
    "people",
    "inspection",
    "screens",
)


class CoachEntry(Value):
    """One thing explained."""

    at: tuple[str, ...]
    """What it explains, such as circuit.zs, periodic.4.4 or screen.find."""
    what: str
    why: str
    how: str
    """How it is found or measured, and when in the order of things."""
    caution: str = ""
    """What can hurt people here; empty where only a paper could come out wrong, so that it is read where it stands."""
    source: Source


@cache
def entries() -> Mapping[str, CoachEntry]:
    """Every entry under each key it explains."""
    folder = files("domain.coach").joinpath("entries")
    held: dict[str, CoachEntry] = {}
    for name in _FILES:
        for entry in entries_in(folder.joinpath(f"{name}.toml").read_text(encoding="utf-8")):
            if twice := held.keys() & set(entry.at):
                raise ValueError(f"{min(twice)!r} is explained twice")
            held |= dict.fromkeys(entry.at, entry)
    return held


def entries_in(text: str) -> tuple[CoachEntry, ...]:
    """The entries a TOML text holds; the source is said once, and each entry adds its own place in it."""
    data: dict[str, Any] = tomllib.loads(text)
    shared: dict[str, Any] = data["source"]
    return tuple(
        CoachEntry(
            at=row["at"],
            what=row["what"],
            why=row["why"],
            how=row["how"],
            caution=cautions()[row["caution"]] if "caution" in row else "",
            source=Source.model_validate(shared | {name: row[name] for name in ("table", "trust") if name in row}),
        )
        for row in data["entry"]
    )


def entry_for(keys: Iterable[str]) -> CoachEntry | None:
    """The entry of the first key that has one; where none is, the wider one it lies in is taken."""
    for key in keys:
        parts = key.split(".")
        for length in range(len(parts), 0, -1):
            if entry := entries().get(".".join(parts[:length])):
                return entry
    return None
