"""The keys of both schedules: circuits by their kinds, then quantity after quantity down the board."""

from collections import deque
from collections.abc import Collection, Generator, Iterable, Iterator, Sequence
from itertools import islice
from typing import NamedTuple

from domain.editing.board_filling import boxes_filled
from domain.editing.commands import AddCircuit, Command, Confirm, Declined, Enter
from domain.editing.fill_down import why_not_filled
from domain.editing.over_range import meant_by
from domain.editing.reducer import apply
from domain.editing.usual_commands import FillCircuit
from domain.forms.box_group import BoxGroup
from domain.forms.choice.chosen import ChosenPapers
from domain.job.box import boxes_of, typed_in
from domain.job.circuit import DETAIL_BOXES, RESULT_BOXES, Circuit
from domain.job.job import Job
from domain.job.numbering import number_after
from domain.job.place_in_words import text_at
from domain.job.start import new_job
from domain.place import Place
from tests.builders import INSPECTOR, ON
from tests.tui.meter.fewest import fewest, mark_key
from tests.tui.meter.known import NOTHING_KNOWN, Known, UsualKind, usual_kind
from tests.tui.meter.presses import Kind, Stroke
from tests.tui.meter.strokes import letters, moves, others, views
from tests.tui.meter.walking import Cell, Schedule, way
from tui.widgets.box_view import BoxView

CIRCUITS, RESULTS = "circuits", "results"
_IN_SIGHT = 11
"""Circuits in sight at 80 by 24."""
_COLUMNS = {
    CIRCUITS: tuple(name for name in DETAIL_BOXES if boxes_of(Circuit)[name].group is BoxGroup.CIRCUIT),
    RESULTS: RESULT_BOXES,
}
"""The boxes of a circuit that the cursor of each schedule goes to."""
_LEAST_FILLED = 4
"""Boxes below that make it worth the keys of filling down."""
_EACH_ITS_OWN = {"number", "description", "points", "length"}
"""Details in which circuits differ that are otherwise alike."""


class Target(NamedTuple):
    """A box of a circuit that is to be typed into."""

    row: int
    column: int
    text: str


class OnSchedules:
    """Hands on the schedules of a job, with the job as it stands beside them."""

    def __init__(
        self, wanted: Job, begun: Job | None = None, name: str = INSPECTOR, known: Known = NOTHING_KNOWN
    ) -> None:
        self.wanted = wanted
        self.known = known
        """What the registers of the log hold."""
        self.name = name
        """Who signs."""
        new = new_job(ChosenPapers(form_set=wanted.form_set), on=ON).model_copy(update={"edition": wanted.edition})
        self.job = begun or new
        """As it stands; one that is begun is gone on with."""
        self._across = True
        """Enter goes on across the circuit; a schedule keeps the way from the one before."""

    def circuits(self) -> Iterator[Stroke]:
        """Each circuit by its kind, or like the one before; then down the columns that differ; then one yes to all of it."""
        yield from others(CIRCUITS, "f4")
        wanted, at = self.wanted.boards[0].circuits, Cell(0, 0)
        begun = next((row for row in range(len(wanted)) if not self._is_begun(row)), len(wanted))
        for row, circuit in enumerate(wanted[begun:], begun):
            if row and row >= len(self.job.boards[0].circuits):
                at = yield from self._added(at)
            if not self.job.boards[0].circuits[row].number:
                at = yield from self._typed(CIRCUITS, at, [Target(row, 0, circuit.number)])
            if kind := usual_kind(circuit, self.job.boards[0], row):
                at = yield from self._kind_taken(at, row, kind)
            elif not row or not _alike(circuit, wanted[row - 1]):
                differing = self._differing(CIRCUITS, range(row, row + 1))
                own = [target for target in differing if _COLUMNS[CIRCUITS][target.column] not in _EACH_ITS_OWN]
                at = yield from self._typed(CIRCUITS, at, own if row else differing)
        at = yield from self._typed(CIRCUITS, at, self._differing(CIRCUITS, range(len(wanted))))
        at = yield from self._all_confirmed(CIRCUITS, at)
        self._across = at.across

    def _is_begun(self, row: int) -> bool:
        """The circuit is there, with what it feeds."""
        held, wanted = self.job.boards[0].circuits, self.wanted.boards[0].circuits
        return row < len(held) and bool(held[row].number) and held[row].description == wanted[row].description

    def _kind_taken(self, at: Cell, row: int, kind: UsualKind) -> Generator[Stroke, None, Cell]:
        """Type a letter or two of its kind and take it."""
        if at[:2] != (row, 1):
            keys, at = self._way(CIRCUITS, at, Target(row, 1, ""))
            yield from moves(CIRCUITS, keys, Kind.CELL)
        yield from letters(CIRCUITS, kind.letters)
        board = self.job.boards[0]
        command = FillCircuit(board=board.id, circuit=board.circuits[row].id, usual=kind.details)
        filled = boxes_filled(self.job, command)
        yield Stroke("ctrl+y", Kind.KEPT, CIRCUITS, fills=len(filled))
        self.do(command)
        return self._gone_past(CIRCUITS, at, filled)

    def _gone_past(self, stage: str, at: Cell, filled: Collection[Place]) -> Cell:
        before = None
        while at != before and self._row(stage, at.row)[at.column].place in filled:
            before, at = at, self._schedule(stage).on(at)
        return at

    def _all_confirmed(self, stage: str, at: Cell) -> Generator[Stroke, None, Cell]:
        """Say yes to all that is put forward on the schedule, from the nearest box of it."""
        waiting = tuple(each for each in self.job.unconfirmed if each.circuit and each.box in _COLUMNS[stage])
        if not waiting:
            return at
        wanted = {held.id: wanted for held, wanted in self._pairs()}
        assert all(text_at(self.job, each) == typed_in(wanted[each.circuit], each.box) for each in waiting)
        boxes = {(each.circuit, each.box) for each in waiting}
        circuits = self.job.boards[0].circuits

        def waits(cell: Cell) -> bool:
            return (circuits[cell.row].id, _COLUMNS[stage][cell.column]) in boxes

        if not waits(at):
            keys, at = way(self._schedule(stage).moves, at, waits)
            yield from moves(stage, keys, Kind.CELL)
        yield Stroke("ctrl+y", Kind.KEPT, stage, fills=len(waiting))
        self.do(Confirm(places=waiting))
        return at

    def _pairs(self) -> Iterator[tuple[Circuit, Circuit]]:
        return zip(self.job.boards[0].circuits, self.wanted.boards[0].circuits, strict=True)

    def _added(self, at: Cell) -> Generator[Stroke, None, Cell]:
        """One more below the last, numbered on; the cursor goes to what it feeds."""
        board = self.job.boards[0]
        if at.row != len(board.circuits) - 1:
            yield from moves(CIRCUITS, ("ctrl+end",), Kind.CELL)
        last = board.circuits[-1].id
        yield Stroke("ctrl+n", Kind.ELSE, CIRCUITS)
        self.do(AddCircuit(board=board.id, after=last, like=last, number=number_after(board, last)))
        return Cell(len(board.circuits), 1, at.across)

    def results(self) -> Iterator[Stroke]:
        """One quantity after another, down the board."""
        yield from others(RESULTS, "f5")
        if self._across and len(self.job.boards[0].circuits) > 1:
            yield from moves(RESULTS, ("ctrl+t",), Kind.CELL)
            self._across = False
        first = next(column for column, view in enumerate(self._row(RESULTS, 0)) if view.needed)
        rows = range(len(self.job.boards[0].circuits))
        at = yield from self._typed(RESULTS, Cell(0, first, self._across), self._differing(RESULTS, rows))
        yield from self._all_confirmed(RESULTS, at)

    def _differing(self, stage: str, rows: Iterable[int]) -> list[Target]:
        """What is to be typed, column by column."""
        wanted, held = self.wanted.boards[0].circuits, self.job.boards[0].circuits
        return [
            Target(row, column, typed_in(wanted[row], name))
            for column, name in enumerate(_COLUMNS[stage])
            for row in rows
            if typed_in(wanted[row], name) != typed_in(held[row], name)
        ]

    def _typed(self, stage: str, at: Cell, targets: Iterable[Target]) -> Generator[Stroke, None, Cell]:
        """Go to each target and type it; the first key of the way to the next keeps it. Where the cursor ends."""
        left = deque(targets)
        while left:
            target = left.popleft()
            if at[:2] != target[:2]:
                keys, at = self._way(stage, at, target)
                yield from moves(stage, keys, Kind.CELL)
            view = self._row(stage, target.row)[target.column]
            typed = self._fewest(view, target.text)
            self.do(Enter(place=view.place, text=target.text))
            while left and self._stands(stage, left[0]):
                left.popleft()
            below = self._below(stage, target, left)
            if below:
                yield from letters(stage, typed)
                yield from self._filled_down(stage, below)
                for _ in below:
                    left.popleft()
                continue
            (first, *keys), at = self._way(stage, at, left[0] if left else None)
            mark = mark_key(view, target.text) if first == "enter" else ""
            yield from letters(stage, "" if mark else typed)
            yield Stroke(mark or first, Kind.KEPT, stage, fills=1)
            yield from moves(stage, keys, Kind.CELL)
        return at

    def _fewest(self, view: BoxView, text: str) -> str:
        """What is typed for a text; > alone for a reading over the range that was told before."""
        return ">" if text != ">" and meant_by(self.job, view.place, ">") == text else fewest(view, text)

    def _stands(self, stage: str, target: Target) -> bool:
        """The text came with another box."""
        return self._row(stage, target.row)[target.column].typed == target.text

    def _below(self, stage: str, target: Target, left: Iterable[Target]) -> list[Target]:
        """The targets below that one filling would take: all the way down, the same text, and nothing there yet."""
        rows = range(target.row + 1, len(self.job.boards[0].circuits))
        below = [Target(row, target.column, target.text) for row in rows]
        is_worth_it = len(below) >= _LEAST_FILLED and not why_not_filled(_COLUMNS[stage][target.column])
        return below if is_worth_it and list(islice(left, len(below))) == below else []

    def _filled_down(self, stage: str, below: Sequence[Target]) -> Iterator[Stroke]:
        views = [self._row(stage, target.row)[target.column] for target in below]
        assert not any(view.typed for view in views), "a filling that replaces something asks once more"
        yield Stroke("ctrl+d", Kind.KEPT, stage, fills=1)
        yield Stroke("enter", Kind.ELSE, stage)
        yield Stroke("enter", Kind.ELSE, stage, fills=len(below))
        for target, view in zip(below, views, strict=True):
            self.do(Enter(place=view.place, text=target.text))

    def _way(self, stage: str, at: Cell, target: Target | None) -> tuple[list[str], Cell]:
        return way(self._schedule(stage).moves, at, lambda cell: target is None or cell[:2] == target[:2])

    def _schedule(self, stage: str) -> Schedule:
        rows = range(len(self.job.boards[0].circuits))
        return Schedule([[view.is_stop for view in self._row(stage, row)] for row in rows], _IN_SIGHT)

    def _row(self, stage: str, row: int) -> tuple[BoxView, ...]:
        board = self.job.boards[0]
        place = Place(section="boards", board=board.id, circuit=board.circuits[row].id)
        return views(self.job, place, _COLUMNS[stage])

    def do(self, command: Command) -> None:
        """Change the job that is kept beside the keys as the program changes its own."""
        after = apply(self.job, command)
        assert not isinstance(after, Declined), after.says
        self.job = after


def _alike(one: Circuit, other: Circuit) -> bool:
    return all(getattr(one, name) == getattr(other, name) for name in DETAIL_BOXES if name not in _EACH_ITS_OWN)
