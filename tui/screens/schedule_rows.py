"""The circuits of a board as rows of boxes, each made anew only when something of it changed."""

from collections.abc import Mapping

from domain.job.board import Board
from domain.job.circuit import Circuit
from domain.job.job import Job
from domain.place import Place
from tui.widgets.box_view import Notes, Owner, Said, owner_of, put_forward_in, views_of
from tui.widgets.schedule_grid import Row


class ScheduleRows:
    """Keeps the boxes of each circuit as last shown, with what they were made from."""

    def __init__(self) -> None:
        self._made: dict[tuple[str, tuple[str, ...]], tuple[Circuit, Said, frozenset[str], Row]] = {}

    def of(self, job: Job, board: Board, notes: Notes, names: tuple[str, ...]) -> list[Row]:
        """The boxes of these names of every circuit of a board."""
        waiting = put_forward_in(job)
        return [self._row(job, board, circuit, notes, names, waiting) for circuit in board.circuits]

    def _row(
        self,
        job: Job,
        board: Board,
        circuit: Circuit,
        notes: Notes,
        names: tuple[str, ...],
        waiting: Mapping[Owner, frozenset[str]],
    ) -> Row:
        place = Place(section="boards", board=board.id, circuit=circuit.id)
        said = notes.get(owner_of(place), {})
        waits = waiting.get(owner_of(place), frozenset())
        key = circuit.id, names
        held = self._made.get(key)
        if held is not None and held[:3] == (circuit, said, waits):
            return held[3]
        row = views_of(circuit, place, f"{board.name}, {circuit.name}", job.form_set, said, names, waiting=waits)
        self._made[key] = circuit, said, waits, row
        return row


def title_of(job: Job, board: Board | None) -> str:
    """What a schedule is headed with: its board, and which of how many it is."""
    if board is None:
        return "no board"
    if len(job.boards) == 1:
        return board.name
    return f"{board.name} ({job.boards.index(board) + 1} of {len(job.boards)})"
