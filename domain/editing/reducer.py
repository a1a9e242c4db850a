"""The one function that does something to a job: pure, and it lifts the signatures when content changes."""

from collections.abc import Callable
from typing import Any

from pydantic import ValidationError

from domain.editing.board_commands import TakeBoards
from domain.editing.board_filling import board_filled, circuit_filled
from domain.editing.commands import (
    AddBoard,
    AddCircuit,
    CarryOver,
    Choose,
    ClearSnag,
    Command,
    Confirm,
    Declined,
    Enter,
    Explain,
    Fill,
    MoveCircuit,
    PutForward,
    RaiseSnag,
    RemoveBoard,
    RemoveCircuit,
    ReopenSnag,
    SayWhy,
    SetEdition,
    Sign,
    Unsign,
)
from domain.editing.content_hash import content_hash
from domain.editing.correction import with_reason
from domain.editing.entering import carried_over, entered, filled, put_forward, with_circuits, with_what_follows
from domain.editing.inspecting import INSPECTING
from domain.editing.laying_aside import LAYING_ASIDE, declined_as_it_stands
from domain.editing.picturing import PICTURING
from domain.editing.putting_forward import confirmed, marked, still_standing
from domain.editing.taking_boards import with_boards
from domain.editing.usual_commands import FillBoard, FillCircuit
from domain.edition import Edition
from domain.job.board import CIRCUITS_MAX, Board
from domain.job.circuit import DETAIL_BOXES, Circuit
from domain.job.explanation import EDITION_CHECK, Explanation
from domain.job.job import BOARDS_MAX, ENTRIES_MAX, ID_MAX, UNCONFIRMED_MAX, Job, fingerprint
from domain.job.signature import Signature
from domain.job.snag import Cleared, Snag
from domain.usual.circuit_kinds import COUNTED
from domain.value import Value, is_hollow, says_nothing
from domain.words import capitalised


def apply(job: Job, command: Command) -> Job | Declined:
    """The job after a command, or why it cannot be done. Any change of content lifts the signatures."""
    if closed := declined_as_it_stands(job, command):
        return closed
    try:
        after = _DO[type(command)](job, command)
    except ValidationError as error:
        return Declined(says=_first_complaint(error))
    lifts = not isinstance(command, (Sign, Unsign, *LAYING_ASIDE))
    if not isinstance(after, Declined) and lifts:
        after = with_what_follows(job, still_standing(job, after), command)
        if _is_overfull(after):
            return Declined(says="A job holds no more of these; begin another job for the rest")
    if isinstance(after, Declined) or not lifts or not job.signatures or after == job:
        return after
    return after.model_copy(update={"signatures": ()})


def _is_overfull(job: Job) -> bool:
    lists = (job.inspection, job.own_items, job.observations, job.snags, job.explanations)
    return (
        len(job.boards) > BOARDS_MAX
        or any(len(each) > ENTRIES_MAX for each in lists)
        or len(job.unconfirmed) > UNCONFIRMED_MAX
        or job.next_id > ID_MAX
        or any(len(board.circuits) > CIRCUITS_MAX for board in job.boards)
    )


def _first_complaint(error: ValidationError) -> str:
    first = error.errors()[0]
    if first["type"] == "string_too_long":
        return f"That is longer than the {first.get('ctx', {}).get('max_length')} letters this takes; say it shorter"
    says = first["msg"].removeprefix("Value error, ")
    return capitalised(says)


def _choose(job: Job, command: Choose) -> Job | Declined:
    if command.chosen.seen != job.chosen.seen:
        return Declined(says="A report seen elsewhere stays what it is, and a job of this firm does not become one")
    if command.chosen.is_override and not command.chosen.because.strip():
        return Declined(says="Say why another form set is used than the one advised; the reason is printed")
    if command.chosen.form_set.profile.covers_one_circuit and len(job.circuits()) > 1:
        return Declined(
            says=f"{command.chosen.form_set.profile.opens_a_sentence} covers one circuit and this job has more; remove the others or keep the certificate"
        )
    return job.model_copy(update={"chosen": command.chosen})


def _set_edition(job: Job, command: SetEdition) -> Job | Declined:
    is_earlier = command.edition is Edition.EARLIER
    if is_earlier and says_nothing(command.named):
        return Declined(says="Say which earlier edition, with its amendment; the declaration prints it")
    named = command.named.strip() if is_earlier else ""
    if (command.edition, named) == (job.edition, job.edition_named):
        return job
    # A reason for keeping to one edition is none for another.
    explained = tuple(each for each in job.explanations if each.check != EDITION_CHECK)
    return job.model_copy(update={"edition": command.edition, "edition_named": named, "explanations": explained})


def _add_board(job: Job, command: AddBoard) -> Job | Declined:
    if job.profile.covers_one_circuit and job.boards:
        return Declined(says=f"{job.profile.opens_a_sentence} covers one circuit of one board")
    board = Board(id=f"b{job.next_id}")
    return job.model_copy(update={"boards": (*job.boards, board), "next_id": job.next_id + 1})


def _remove_board(job: Job, command: RemoveBoard) -> Job | Declined:
    board = job.board(command.board)
    if board is None:
        return Declined(says="That board has been removed already")
    if command.seen and content_hash(board) != command.seen:
        return Declined(says="That board was changed since you looked; see what is on it now, then remove it")
    return job.model_copy(update={"boards": tuple(board for board in job.boards if board.id != command.board)})


def _add_circuit(job: Job, command: AddCircuit) -> Job | Declined:
    board = job.board(command.board)
    if board is None:
        return Declined(says="That board is no longer there")
    if job.profile.covers_one_circuit and job.circuits():
        return Declined(
            says=f"{job.profile.opens_a_sentence} covers one existing circuit; use one for each circuit, or an Electrical Installation Certificate"
        )
    like = board.circuit(command.like)
    alike = [name for name in DETAIL_BOXES if name != "number" and name not in COUNTED] if like else []
    details = {name: getattr(like, name) for name in alike}
    added = Circuit.model_validate({"id": f"c{job.next_id}", "number": command.number, **details})
    at = next((row + 1 for row, each in enumerate(board.circuits) if each.id == command.after), len(board.circuits))
    after = with_circuits(job, board.id, lambda circuits: [*circuits[:at], added, *circuits[at:]])
    waiting = (each for each in job.unconfirmed if like and each.whose[1:] == (board.id, like.id))
    alike_places = (each.model_copy(update={"circuit": added.id}) for each in waiting if each.box in alike)
    return marked(after.model_copy(update={"next_id": job.next_id + 1}), alike_places)


def _remove_circuit(job: Job, command: RemoveCircuit) -> Job | Declined:
    board = job.board(command.board)
    circuit = board.circuit(command.circuit) if board else None
    if board is None or circuit is None:
        return Declined(says="That circuit has been removed already")
    if command.seen and content_hash(circuit) != command.seen:
        return Declined(says="That circuit was changed since you looked; see what is on it now, then remove it")
    return with_circuits(job, board.id, lambda circuits: [each for each in circuits if each.id != command.circuit])


def _move_circuit(job: Job, command: MoveCircuit) -> Job | Declined:
    board = job.board(command.board)
    moved = board.circuit(command.circuit) if board else None
    if board is None or moved is None:
        return Declined(says="That circuit is no longer there")
    others = [each for each in board.circuits if each.id != moved.id]
    at = min(max(command.to, 0), len(others))
    return with_circuits(job, board.id, lambda _: [*others[:at], moved, *others[at:]])


def _raise_snag(job: Job, command: RaiseSnag) -> Job | Declined:
    if not job.profile.takes_snags:
        what = "observations with a code, not snags" if job.profile.takes_observations else "no snags"
        return Declined(says=f"{job.profile.opens_a_sentence} takes {what}")
    if not command.what.strip() or not command.by.strip():
        return Declined(says="A snag needs a word on what is wrong, and the name of who raised it")
    snag = Snag(
        id=f"s{job.next_id}",
        what=command.what,
        where=command.where,
        about=command.about,
        raised_by=command.by,
        raised_on=command.on,
    )
    return job.model_copy(update={"snags": (*job.snags, snag), "next_id": job.next_id + 1})


def _with_snag(job: Job, snag_id: str, change: Callable[[Snag], Snag]) -> Job | Declined:
    if all(snag.id != snag_id for snag in job.snags):
        return Declined(says="That snag is no longer there")
    return job.model_copy(update={"snags": tuple(change(snag) if snag.id == snag_id else snag for snag in job.snags)})


def _clear_snag(job: Job, command: ClearSnag) -> Job | Declined:
    if not command.how.strip() or not command.by.strip():
        return Declined(says="Clearing a snag needs a word on how it was put right, and a name")
    cleared = Cleared(by=command.by, on=command.on, how=command.how)
    return _with_snag(job, command.snag, lambda snag: snag.model_copy(update={"cleared": cleared}))


def _reopen_snag(job: Job, command: ReopenSnag) -> Job | Declined:
    return _with_snag(job, command.snag, lambda snag: snag.model_copy(update={"cleared": None}))


def _is_on_the_same(given: Explanation, command: Explain) -> bool:
    """It answered the same question, or named none while answers had no case."""
    return (given.check, given.place) == (command.check, command.place) and given.case in {command.case, ""}


def _explain(job: Job, command: Explain) -> Job | Declined:
    others = tuple(each for each in job.explanations if not _is_on_the_same(each, command))
    if not command.reason.strip():
        return job.model_copy(update={"explanations": others})
    if is_hollow(command.reason):
        return Declined(says="Say why it is right as it stands; that says nothing")
    if is_hollow(command.by):
        return Declined(says="A reason needs the name of who gives it")
    given = Explanation(
        check=command.check,
        case=command.case,
        place=command.place,
        typed=command.typed,
        measured=command.measured,
        reason=command.reason,
        by=command.by,
        on=command.on,
    )
    return job.model_copy(update={"explanations": (*others, given)})


def _sign(job: Job, command: Sign) -> Job | Declined:
    if command.role not in job.roles:
        return Declined(says=f"{job.profile.title} has no signature for {command.role}")
    if is_hollow(command.name):
        return Declined(says="Sign with a name")
    if command.seen and command.seen != fingerprint(job):
        return Declined(says="The job was changed since you looked; read it again, then sign")
    signature = Signature(
        role=command.role,
        name=command.name,
        position=command.position,
        firm=command.firm,
        at=command.at,
        fingerprint=fingerprint(job),
    )
    others = tuple(each for each in job.signatures if each.role is not command.role)
    return job.model_copy(update={"signatures": (*others, signature)})


def _unsign(job: Job, command: Unsign) -> Job:
    return job.model_copy(
        update={"signatures": tuple(each for each in job.signatures if each.role is not command.role)}
    )


_DO: dict[type[Value], Callable[[Job, Any], Job | Declined]] = {
    Enter: entered,
    Fill: filled,
    PutForward: put_forward,
    Confirm: confirmed,
    FillBoard: board_filled,
    FillCircuit: circuit_filled,
    Choose: _choose,
    SetEdition: _set_edition,
    AddBoard: _add_board,
    RemoveBoard: _remove_board,
    AddCircuit: _add_circuit,
    RemoveCircuit: _remove_circuit,
    MoveCircuit: _move_circuit,
    RaiseSnag: _raise_snag,
    ClearSnag: _clear_snag,
    ReopenSnag: _reopen_snag,
    Explain: _explain,
    SayWhy: with_reason,
    Sign: _sign,
    Unsign: _unsign,
    CarryOver: carried_over,
    TakeBoards: with_boards,
    **INSPECTING,
    **LAYING_ASIDE,
    **PICTURING,
}
