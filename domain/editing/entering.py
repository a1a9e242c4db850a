"""Texts that come into boxes: typed, filled in one go, put forward or carried over, with what follows from them."""

from collections.abc import Callable

from domain.editing.batch import in_turn
from domain.editing.board_filling import boxes_filled
from domain.editing.carrying import with_details
from domain.editing.commands import AddCircuit, CarryOver, Command, Confirm, Declined, Enter, Fill, PutForward
from domain.editing.following import follow_ups
from domain.editing.one_device import agreeing
from domain.editing.putting_forward import confirmed, marked, newly_filled, still_standing
from domain.editing.usual_commands import FillBoard, FillCircuit
from domain.job.board import Board
from domain.job.box import BoxKind, boxes_of
from domain.job.circuit import Circuit
from domain.job.job import Job
from domain.job.place_in_words import box_at, owner_at, text_at
from domain.place import Place
from domain.value import is_blank


def entered(job: Job, command: Enter) -> Job | Declined:
    """The job with a text in a box, or why it cannot stand there."""
    place = command.place
    owner = owner_at(job, place)
    if owner is None or place.box not in boxes_of(type(owner)):
        return Declined(says="That box is no longer there; someone may have removed the circuit or board")
    text = command.text if boxes_of(type(owner))[place.box].kind is BoxKind.PROSE else command.text.strip()
    changed = type(owner).model_validate(dict(owner) | {place.box: text})
    if not place.board:
        return job.model_copy(update={place.section: changed})
    if isinstance(changed, Circuit) and isinstance(owner, Circuit):
        changed = agreeing(owner, changed, place.box)
        return with_circuits(
            job, place.board, lambda circuits: [changed if each.id == place.circuit else each for each in circuits]
        )
    assert isinstance(changed, Board)
    return job.model_copy(update={"boards": tuple(changed if each.id == place.board else each for each in job.boards)})


def filled(job: Job, command: Fill) -> Job | Declined:
    """The job with texts in several boxes."""
    return in_turn(job, command.entries, entered)


def put_forward(job: Job, command: PutForward) -> Job | Declined:
    """Texts into boxes that are empty and not measured, marked; where nothing is left to fill, all stays as it is."""
    fits = [each for each in command.entries if _takes(job, each.place)]
    after = in_turn(job, fits, entered)
    return after if isinstance(after, Declined) else marked(after, (each.place for each in fits))


def _takes(job: Job, place: Place) -> bool:
    box = box_at(job, place)
    return box is not None and not box.is_measured and box.is_asked(job.form_set) and is_blank(text_at(job, place))


def carried_over(job: Job, command: CarryOver) -> Job:
    """The job with details of an earlier paper, each of them to be confirmed."""
    after = with_details(job, command)
    return marked(after, newly_filled(job, after))


def with_what_follows(before: Job, after: Job, command: Command) -> Job:
    """What a person typed puts other texts forward."""
    typed = command.entries if isinstance(command, Fill) else (command,) if isinstance(command, Enter) else ()
    # What was typed is confirmed by that, also where it says the same as before.
    after = confirmed(after, Confirm(places=tuple(each.place for each in typed))) if typed else after
    places = [each.place for each in typed]
    if isinstance(command, AddCircuit | FillBoard | CarryOver):
        places = list(newly_filled(before, after))
    elif isinstance(command, FillCircuit):
        # What waited already and says something else now waits on.
        places = list(boxes_filled(after, command))
        after = marked(after, places)
    entries = tuple(follow_ups(before, after, places))
    followed = in_turn(after, entries, entered)
    return (
        after
        if isinstance(followed, Declined)
        else marked(still_standing(after, followed), (each.place for each in entries))
    )


def with_circuits(job: Job, board_id: str, change: Callable[[list[Circuit]], list[Circuit]]) -> Job:
    """The job with the circuits of a board changed."""
    return job.model_copy(
        update={
            "boards": tuple(
                board.model_copy(update={"circuits": tuple(change(list(board.circuits)))})
                if board.id == board_id
                else board
                for board in job.boards
            )
        }
    )
