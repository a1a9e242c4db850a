"""A board filled with what is usual of such boards, and a circuit with what is usual of its kind; all of it put forward."""

from domain.editing.commands import Declined
from domain.editing.putting_forward import marked
from domain.editing.usual_commands import FillBoard, FillCircuit
from domain.job.board import Board
from domain.job.box import boxes_of, typed_in
from domain.job.circuit import Circuit
from domain.job.job import Job
from domain.place import Place
from domain.usual.circuit_kinds import USUAL_BOXES
from domain.usual.filled_boards import bare
from domain.value import is_blank


def board_filled(job: Job, command: FillBoard) -> Job | Declined:
    """The job with a board filled that has no circuit yet; what stands in its header stays. Without one a board is added."""
    if job.profile.covers_one_circuit:
        return Declined(says=f"{job.profile.opens_a_sentence} covers one circuit of one board")
    board = job.board(command.board) if command.board else Board(id=f"b{job.next_id}")
    if board is None:
        return Declined(says="That board is no longer there")
    if not is_without_circuits(board):
        return Declined(
            says=f"{board.name} has circuits already; a board that comes filled goes into one that has none"
        )
    usual, first = bare(command.usual), job.next_id + (not command.board)
    header = {
        name: getattr(usual, name)
        for name in boxes_of(Board)
        if is_blank(typed_in(board, name))
        and not is_blank(typed_in(usual, name))
        and boxes_of(Board)[name].is_asked(job.form_set)
    }
    asked = [name for name in USUAL_BOXES if boxes_of(Circuit)[name].is_asked(job.form_set)]
    circuits = tuple(
        Circuit(id=f"c{first + at}", **{name: getattr(each, name) for name in asked})
        for at, each in enumerate(usual.circuits)
    )
    filled = board.model_copy(update={**header, "circuits": circuits})
    others = job.boards if command.board else (*job.boards, board)
    after = job.model_copy(
        update={
            "boards": tuple(filled if each.id == board.id else each for each in others),
            "next_id": first + len(circuits),
        }
    )
    at = Place(section="boards", board=board.id)
    return marked(
        after,
        (
            *(at.model_copy(update={"box": name}) for name in header),
            *(at.model_copy(update={"circuit": each.id, "box": name}) for each in circuits for name in asked),
        ),
    )


def circuit_filled(job: Job, command: FillCircuit) -> Job | Declined:
    """The job with the details of a circuit as they are usual of its kind; number, points, length and readings stay."""
    board = job.board(command.board)
    circuit = board.circuit(command.circuit) if board else None
    if board is None or circuit is None:
        return Declined(says="That circuit is no longer there")
    texts = {place.box: command.usual.get(place.box, "") for place in boxes_filled(job, command)}
    filled = Circuit.model_validate(dict(circuit) | texts)
    changed = board.model_copy(
        update={"circuits": tuple(filled if each.id == circuit.id else each for each in board.circuits)}
    )
    return job.model_copy(update={"boards": tuple(changed if each.id == board.id else each for each in job.boards)})


def boxes_filled(job: Job, command: FillCircuit) -> tuple[Place, ...]:
    """The boxes that a filling of a circuit puts a text into, or empties."""
    return tuple(
        command.place.model_copy(update={"box": name})
        for name in USUAL_BOXES
        if name != "number" and boxes_of(Circuit)[name].is_asked(job.form_set)
    )


def is_without_circuits(board: Board) -> bool:
    """Nothing has been typed into a circuit of it."""
    return all(is_blank(typed_in(circuit, name)) for circuit in board.circuits for name in boxes_of(Circuit))
