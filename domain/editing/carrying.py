"""Details of an earlier paper taken into a job: supply, boards, wiring and devices. Never a reading or a tick."""

from typing import TypeVar

from pydantic import BaseModel

from domain.editing.commands import Carried, CarryOver
from domain.job.board import Board
from domain.job.box import BoxKind, boxes_of, typed_in
from domain.job.circuit import DETAIL_BOXES, Circuit
from domain.job.job import SECTIONS, Job
from domain.words import joined

_SECTIONS = ("premises", "supply", "earthing", "main_switch")
_PREMISES = ("address", "postcode", "use", "occupier")
_FOUND_ON_THE_DAY = {BoxKind.READING, BoxKind.TICK, BoxKind.DATE}
_OF_THE_DAY = {"tested_by", "tested_on", "vulnerable"}
_HOW_FOUND = {"ze_by", "ipf_by", "nominal_by", "maximum_demand"}
"""Said of a measurement, or worked out anew each time."""
_WITH_THE_JOB = {"tested_by", "tested_on", "location"}
"""What the rest of a job puts forward on a board that nobody has begun."""
_Part = TypeVar("_Part", Board, Circuit)


def details_of(earlier: Job, circuit: str = "") -> CarryOver:
    """The command that takes over what of an earlier paper is no finding of its day.

    With the id of one `circuit`, that circuit and its board alone, as minor works asks for.
    """
    boards = (
        (board, tuple(each for each in board.circuits if circuit in {"", each.id}))
        for board in earlier.boards
        if not circuit or board.circuit(circuit)
    )
    return CarryOver(
        earlier=earlier.number,
        boxes=tuple(
            Carried(section=section, box=box, text=text)
            for section in _SECTIONS
            for box in _detail_boxes(section)
            if (text := typed_in(getattr(earlier, section), box)).strip()
        ),
        boards=tuple(_board(board, board.id, circuits) for board, circuits in boards),
    )


def with_details(job: Job, command: CarryOver) -> Job:
    """The job with details put where it has none; what was typed already stays, and so does a board of the same name."""
    for carried in command.boxes:
        job = _with_box(job, carried)
    if job.profile.covers_one_circuit:
        return _with_one_circuit(job, command.boards)
    blank = [board for board in job.boards if is_blank(job, board)]
    names = {joined(board.designation) for board in job.boards if board not in blank}
    added = [board for board in command.boards if joined(board.designation) not in names]
    if not added:
        return job
    boards, next_id = [board for board in job.boards if board not in blank], job.next_id
    # Who tests, and when, is put forward with the job and goes on with the board that takes the place of the blank one.
    of_the_day = {name: getattr(blank[0], name) for name in _OF_THE_DAY} if blank else {}
    for board in added:
        circuits = tuple(
            circuit.model_copy(update={"id": f"c{next_id + at}"}) for at, circuit in enumerate(board.circuits, 1)
        )
        boards.append(_board(board, f"b{next_id}", circuits).model_copy(update=of_the_day if board is added[0] else {}))
        next_id += 1 + len(circuits)
    return job.model_copy(update={"boards": tuple(boards), "next_id": next_id})


def carried_in(before: Job, after: Job) -> int:
    """How many boxes a carrying over filled."""
    return _filled_boxes(after) - _filled_boxes(before)


def _filled_boxes(job: Job) -> int:
    parts: list[BaseModel] = [getattr(job, name) for name in SECTIONS]
    parts += [part for board in job.boards for part in (board, *board.circuits)]
    return sum(bool(typed_in(part, name).strip()) for part in parts for name in boxes_of(type(part)))


def _with_one_circuit(job: Job, boards: tuple[Board, ...]) -> Job:
    """Minor works with the details of a circuit; with nothing where there were several to take from."""
    rows = [(board, circuit) for board in boards for circuit in board.circuits]
    if len(rows) != 1 or len(job.circuits()) != 1:
        return job
    ((was_board, was),), ((board, circuit),) = rows, job.circuits()
    bare = _board(was_board, board.id, (was,))
    return job.model_copy(
        update={
            "boards": tuple(
                _where_empty(each, bare).model_copy(update={"circuits": (_where_empty(circuit, bare.circuits[0]),)})
                if each.id == board.id
                else each
                for each in job.boards
            )
        }
    )


def _where_empty(part: _Part, was: _Part) -> _Part:
    """The board or circuit with texts of another put where it has none."""
    texts = {
        name: getattr(was, name)
        for name in boxes_of(type(part))
        if typed_in(was, name).strip() and not typed_in(part, name).strip()
    }
    return part.model_copy(update=texts)


def _with_box(job: Job, carried: Carried) -> Job:
    if carried.section not in _SECTIONS or carried.box not in _detail_boxes(carried.section):
        return job
    owner = getattr(job, carried.section)
    if typed_in(owner, carried.box).strip():
        return job
    changed = SECTIONS[carried.section].model_validate(dict(owner) | {carried.box: carried.text})
    return job.model_copy(update={carried.section: changed})


def _detail_boxes(section: str) -> tuple[str, ...]:
    if section == "premises":
        return _PREMISES
    return tuple(
        name
        for name, box in boxes_of(SECTIONS[section]).items()
        if box.kind not in _FOUND_ON_THE_DAY and name not in _HOW_FOUND
    )


def _board(board: Board, board_id: str, circuits: tuple[Circuit, ...]) -> Board:
    """The board with nothing but its details and those of its circuits."""
    kept = {
        name: getattr(board, name)
        for name, box in boxes_of(Board).items()
        if box.kind not in _FOUND_ON_THE_DAY and name not in _OF_THE_DAY
    }
    bare = tuple(Circuit(id=each.id, **{name: getattr(each, name) for name in DETAIL_BOXES}) for each in circuits)
    return Board(id=board_id, circuits=bare, **kept)


def is_blank(job: Job, board: Board) -> bool:
    """Nobody has put anything into it; what the job puts forward there does not count, what was carried there before does."""
    waiting = {each.box for each in job.unconfirmed if each.board == board.id and not each.circuit}
    return not any(
        typed_in(part, name).strip() and not (part is board and name in waiting & _WITH_THE_JOB)
        for part in (board, *board.circuits)
        for name in boxes_of(type(part))
    )
