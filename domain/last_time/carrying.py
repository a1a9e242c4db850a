"""Details of an earlier paper taken into a job: supply, boards, wiring and devices. Never a reading or a tick."""

from domain.board import Board
from domain.box import BoxKind, boxes_of, typed_in
from domain.circuit import DETAIL_BOXES, Circuit
from domain.commands import Carried, CarryOver
from domain.job import SECTIONS, Job
from domain.words import joined

_SECTIONS = ("premises", "supply", "earthing", "main_switch")
_PREMISES = ("address", "postcode", "use", "occupier")
_FOUND_ON_THE_DAY = {BoxKind.READING, BoxKind.TICK, BoxKind.DATE}
_OF_THE_DAY = {"tested_by", "tested_on", "vulnerable"}
_HOW_FOUND = {"ze_by", "ipf_by", "nominal_by", "maximum_demand"}
"""Said of a measurement, or worked out anew each time."""


def details_of(earlier: Job) -> CarryOver:
    """The command that takes over what of an earlier paper is no finding of its day."""
    return CarryOver(
        earlier=earlier.number,
        boxes=tuple(
            Carried(section=section, box=box, text=text)
            for section in _SECTIONS
            for box in _detail_boxes(section)
            if (text := typed_in(getattr(earlier, section), box)).strip()
        ),
        boards=tuple(_board(board, board.id, board.circuits) for board in earlier.boards),
    )


def with_details(job: Job, command: CarryOver) -> Job:
    """The job with details put where it has none; what was typed already stays, and so does a board of the same name."""
    for carried in command.boxes:
        job = _with_box(job, carried)
    if not job.form_set.has_schedules:
        return job
    names = {joined(board.designation) for board in job.boards if not _is_blank(board)}
    added = [board for board in command.boards if joined(board.designation) not in names]
    if not added:
        return job
    boards, next_id = [board for board in job.boards if not _is_blank(board)], job.next_id
    for board in added:
        circuits = tuple(
            circuit.model_copy(update={"id": f"c{next_id + at}"}) for at, circuit in enumerate(board.circuits, 1)
        )
        boards.append(_board(board, f"b{next_id}", circuits))
        next_id += 1 + len(circuits)
    return job.model_copy(update={"boards": tuple(boards), "next_id": next_id})


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


def _is_blank(board: Board) -> bool:
    """Nothing has been typed into it."""
    parts = (board, *board.circuits)
    return not any(typed_in(part, name).strip() for part in parts for name in boxes_of(type(part)))
