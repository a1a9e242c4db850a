"""What a picture belongs to, as a person types it and as a paper says it."""

import re

from domain.job.job import Job
from domain.job.picture import JobPicture
from domain.job.place_in_words import described
from domain.place import Place

_NAMED = re.compile(r"\s*(observation|item|board)\s+(.+?)\s*", re.IGNORECASE)


def place_named(job: Job, text: str) -> Place | None:
    """The place that `observation 2`, `item 4.4` or `board DB1` names; None where the job has none of it."""
    match = _NAMED.fullmatch(text)
    if match is None:
        return None
    kind, name = match[1].casefold(), match[2]
    if kind == "observation":
        at = int(name) if name.isdecimal() and len(name) < 5 else 0
        return Place(observation=job.observations[at - 1].id) if 0 < at <= len(job.observations) else None
    if kind == "item":
        there = any(item.number.casefold() == name.casefold() for item in job.items)
        return Place(section="inspection", item=name) if there else None
    board = next((each for each in job.boards if each.name.casefold() == name.casefold()), None)
    return Place(section="boards", board=board.id) if board else None


def place_typed(job: Job, place: Place) -> str:
    """The same as a person would type it; "" for no such place."""
    if place.observation:
        order = [each.id for each in job.observations]
        return f"observation {order.index(place.observation) + 1}" if place.observation in order else ""
    if place.item:
        return f"item {place.item}" if any(item.number == place.item for item in job.items) else ""
    board = job.board(place.board)
    return f"board {board.name}" if board else ""


def belongs_to(job: Job, picture: JobPicture) -> str:
    """What a picture belongs to, for papers and screens."""
    return place_typed(job, picture.about) or described(job, picture.about)
