"""`figure`: any figure of the tables or formulas, with its sum, its source and how far it can be trusted."""

from datetime import datetime
from decimal import Decimal
from typing import Any

from domain.edition import edition_for
from domain.figures.asked.answer import FigureAnswer, NotAskableError
from domain.figures.asked.catalogue import FIGURES, ask, figure_named, keys_of
from domain.figures.asked.figure import Figure
from domain.figures.asked.key import FigureKey
from domain.figures.limits.limit import with_unit
from domain.source import Trust
from tui.commands.command import JSON, Command, CommandAnswer, CommandOption, Environment, TypedArgument, UnusableError

_LIST = CommandOption("--list", "list the figures with their keys, units and examples")
_TRUSTED = {
    Trust.PUBLISHED: "published",
    Trust.MEMORY: "from memory; check the book",
    Trust.COMMON_PRACTICE: "common practice",
}


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Answer what was asked, or list what may be."""
    try:
        return _listed(typed) if typed.has(_LIST.name) else _answered(typed)
    except NotAskableError as error:
        raise UnusableError(str(error)) from None


def _answered(typed: TypedArgument) -> CommandAnswer:
    if not typed.words:
        raise UnusableError(f"figure needs {COMMAND.words}; ohmfolio figure --list tells the names and keys")
    name, *pairs = typed.words
    figure = figure_named(name)
    found = ask(figure, pairs, edition_for(datetime.now().astimezone().date()))
    return CommandAnswer(_as_value(figure, found), _as_text(figure, found))


def _as_value(figure: Figure, found: FigureAnswer) -> dict[str, object]:
    return {
        "name": figure.name,
        "value": None if found.value is None else _as_number(found.value),
        "unit": found.unit,
        "working": found.working,
        "source": found.source,
        "trust": found.trust.value,
        "edition": found.edition,
        "notes": list(found.notes),
    }


def _as_number(value: Decimal) -> int | float:
    """For JSON: figures have fewer digits than a float keeps, so it prints the same digits."""
    return int(value) if value == value.to_integral_value() else float(value)


def _as_text(figure: Figure, found: FigureAnswer) -> str:
    why, *others = found.notes or ("",)
    known = found.value is not None
    lines = [
        f"{figure.name}: {with_unit(f'{found.value:f}', found.unit) if found.value is not None else why}",
        f"  {found.working}",
    ]
    lines += [f"  · {note}" for note in (found.notes if known else others)]
    lines.append(f"Edition: {found.edition}")
    lines.append(f"Source: {found.source} ({_TRUSTED[found.trust]})")
    if found.seen_in:
        lines.append(f"  read in: {found.seen_in}")
    return "\n".join(lines)


def _listed(typed: TypedArgument) -> CommandAnswer:
    figures = tuple(figure_named(name) for name in typed.words) or FIGURES
    return CommandAnswer(
        [_figure_as_value(each) for each in figures], "\n\n".join(_figure_as_text(each) for each in figures)
    )


def _figure_as_value(figure: Figure) -> dict[str, object]:
    return {
        "name": figure.name,
        "says": figure.says,
        "unit": figure.unit,
        "keys": [_key_as_value(key) for key in keys_of(figure)],
        "examples": [_example(figure, words) for words in (*figure.examples, *figure.turned)],
    }


def _key_as_value(key: FigureKey[Any]) -> dict[str, object]:
    default = key.default or None
    return {"key": key.name, "says": key.says, "unit": key.unit, "allowed": key.allowed, "default": default}


def _figure_as_text(figure: Figure) -> str:
    lines = [f"{figure.name} ({figure.unit}): {figure.says}"]
    for key in keys_of(figure):
        default = f"; {key.default} where it is left out" if key.default else ""
        lines.append(f"  {key.name + '=':<15} {key.says}: {key.allowed}{default}")
    lines += [f"  ohmfolio figure {_example(figure, words)}" for words in (*figure.examples, *figure.turned)]
    return "\n".join(lines)


def _example(figure: Figure, words: tuple[str, ...]) -> str:
    return " ".join((figure.name, *(f"'{word}'" if " " in word else word for word in words)))


COMMAND = Command(
    name="figure",
    run=run,
    words="NAME key=value …",
    most=None,
    options=(JSON, _LIST),
    explains="ohmfolio figure --list tells the names, keys, units and examples. Units may stand "
    "behind numbers (32A, 4mm2), and devices be named as people write them (60898, bs88-3).\n"
    "Exit 0: answered, also when no limit is known. Exit 2: a name, key, value or unit that cannot be used.\n"
    "The current edition of BS 7671, local rules and licensed practice come before these figures.",
)
