"""`licences`: every library that this program stands on here, with its version and licence."""

import re
from collections.abc import Iterator
from importlib.metadata import Distribution, PackageNotFoundError, distribution
from typing import NamedTuple

from tui.commands.command import Command, CommandAnswer, Environment, TypedArgument
from tui.commands.output import columns

_PROGRAM = "ohmfolio"
_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]*")
_FOR_DEVELOPERS = re.compile(r"extra\s*==\s*['\"]dev['\"]")
_OF_AN_EXTRA = re.compile(r"extra\s*==")
_CLASSIFIED = "License :: "
_LONGEST = 60
_FONTS = (("Noto Sans", "OFL-1.1"), ("DejaVu Sans", "Bitstream-Vera AND LicenseRef-Public-Domain"))
"""Their licences lie beside them, in storage/paper/fonts."""


class Licensed(NamedTuple):
    """A library, or a typeface."""

    name: str
    version: str
    licence: str


def libraries() -> tuple[Licensed, ...]:
    """Every library that is installed because this program asks for it, by name; what its extras ask for where that is there."""
    found: dict[str, Licensed] = {}
    waiting = [*_asked_for(_PROGRAM, extras=True)]
    while waiting:
        name = waiting.pop()
        if _folded(name) in found or (library := _installed(name)) is None:
            continue
        found[_folded(name)] = Licensed(library.name, library.version, _licence_of(library))
        waiting += _asked_for(name, extras=False)
    return tuple(found[name] for name in sorted(found))


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """The list."""
    fonts = tuple(Licensed(name, "", licence) for name, licence in _FONTS)
    rows = [*libraries(), *fonts]
    widths = tuple(max(len(row[column]) for row in rows) for column in range(2))
    return CommandAnswer([row._asdict() for row in rows], columns([tuple(row) for row in rows], widths))


def _asked_for(name: str, *, extras: bool) -> Iterator[str]:
    library = _installed(name)
    for asked in (library.requires if library else None) or ():
        what, _, only = asked.partition(";")
        if _FOR_DEVELOPERS.search(only) or (_OF_AN_EXTRA.search(only) and not extras):
            continue
        if named := _NAME.match(what):
            yield named[0]


def _installed(name: str) -> Distribution | None:
    try:
        return distribution(name)
    except PackageNotFoundError:
        return None


def _licence_of(library: Distribution) -> str:
    """As its own metadata says: the expression, else what it is classified as, else the first line of a text."""
    classified = [each.split(" :: ")[-1] for each in _told(library, "Classifier") if each.startswith(_CLASSIFIED)]
    texts = [text.strip().split("\n")[0][:_LONGEST] for text in _told(library, "License")]
    said = (*_told(library, "License-Expression"), " and ".join(classified), *texts)
    return next(filter(None, said), "not said; see its files")


def _told(library: Distribution, field: str) -> list[str]:
    return [str(value) for value in library.metadata.get_all(field) or ()]


def _folded(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name).casefold()


COMMAND = Command(
    name="licences",
    run=run,
    explains="As each library says of itself in what is installed here; extras are listed where they are installed. The program's "
    "own licence is AGPL-3.0-or-later.",
)
