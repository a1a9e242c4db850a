"""What is put forward for somebody to confirm: known already, marked until a person said yes to it. Never a reading."""

from collections.abc import Iterable, Iterator

from domain.editing.commands import Confirm
from domain.job.box import boxes_of
from domain.job.job import SECTIONS, Job
from domain.job.place_in_words import text_at
from domain.place import Place


def marked(job: Job, places: Iterable[Place]) -> Job:
    """The job with boxes marked as put forward, those that hold something."""
    known = set(job.unconfirmed)
    added = tuple(each for each in dict.fromkeys(map(_box_alone, places)) if each not in known and _holds(job, each))
    return job.model_copy(update={"unconfirmed": (*job.unconfirmed, *added)}) if added else job


def confirmed(job: Job, command: Confirm) -> Job:
    """The job with boxes that a person said yes to as they stand."""
    return _without(job, command.places)


def _without(job: Job, places: Iterable[Place]) -> Job:
    gone = set(map(_box_alone, places))
    left = tuple(each for each in job.unconfirmed if each not in gone)
    return job if len(left) == len(job.unconfirmed) else job.model_copy(update={"unconfirmed": left})


def still_standing(before: Job, after: Job) -> Job:
    """The job without marks on boxes that an edit took away, emptied or typed into."""
    if not after.unconfirmed or after == before:
        return after
    waited = set(before.unconfirmed)
    gone = [
        each
        for each in after.unconfirmed
        if not _holds(after, each) or (each in waited and text_at(before, each) != text_at(after, each))
    ]
    return _without(after, gone)


def newly_filled(before: Job, after: Job) -> Iterator[Place]:
    """The boxes that hold something after an edit and held nothing, or were not there, before it."""
    for name, section in SECTIONS.items():
        if getattr(before, name) is not getattr(after, name):
            yield from _filled(before, after, Place(section=name), tuple(boxes_of(section)))
    held = {board.id: board for board in before.boards}
    for board in after.boards:
        if held.get(board.id) is board:
            continue
        at = Place(section="boards", board=board.id)
        for place, part in ((at, board), *((at.model_copy(update={"circuit": c.id}), c) for c in board.circuits)):
            yield from _filled(before, after, place, tuple(boxes_of(type(part))))


def _filled(before: Job, after: Job, at: Place, names: Iterable[str]) -> Iterator[Place]:
    for name in names:
        place = at.model_copy(update={"box": name})
        if text_at(after, place).strip() and not text_at(before, place).strip():
            yield place


def _holds(job: Job, place: Place) -> bool:
    return bool(text_at(job, place).strip())


def _box_alone(place: Place) -> Place:
    """The place of a box, written the one way that marks are kept in."""
    return Place(
        section="boards" if place.board else place.section, board=place.board, circuit=place.circuit, box=place.box
    )
