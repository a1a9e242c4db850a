"""What a command did, in words for the trail."""

from collections.abc import Callable
from typing import Any

from domain.editing.board_commands import TakeBoards
from domain.editing.commands import (
    AddBoard,
    AddCircuit,
    AddItem,
    AddPicture,
    AnswerFailures,
    CarryOver,
    Choose,
    ClearSnag,
    Command,
    Confirm,
    Enter,
    Explain,
    Fill,
    LayAside,
    MarkItems,
    MoveCircuit,
    Observe,
    PutForward,
    RaiseSnag,
    RecordAction,
    RemoveBoard,
    RemoveCircuit,
    RemoveItem,
    RemovePicture,
    ReopenSnag,
    SayWhy,
    SetEdition,
    SetOutcome,
    Sign,
    TakeUp,
    Unsign,
    Withdraw,
)
from domain.editing.usual_commands import FillBoard, FillCircuit
from domain.job.box import boxes_of, typed_in
from domain.job.job import Job
from domain.job.picture_place import belongs_to
from domain.job.place_in_words import described, owner_at
from domain.place import Place
from domain.value import Value, cleaned
from domain.words import capitalised, counted

SHOWN_MAX = 120


def audit_text(before: Job, command: Command) -> str:
    """What a command does to a job, with the places named as they were when it was given."""
    return _SAID[type(command)](before, command)


def shortened(text: str) -> str:
    """A text on one line, cut where it would fill the trail."""
    line = " ".join(cleaned(text).split())
    return line if len(line) <= SHOWN_MAX else f"{line[: SHOWN_MAX - 1]}…"


def _entered(job: Job, command: Enter) -> str:
    where = described(job, command.place)
    owner = owner_at(job, command.place)
    known = owner is not None and command.place.box in boxes_of(type(owner))
    was = shortened(typed_in(owner, command.place.box)) if owner is not None and known else ""
    now = shortened(command.text) or "emptied"
    return f"{where}: {now} (was {was})" if was else f"{where}: {now}"


def _filled(job: Job, command: Fill) -> str:
    first, last = (described(job, entry.place) for entry in (command.entries[0], command.entries[-1]))
    if len(command.entries) == 1:
        return _entered(job, command.entries[0])
    texts = list(dict.fromkeys(entry.text for entry in command.entries))
    return f"{len(command.entries)} boxes filled, from {first} to {last}: {shortened(', '.join(texts)) or 'emptied'}"


def _put_forward(job: Job, command: PutForward) -> str:
    known = f" from {shortened(command.known_from)}" if command.known_from.strip() else ""
    told = ", ".join(f"{described(job, each.place)}: {each.text}" for each in command.entries)
    return f"Put forward{known}, to be confirmed: {shortened(told)}"


def _confirmed(job: Job, command: Confirm) -> str:
    first, *others = command.places
    more = f" and {len(others)} more" if others else ""
    return f"Confirmed as it stands: {described(job, first)}{more}"


def _board_filled(job: Job, command: FillBoard) -> str:
    where = _circuit(job, command.board) if command.board else "Board added"
    return f"{where}: filled as {shortened(command.known_from)}, to be confirmed"


def _circuit_filled(job: Job, command: FillCircuit) -> str:
    where = _circuit(job, command.board, command.circuit)
    return f"{where}: usual details put forward, to be confirmed: {shortened(', '.join(command.usual.values()))}"


def _chosen(job: Job, command: Choose) -> str:
    said = f"Form set chosen: {command.chosen.form_set}"
    return f"{said}, because {shortened(command.chosen.because)}" if command.chosen.because.strip() else said


def _edition_set(job: Job, command: SetEdition) -> str:
    return f"Edition: {command.named.strip() or command.edition}"


def _board_added(job: Job, command: AddBoard) -> str:
    return "Board added"


def _board_removed(job: Job, command: RemoveBoard) -> str:
    return f"Removed with its circuits: {_circuit(job, command.board)}"


def _circuit_added(job: Job, command: AddCircuit) -> str:
    like = f", its details like {_circuit(job, command.board, command.like)}" if command.like else ""
    return f"Circuit added to {_circuit(job, command.board)}{like}"


def _circuit_removed(job: Job, command: RemoveCircuit) -> str:
    return f"Removed: {_circuit(job, command.board, command.circuit)}"


def _circuit_moved(job: Job, command: MoveCircuit) -> str:
    return f"{_circuit(job, command.board, command.circuit)}: moved to row {command.to + 1}"


def _outcome_set(job: Job, command: SetOutcome) -> str:
    mark = command.mark or "mark taken away"
    note = f", {shortened(command.note)}" if command.note.strip() else ""
    return f"Inspection item {shortened(command.item)}: {mark}{note}"


def _items_marked(job: Job, command: MarkItems) -> str:
    count = f"{len(command.items)} inspection items" if len(command.items) > 1 else "Inspection item"
    return f"{count}, {shortened(', '.join(command.items))}: {command.mark}"


def _item_added(job: Job, command: AddItem) -> str:
    return f"Inspection item added: {shortened(command.title)}"


def _item_removed(job: Job, command: RemoveItem) -> str:
    return f"Inspection item removed: {shortened(command.item)}"


def _snag_raised(job: Job, command: RaiseSnag) -> str:
    return f"Snag raised: {shortened(command.what)}"


def _snag_cleared(job: Job, command: ClearSnag) -> str:
    return f"{capitalised(described(job, Place(snag=command.snag)))} cleared: {shortened(command.how)}"


def _snag_reopened(job: Job, command: ReopenSnag) -> str:
    return f"{capitalised(described(job, Place(snag=command.snag)))} opened again"


def _observed(job: Job, command: Observe) -> str:
    if command.observation:
        which = capitalised(described(job, Place(observation=command.observation)))
        return f"{which} rewritten: {command.code}, {shortened(command.finding)}"
    return f"Observation written: {command.code}, {shortened(command.finding)}"


def _failures_answered(job: Job, command: AnswerFailures) -> str:
    which = capitalised(described(job, Place(observation=command.observation)))
    told = ", ".join(described(job, place) for place in command.answers)
    return f"{which} answers: {shortened(told) or 'no failure'}"


def _action_recorded(job: Job, command: RecordAction) -> str:
    which = capitalised(described(job, Place(observation=command.observation)))
    return f"{which}: {shortened(command.action.sentence)}"


def _withdrawn(job: Job, command: Withdraw) -> str:
    return f"{capitalised(described(job, Place(observation=command.observation)))} withdrawn"


def _picture_added(job: Job, command: AddPicture) -> str:
    picture = command.picture
    return f"{capitalised(picture.kind)} of {belongs_to(job, picture)} added: {shortened(picture.caption)}"


def _picture_removed(job: Job, command: RemovePicture) -> str:
    named = next((each.caption for each in job.pictures if each.id == command.picture), command.picture)
    return f"Picture taken out: {shortened(named)}"


def _explained(job: Job, command: Explain) -> str:
    where = described(job, command.place)
    if not command.reason.strip():
        return f"{where}: reason taken back"
    return f"{where}: explained, {shortened(command.reason)}"


def _why_said(job: Job, command: SayWhy) -> str:
    return f"Replaces {job.replaces} because: {shortened(command.because)}"


def _signed(job: Job, command: Sign) -> str:
    return f"Signed by {shortened(command.name)}: {command.role}"


def _unsigned(job: Job, command: Unsign) -> str:
    return f"Signature taken back: {command.role}"


def _carried_over(job: Job, command: CarryOver) -> str:
    return f"Details carried over from {command.earlier}; no readings"


def _boards_taken(job: Job, command: TakeBoards) -> str:
    circuits = sum(len(board.circuits) for board in command.boards)
    names = shortened(", ".join(board.name for board in command.boards))
    return f"Taken from {command.tested_in} as tested there, with {counted(circuits, 'circuit')}: {names}"


def _laid_aside(job: Job, command: LayAside) -> str:
    return "Laid aside"


def _taken_up(job: Job, command: TakeUp) -> str:
    return "Taken up again"


def _circuit(job: Job, board: str, circuit: str = "") -> str:
    return described(job, Place(section="boards", board=board, circuit=circuit))


_SAID: dict[type[Value], Callable[[Job, Any], str]] = {
    Enter: _entered,
    Fill: _filled,
    PutForward: _put_forward,
    Confirm: _confirmed,
    FillBoard: _board_filled,
    FillCircuit: _circuit_filled,
    Choose: _chosen,
    SetEdition: _edition_set,
    AddBoard: _board_added,
    RemoveBoard: _board_removed,
    AddCircuit: _circuit_added,
    RemoveCircuit: _circuit_removed,
    MoveCircuit: _circuit_moved,
    SetOutcome: _outcome_set,
    MarkItems: _items_marked,
    AddItem: _item_added,
    RemoveItem: _item_removed,
    RaiseSnag: _snag_raised,
    ClearSnag: _snag_cleared,
    ReopenSnag: _snag_reopened,
    Observe: _observed,
    AnswerFailures: _failures_answered,
    RecordAction: _action_recorded,
    Withdraw: _withdrawn,
    AddPicture: _picture_added,
    RemovePicture: _picture_removed,
    Explain: _explained,
    SayWhy: _why_said,
    Sign: _signed,
    Unsign: _unsigned,
    CarryOver: _carried_over,
    TakeBoards: _boards_taken,
    LayAside: _laid_aside,
    TakeUp: _taken_up,
}
