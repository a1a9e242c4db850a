"""What changed between two visits, and which changes deserve a question."""

from collections.abc import Iterator
from decimal import Decimal

from pydantic import BaseModel

from domain.edition import Edition
from domain.figures.limits.loader import named_figure
from domain.inspection.observation import Observation
from domain.job.box import BoxKind, boxes_of
from domain.job.job import SECTIONS, Job
from domain.job.place_in_words import owner_at
from domain.job.reading import Meaning, Reading
from domain.log.last_time.history import place_then, reading_at
from domain.log.last_time.matching import Match
from domain.place import Place
from domain.source import Source
from domain.value import Value
from domain.words import words_of

_TABLE = "last_time"
_INSULATION = {"ir_live", "ir_earth"}
_RESISTANCE = {"zs", "r1_r2", "r2", "ring_r1", "ring_rn", "ring_r2", "ze", "electrode_resistance"}
_TIMES = {"rcd_time"}
_ALIKE = 0.5
"""Findings that share this part of their words are taken to speak of the same thing."""


class ReadingTrend(Value):
    """One reading then and now."""

    place: Place
    was: Reading | None
    now: Reading | None
    difference: Decimal | None = None
    """Now less then, where both are plain figures."""
    asks: str = ""
    """What deserves a question; "" where nothing does."""
    source: Source | None = None
    """Of the figure that the question rests on."""


class CameBack(Value):
    """A code that stood on the earlier report and stands again."""

    now: Observation
    was: Observation


def changes_of(now: Job, earlier: Job, matches: tuple[Match, ...]) -> tuple[ReadingTrend, ...]:
    """Every reading taken on either visit: at the origin, at each board, and on each matched circuit."""
    return tuple(change for place in _reading_places(now) for change in _change(now, earlier, matches, place))


def came_back(now: Job, earlier: Job) -> tuple[CameBack, ...]:
    """Observations of a report that the earlier one had too: on the same inspection item, or in like words."""
    return tuple(
        CameBack(now=each, was=same)
        for each in now.observations
        for same in [next((was for was in earlier.observations if _is_same(now, each, earlier, was)), None)]
        if same
    )


def _reading_places(job: Job) -> Iterator[Place]:
    for name, section in SECTIONS.items():
        yield from (Place(section=name, box=box) for box in _measured(section))
    for board in job.boards:
        at = Place(section="boards", board=board.id)
        yield from (at.model_copy(update={"box": box}) for box in _measured(type(board)))
        for circuit in board.circuits:
            if not circuit.is_spare:
                here = at.model_copy(update={"circuit": circuit.id})
                yield from (here.model_copy(update={"box": box}) for box in _measured(type(circuit)))


def _measured(owner: type[BaseModel]) -> Iterator[str]:
    return (name for name, box in boxes_of(owner).items() if box.kind is BoxKind.READING)


def _change(now: Job, earlier: Job, matches: tuple[Match, ...], place: Place) -> Iterator[ReadingTrend]:
    was = reading_at(earlier, place_then(now, earlier, matches, place))
    is_now = reading_at(now, place)
    if was is None and is_now is None:
        return
    asks, source = _question(now, place, was, is_now)
    yield ReadingTrend(place=place, was=was, now=is_now, difference=_difference(was, is_now), asks=asks, source=source)


def _difference(was: Reading | None, now: Reading | None) -> Decimal | None:
    if was is None or now is None or was.figure is None or now.figure is None:
        return None
    return now.figure - was.figure


def _question(job: Job, place: Place, was: Reading | None, now: Reading | None) -> tuple[str, Source | None]:
    if was is None or now is None or owner_at(job, place) is None:
        return "", None
    if place.box in _INSULATION:
        return _fallen(was, now, job.edition)
    if place.box in _RESISTANCE:
        return _risen(was, now, job.edition)
    return _slower(was, now, job.edition) if place.box in _TIMES else ("", None)


def _fallen(was: Reading, now: Reading, edition: Edition) -> tuple[str, Source | None]:
    left = named_figure(_TABLE, "insulation, what is left by share", edition)
    high, low = _at_most(now), _at_least(was)
    if high is None or low is None or high >= low * left.value:
        return "", None
    return f"Insulation fell from {was.shown} to {now.shown} MΩ, by more than half: what has changed?", left.source


def _risen(was: Reading, now: Reading, edition: Edition) -> tuple[str, Source | None]:
    """Beyond what both instruments may be out and the conductors may have been warmer."""
    share = named_figure(_TABLE, "resistance, error by share", edition)
    digits = named_figure(_TABLE, "resistance, error by", edition)
    warmer = named_figure(_TABLE, "resistance, warmer by share", edition)
    low, high = _at_least(now), _at_most(was)
    if low is None or high is None:
        return "", None
    surely = low - (low * share.value + digits.value)
    at_most = high + high * warmer.value + high * share.value + digits.value
    if surely <= at_most:
        return "", None
    return (
        f"Rose from {was.shown} to {now.shown} Ω, more than two instruments and a warmer day explain: a loose joint?",
        share.source,
    )


def _slower(was: Reading, now: Reading, edition: Edition) -> tuple[str, Source | None]:
    share = named_figure(_TABLE, "RCD, slower by share", edition)
    by = named_figure(_TABLE, "RCD, slower by", edition)
    low, high = _at_least(now), _at_most(was)
    if low is None or high is None or low <= high + high * share.value + by.value:
        return "", None
    return f"The RCD opened in {was.shown} ms then and {now.shown} ms now: is it slowing?", by.source


def _at_least(reading: Reading) -> Decimal | None:
    """The true figure lies at or above this."""
    return Decimal(0) if reading.meaning is Meaning.UNDER else reading.value


def _at_most(reading: Reading) -> Decimal | None:
    """The true figure lies at or below this; None where it may be anything."""
    return None if reading.meaning is Meaning.OVER else reading.value


def _is_same(now: Job, one: Observation, earlier: Job, other: Observation) -> bool:
    if set(one.items) & set(other.items) and now.edition == earlier.edition:
        return True
    words, others = set(words_of(one.finding)), set(words_of(other.finding))
    return bool(words & others) and len(words & others) / len(words | others) >= _ALIKE
