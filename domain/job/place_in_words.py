"""Places in words, and what stands at them."""

from pydantic import BaseModel

from domain.job.box import Box, boxes_of, typed_in
from domain.job.job import SECTION_TITLES, SECTIONS, Job
from domain.place import Place


def owner_at(job: Job, place: Place) -> BaseModel | None:
    """The section, board or circuit that holds the box of a place; None where there is none."""
    if place.board:
        board = job.board(place.board)
        return board.circuit(place.circuit) if board and place.circuit else board
    if place.section in SECTIONS:
        return getattr(job, place.section)
    return None


def box_at(job: Job, place: Place) -> Box | None:
    """The declaration of the box at a place."""
    owner = owner_at(job, place)
    return boxes_of(type(owner)).get(place.box) if owner is not None else None


def text_at(job: Job, place: Place) -> str:
    """What was typed into the box of a place; "" where there is no such box."""
    owner = owner_at(job, place)
    return typed_in(owner, place.box) if owner is not None and place.box in boxes_of(type(owner)) else ""


def described(job: Job, place: Place) -> str:
    """A place as a person would say it: `DB1, circuit 3 Sockets, Measured Zs`."""
    parts: list[str] = []
    if place.board:
        board = job.board(place.board)
        parts.append(
            board.name if board and board.designation.strip() else "board " + (board.name if board else place.board)
        )
        if place.circuit:
            circuit = board.circuit(place.circuit) if board else None
            parts.append(f"circuit {circuit.name if circuit else place.circuit}")
    elif place.section:
        parts.append(SECTION_TITLES.get(place.section, place.section))
    if place.box:
        box = box_at(job, place)
        label = box.label if box else place.box
        parts = [part for part in parts if part != label] + [label]
    if place.item:
        parts.append(f"inspection item {place.item}")
    if place.snag:
        order = [snag.id for snag in job.snags]
        parts.append(f"snag {order.index(place.snag) + 1}" if place.snag in order else "snag")
    if place.observation:
        order = [observation.id for observation in job.observations]
        parts.append(
            f"observation {order.index(place.observation) + 1}" if place.observation in order else "observation"
        )
    return ", ".join(parts)
