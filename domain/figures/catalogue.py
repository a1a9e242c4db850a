"""Every figure that may be asked for, and how one is asked."""

from collections.abc import Sequence
from typing import Any

from domain.edition import Edition
from domain.figures.adiabatic import ADIABATIC
from domain.figures.answer import Answer, NotAskableError
from domain.figures.bonding import BONDING
from domain.figures.cable_rating import CABLE_RATING
from domain.figures.conductors import R1_R2, RESISTANCE_AT
from domain.figures.disconnection import DISCONNECTION
from domain.figures.fault_current import FAULT_CURRENT
from domain.figures.figure import Figure
from domain.figures.given import Given
from domain.figures.insulation import INSULATION
from domain.figures.interval import INTERVAL
from domain.figures.key import EDITION, Key, either
from domain.figures.loop import RA_MAX, ZS
from domain.figures.rcd_time import RCD_TIME
from domain.figures.ring import RING
from domain.figures.volt_drop import VOLT_DROP
from domain.figures.zs_limits import ZS_MAX, ZS_MEASURED_MAX
from domain.limits.loader import NOT_RECHECKED

FIGURES: tuple[Figure, ...] = (
    ZS_MAX,
    ZS_MEASURED_MAX,
    ZS,
    R1_R2,
    RESISTANCE_AT,
    RING,
    INSULATION,
    RCD_TIME,
    RA_MAX,
    FAULT_CURRENT,
    ADIABATIC,
    BONDING,
    VOLT_DROP,
    CABLE_RATING,
    DISCONNECTION,
    INTERVAL,
)
"""In the order of testing, then of design."""


def keys_of(figure: Figure) -> tuple[Key[Any], ...]:
    """The keys of a figure, and the edition that every figure takes."""
    return (*figure.keys, EDITION)


def figure_named(name: str) -> Figure:
    """The figure of this name."""
    asked = name.strip().casefold().replace("_", "-")
    for figure in FIGURES:
        if figure.name == asked:
            return figure
    raise NotAskableError(
        f"There is no figure {name.strip()!r}; there are {either(tuple(each.name for each in FIGURES))}"
    )


def ask(figure: Figure, typed: Sequence[str]) -> Answer:
    """The answer to `key=value` words, or `NotAskableError` with one sentence on what is allowed."""
    pairs = _pairs(figure, typed)
    for key in keys_of(figure):
        if key.name in pairs:
            key.read(pairs[key.name])
    given = Given(figure.name, pairs)
    return _with_edition(figure.work(given), given.edition)


def _pairs(figure: Figure, typed: Sequence[str]) -> dict[str, str]:
    known = {key.name for key in keys_of(figure)}
    pairs: dict[str, str] = {}
    for word in typed:
        name, equals, value = word.partition("=")
        key = name.strip().casefold().replace("_", "-")
        if not equals:
            raise NotAskableError(
                f"{word!r} is no key=value; put quotes round a value with blanks, such as 'device=BS EN 60898'"
            )
        if key not in known:
            raise NotAskableError(f"{figure.name} has no key {name.strip()!r}; it takes {_named(figure)}")
        if key in pairs:
            raise NotAskableError(f"{key} is given twice")
        if not value.strip():
            raise NotAskableError(f"{key}= has no value; it is {_allowed(figure, key)}")
        pairs[key] = value
    return pairs


def _named(figure: Figure) -> str:
    return either(tuple(key.name for key in keys_of(figure)))


def _allowed(figure: Figure, name: str) -> str:
    return next(key.allowed for key in keys_of(figure) if key.name == name)


def _with_edition(answer: Answer, edition: Edition) -> Answer:
    """The answer with what its sources say beside their figures, and once that a newer edition was not looked at."""
    said = (part for source in answer.sources for part in source.note.split("; ") if part and part != NOT_RECHECKED)
    newer = (f"{edition}: {NOT_RECHECKED}",) if edition is Edition.A4 else ()
    return answer.model_copy(update={"notes": tuple(dict.fromkeys((*answer.notes, *said, *newer)))})
