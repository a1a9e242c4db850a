"""Every figure that may be asked for, and how one is asked."""

from collections.abc import Sequence
from typing import Any

from domain.edition import Edition, newest
from domain.figures.asked.adiabatic import ADIABATIC
from domain.figures.asked.answer import FigureAnswer, NotAskableError
from domain.figures.asked.bonding import BONDING
from domain.figures.asked.cable_rating import CABLE_RATING
from domain.figures.asked.conductors import R1_R2, RESISTANCE_AT
from domain.figures.asked.disconnection import DISCONNECTION
from domain.figures.asked.fault_current import FAULT_CURRENT
from domain.figures.asked.figure import Figure
from domain.figures.asked.given import Given
from domain.figures.asked.insulation import INSULATION
from domain.figures.asked.interval import INTERVAL
from domain.figures.asked.key import EDITION, FigureKey, either
from domain.figures.asked.loop import RA_MAX, ZS
from domain.figures.asked.medical_bonding import MEDICAL_BONDING
from domain.figures.asked.rcd_time import RCD_TIME
from domain.figures.asked.ring import RING
from domain.figures.asked.runs import LENGTH, OTHER_CONDUCTOR, RING_PROFILE, SPLIT
from domain.figures.asked.selection import CPC_BY_TABLE, DIVERSITY, TRANSFORMER
from domain.figures.asked.volt_drop import VOLT_DROP
from domain.figures.asked.zs_limits import ZS_MAX, ZS_MEASURED_MAX

FIGURES: tuple[Figure, ...] = (
    ZS_MAX,
    ZS_MEASURED_MAX,
    ZS,
    R1_R2,
    SPLIT,
    OTHER_CONDUCTOR,
    LENGTH,
    RESISTANCE_AT,
    RING,
    RING_PROFILE,
    INSULATION,
    RCD_TIME,
    RA_MAX,
    FAULT_CURRENT,
    TRANSFORMER,
    ADIABATIC,
    CPC_BY_TABLE,
    BONDING,
    MEDICAL_BONDING,
    VOLT_DROP,
    CABLE_RATING,
    DIVERSITY,
    DISCONNECTION,
    INTERVAL,
)
"""In the order of testing, then of design."""


def keys_of(figure: Figure) -> tuple[FigureKey[Any], ...]:
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


def ask(figure: Figure, typed: Sequence[str], today: Edition | None = None) -> FigureAnswer:
    """The answer to `key=value` words, or `NotAskableError` with one sentence on what is allowed.

    By the edition of `today` where no other is asked for; by the newest where that is not known.
    """
    pairs = _pairs(figure, typed)
    for key in keys_of(figure):
        if key.name in pairs:
            key.read(pairs[key.name])
    given = Given(figure.name, pairs, today or newest())
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


def _with_edition(answer: FigureAnswer, edition: Edition) -> FigureAnswer:
    """The answer by its edition, with what its sources say beside their figures, and once what holds of all taken over."""
    taken_over = edition.of_older(edition.lineage[-1])
    said = (part for source in answer.sources for part in source.note.replace(taken_over, "").split("; ") if part)
    of_all = (f"{edition}: {taken_over}",) if taken_over else ()
    notes = tuple(dict.fromkeys((*answer.notes, *said, *of_all)))
    return answer.model_copy(update={"notes": notes, "edition": edition})
