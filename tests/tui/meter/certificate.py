"""A whole certificate as somebody keys it in who knows the program: every key from the first question to the issued pack.

The keys follow from the job that is to come out and from what the program offers; the job as it stands is kept beside
them, changed by the commands that the keys give, so that the hands know where the cursor stops.
"""

from collections import deque
from collections.abc import Collection, Generator, Iterable, Iterator, Mapping, Sequence
from itertools import islice
from typing import NamedTuple

from domain.checks import findings_of
from domain.editing.board_filling import boxes_filled, is_without_circuits
from domain.editing.carrying import details_of
from domain.editing.commands import AddCircuit, Command, Confirm, Declined, Enter, MarkItems
from domain.editing.fill_down import why_not_filled
from domain.editing.over_range import meant_by
from domain.editing.reducer import apply
from domain.editing.usual_commands import FillBoard, FillCircuit
from domain.forms.box_group import BoxGroup
from domain.forms.choice.chosen import ChosenPapers
from domain.forms.form_set import FormSet
from domain.inspection.item_outcome import InspectionOutcome
from domain.job.box import boxes_of, typed_in
from domain.job.circuit import DETAIL_BOXES, RESULT_BOXES, Circuit
from domain.job.job import Job, sections_for
from domain.job.next_due import done_on
from domain.job.numbering import number_after
from domain.job.place_in_words import text_at
from domain.job.start import new_job
from domain.log.last_time.history import Earlier, History
from domain.log.last_time.known_records import known_records
from domain.place import Place
from domain.usual.filled_boards import filled_boards
from tests.builders import INSPECTOR, ON, done
from tests.domain.checks.installations import INSTALLATIONS, job_of
from tests.tui.meter.fewest import fewest, mark_key
from tests.tui.meter.inspected import INSPECTION, inspected
from tests.tui.meter.known import NOTHING_KNOWN, Known, UsualKind, begun_alike, usual_kind
from tests.tui.meter.presses import Kind, Stroke
from tests.tui.meter.strokes import letters, moves, others, owner, views
from tests.tui.meter.walking import Cell, Page, Schedule, way
from tui.widgets.box_view import BoxView

QUESTIONS, DETAILS, CIRCUITS, RESULTS, SIGNING = "questions", "details", "circuits", "results", "signing"
STAGES = (QUESTIONS, DETAILS, CIRCUITS, RESULTS, INSPECTION, SIGNING)
POSITION = "Electrician"
_ANSWERS = {FormSet.EIC: ("n", "y"), FormSet.EICR: ("i",)}
"""New circuits, designed, built and tested by those who sign; inspected and tested only."""
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


def house() -> Job:
    """The job that is to come out: a house of sixteen circuits, with all that is typed and nothing that is signed."""
    return job_of(INSTALLATIONS["house of sixteen circuits"])


def marks_of(job: Job) -> Mapping[str, InspectionOutcome]:
    """What its inspection comes to: as it is written there; else N/A where the rest of the record denies the item or it passes by name, else a pass."""
    if job.inspection:
        return {outcome.item: outcome.mark for outcome in job.inspection}
    items = job.items
    ticked = done(job, MarkItems(items=tuple(item.number for item in items), mark=InspectionOutcome.PASS))
    denied = {finding.place.item for finding in findings_of(ticked) if finding.place.section == "inspection"}
    return {
        item.number: InspectionOutcome.NOT_APPLICABLE if item.lists or item.number in denied else InspectionOutcome.PASS
        for item in items
    }


class Target(NamedTuple):
    """A box of a circuit that is to be typed into."""

    row: int
    column: int
    text: str


class Certificate:
    """The keys for a job, stage by stage, each from where the stage before it ended."""

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

    def strokes(self) -> Iterator[Stroke]:
        """All of them."""
        for stage in (self.questions, self.details, self.circuits, self.results, self.inspection, self.signing):
            yield from stage()

    def questions(self) -> Iterator[Stroke]:
        """What was done, by whom; and yes, these papers."""
        yield from others(QUESTIONS, *_ANSWERS[self.wanted.form_set], "enter")

    def details(self) -> Iterator[Stroke]:
        """The page of boxes, from its first: where a job just started stands."""
        at, index, carries = 0, 0, self.known.earlier is not None
        while index < len(self._page()):
            view = self._page()[index]
            if carries and view.place.section not in {"client", "premises"}:
                yield from self._carried_over()
                carries = False
            text, stands = self._wanted_at(view.place), view.typed
            waits = view.place in self.job.unconfirmed
            if self._is_new_board(view.place):
                at = yield from self._to(at, index)
                yield from self._board_begun()
                continue
            if text == stands and not waits:
                index += 1
                continue
            at = yield from self._to(at, index)
            together = self._right_and_waiting(view.place) if waits and text == stands else ()
            if together:
                yield Stroke("ctrl+y" if len(together) > 1 else "enter", Kind.KEPT, DETAILS, fills=len(together))
                self._do(Confirm(places=together))
                at = self._past(at, together)
            elif taken := self.known.taken_at(self.job, view.place, self.wanted):
                yield from letters(DETAILS, taken.letters)
                yield Stroke("ctrl+y", Kind.KEPT, DETAILS, fills=len(taken.command.entries))
                self._do(taken.command)
                at = self._past(at, tuple(each.place for each in taken.command.entries))
                self._put_forward_from_earlier(view.place)
            else:
                mark = mark_key(view, text)
                yield from letters(DETAILS, "" if mark else fewest(view, text))
                yield Stroke(mark or "tab", Kind.KEPT, DETAILS, fills=1)
                self._do(Enter(place=view.place, text=text))
                at = self._stops().after(at)
            index += 1

    def _carried_over(self) -> Iterator[Stroke]:
        """Take the details of the last paper over, from where it is laid beside this one."""
        yield from others(DETAILS, "ctrl+k", "c", "enter", "escape")
        assert self.known.earlier
        self._do(details_of(self.known.earlier))

    def _put_forward_from_earlier(self, place: Place) -> None:
        """What the log tells of earlier papers once it knows the address."""
        if self.known.earlier and place.section == "premises":
            history = History(visits=(Earlier(job=self.known.earlier, on=done_on(self.known.earlier)),))
            if known := known_records(self.job, history):
                self._do(known)

    def _to(self, at: int, index: int) -> Generator[Stroke, None, int]:
        """Go to a box of the page."""
        if at == index:
            return at
        keys, at = way(self._stops().moves, at, lambda place: place == index)
        yield from moves(DETAILS, keys, Kind.NEXT)
        return at

    def _parts(self) -> list[tuple[BoxView, ...]]:
        places = [Place(section=name) for name in sections_for(self.job.form_set)]
        places.append(Place(section="boards", board=self.job.boards[0].id))
        return [views(self.job, place) for place in places]

    def _page(self) -> list[BoxView]:
        return [view for part in self._parts() for view in part]

    def _stops(self) -> Page:
        parts = self._parts()
        firsts = [sum(map(len, parts[:part])) for part in range(len(parts))]
        return Page([view.is_stop for part in parts for view in part], firsts)

    def _wanted_at(self, place: Place) -> str:
        return typed_in(owner(self.wanted, place), place.box)

    def _right_and_waiting(self, place: Place) -> tuple[Place, ...]:
        """All that waits for a yes in the part of a box, where all of it is right; else the box alone."""
        part = tuple(each for each in self.job.unconfirmed if each.whose == place.whose)
        right = all(text_at(self.job, each) == self._wanted_at(each) for each in part)
        return part if right else (place,)

    def _past(self, at: int, filled: Collection[Place]) -> int:
        """The first box after these, as the page goes on past them."""
        before, page, stops = -1, self._page(), self._stops()
        while at != before and page[at].place in filled:
            before, at = at, stops.after(at)
        return at

    def _is_new_board(self, place: Place) -> bool:
        """A board is come to that has no circuit yet, and one that comes filled begins as it does."""
        board = self.job.boards[0]
        return bool(place.board) and is_without_circuits(board) and begun_alike(self.wanted.boards[0]) is not None

    def _board_begun(self) -> Iterator[Stroke]:
        picked = begun_alike(self.wanted.boards[0])
        assert picked
        yield from others(DETAILS, "ctrl+o")
        yield Stroke(str(filled_boards().index(picked) + 1), Kind.ELSE, DETAILS)
        self._do(FillBoard(board=self.job.boards[0].id, known_from=picked.name, usual=picked.board))

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
        self._do(command)
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
        self._do(Confirm(places=waiting))
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
        self._do(AddCircuit(board=board.id, after=last, like=last, number=number_after(board, last)))
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

    def inspection(self) -> Iterator[Stroke]:
        """What was looked at, section by section, with what was observed."""
        yield from others(INSPECTION, "f6")
        yield from inspected(self.job, marks_of(self.wanted), self.wanted.observations, self._do)

    def signing(self) -> Iterator[Stroke]:
        """One person signs for every part, and the pack is issued into the folder that is offered."""
        yield from others(SIGNING, "f9", "a")
        yield from letters(SIGNING, "" if self.wanted.boards[0].tested_by == self.name else self.name)
        yield from others(SIGNING, "enter")
        yield from letters(SIGNING, "" if self.known.position_of(self.name) else POSITION)
        yield from others(SIGNING, "enter", "enter", "i", "enter")

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
            self._do(Enter(place=view.place, text=target.text))
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
            self._do(Enter(place=view.place, text=target.text))

    def _way(self, stage: str, at: Cell, target: Target | None) -> tuple[list[str], Cell]:
        return way(self._schedule(stage).moves, at, lambda cell: target is None or cell[:2] == target[:2])

    def _schedule(self, stage: str) -> Schedule:
        rows = range(len(self.job.boards[0].circuits))
        return Schedule([[view.is_stop for view in self._row(stage, row)] for row in rows], _IN_SIGHT)

    def _row(self, stage: str, row: int) -> tuple[BoxView, ...]:
        board = self.job.boards[0]
        place = Place(section="boards", board=board.id, circuit=board.circuits[row].id)
        return views(self.job, place, _COLUMNS[stage])

    def _do(self, command: Command) -> None:
        after = apply(self.job, command)
        assert not isinstance(after, Declined), after.says
        self.job = after


def _alike(one: Circuit, other: Circuit) -> bool:
    return all(getattr(one, name) == getattr(other, name) for name in DETAIL_BOXES if name not in _EACH_ITS_OWN)
