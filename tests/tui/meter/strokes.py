"""Strokes of several keys, and the boxes of a job as hands meet them."""

from collections.abc import Iterable, Iterator

from pydantic import BaseModel

from domain.job.job import Job
from domain.place import Place
from tests.tui.meter.presses import Kind, Stroke
from tui.widgets.box_view import BoxView, owner_of, put_forward_in, views_of


def owner(job: Job, place: Place) -> BaseModel:
    """The section or board that holds a box of the page."""
    return job.boards[0] if place.board else getattr(job, place.section)


def views(job: Job, place: Place, names: Iterable[str] | None = None) -> tuple[BoxView, ...]:
    """The boxes of a section, board or circuit."""
    held = job.boards[0].circuit(place.circuit) if place.circuit else owner(job, place)
    assert held
    waiting = put_forward_in(job).get(owner_of(place), frozenset())
    return views_of(held, place, "", job.form_set, {}, names, waiting=waiting)


def letters(stage: str, text: str) -> Iterator[Stroke]:
    """A text, letter by letter."""
    yield from (Stroke(letter, Kind.LETTER, stage) for letter in text)


def moves(stage: str, keys: Iterable[str], kind: Kind) -> Iterator[Stroke]:
    """Keys that move the cursor."""
    for key in keys:
        yield Stroke(key, Kind.PART if key.startswith("page") and kind is Kind.NEXT else kind, stage)


def others(stage: str, *keys: str) -> Iterator[Stroke]:
    """Keys that answer, mark or go from step to step."""
    yield from (Stroke(key, Kind.ELSE, stage) for key in keys)
