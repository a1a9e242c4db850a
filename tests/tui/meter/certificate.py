"""A whole certificate as somebody keys it in who knows the program: every key from the first question to the issued pack.

The keys follow from the job that is to come out and from what the program offers; the job as it stands is kept beside
them, changed by the commands that the keys give, so that the hands know where the cursor stops.
"""

from collections import deque
from collections.abc import Generator, Iterable, Iterator, Sequence
from itertools import islice
from typing import NamedTuple

from pydantic import BaseModel

from domain.editing.commands import AddCircuit, Command, Confirm, Declined, Enter
from domain.editing.fill_down import why_not_filled
from domain.editing.reducer import apply
from domain.forms.box_group import BoxGroup
from domain.forms.choice.chosen import ChosenPapers
from domain.inspection.item_outcome import InspectionOutcome
from domain.job.box import boxes_of, typed_in
from domain.job.circuit import DETAIL_BOXES, RESULT_BOXES, Circuit
from domain.job.job import Job, sections_for
from domain.job.numbering import number_after
from domain.job.start import new_job
from domain.place import Place
from tests.builders import INSPECTOR, ON
from tests.tui.meter.fewest import fewest, mark_key
from tests.tui.meter.house import marks_of
from tests.tui.meter.presses import Kind, Stroke
from tests.tui.meter.walking import Cell, Page, Schedule, way
from tui.widgets.box_view import BoxView, owner_of, put_forward_in, views_of

QUESTIONS, DETAILS, CIRCUITS, RESULTS, INSPECTION, SIGNING = STAGES = (
    "questions",
    "details",
    "circuits",
    "results",
    "inspection",
    "signing",
)
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


class Certificate:
    """The keys for a job, stage by stage, each from where the stage before it ended."""

    def __init__(self, wanted: Job, begun: Job | None = None, name: str = INSPECTOR) -> None:
        self.wanted = wanted
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
        """A whole installation; designed, built and tested by those who sign; and yes, these papers."""
        yield from _others(QUESTIONS, "n", "y", "enter")

    def details(self) -> Iterator[Stroke]:
        """The page of boxes, from its first: where a job just started stands."""
        places = [Place(section=name) for name in sections_for(self.job.form_set)]
        places.append(Place(section="boards", board=self.job.boards[0].id))
        parts = [_views(self.job, place) for place in places]
        firsts = [sum(map(len, parts[:part])) for part in range(len(parts))]
        at = 0
        for index, view in enumerate(view for part in parts for view in part):
            text = typed_in(_owner(self.wanted, view.place), view.place.box)
            waits = view.place in self.job.unconfirmed
            if text == typed_in(_owner(self.job, view.place), view.place.box) and not waits:
                continue
            if at != index:
                page = Page(self._stops(places), firsts)
                keys, at = way(page.moves, at, lambda place, to=index: place == to)
                yield from _moves(DETAILS, keys, Kind.NEXT)
            if waits and text == typed_in(_owner(self.job, view.place), view.place.box):
                yield Stroke("enter", Kind.KEPT, DETAILS, fills=1)
                self._do(Confirm(places=(view.place,)))
                at = Page(self._stops(places), firsts).after(at)
                continue
            mark = mark_key(view, text)
            yield from _letters(DETAILS, "" if mark else fewest(view, text))
            yield Stroke(mark or "tab", Kind.KEPT, DETAILS, fills=1)
            self._do(Enter(place=view.place, text=text))
            at = Page(self._stops(places), firsts).after(at)

    def _stops(self, places: Iterable[Place]) -> list[bool]:
        return [view.is_stop for place in places for view in _views(self.job, place)]

    def circuits(self) -> Iterator[Stroke]:
        """Of circuits that are alike one across, and the others like it; then down the columns that differ on each."""
        yield from _others(CIRCUITS, "f4")
        wanted, at = self.wanted.boards[0].circuits, Cell(0, 0)
        begun = len(self.job.boards[0].circuits) if self.job.boards[0].circuits[0].number else 0
        for row, circuit in enumerate(wanted[begun:], begun):
            if row:
                at = yield from self._added(at)
            if not row or not _alike(circuit, wanted[row - 1]):
                differing = self._differing(CIRCUITS, range(row, row + 1))
                own = [target for target in differing if _COLUMNS[CIRCUITS][target.column] not in _EACH_ITS_OWN]
                at = yield from self._typed(CIRCUITS, at, own if row else differing)
        at = yield from self._typed(CIRCUITS, at, self._differing(CIRCUITS, range(len(wanted))))
        self._across = at.across

    def _added(self, at: Cell) -> Generator[Stroke, None, Cell]:
        """One more below the last, numbered on; the cursor goes to what it feeds."""
        board = self.job.boards[0]
        if at.row != len(board.circuits) - 1:
            yield from _moves(CIRCUITS, ("ctrl+end",), Kind.CELL)
        last = board.circuits[-1].id
        yield Stroke("ctrl+n", Kind.ELSE, CIRCUITS)
        self._do(AddCircuit(board=board.id, after=last, like=last, number=number_after(board, last)))
        return Cell(len(board.circuits), 1, at.across)

    def results(self) -> Iterator[Stroke]:
        """One quantity after another, down the board."""
        yield from _others(RESULTS, "f5")
        first = next(column for column, view in enumerate(self._row(RESULTS, 0)) if view.needed)
        rows = range(len(self.job.boards[0].circuits))
        at = yield from self._typed(RESULTS, Cell(0, first, self._across), self._differing(RESULTS, rows))
        if waiting := self.job.unconfirmed:
            column = _COLUMNS[RESULTS].index(waiting[0].box)
            keys, _ = self._way(RESULTS, at, Target(rows[-1], column, ""))
            yield from _moves(RESULTS, keys, Kind.CELL)
            yield Stroke("ctrl+y", Kind.KEPT, RESULTS, fills=len(waiting))
            self._do(Confirm(places=waiting))

    def inspection(self) -> Iterator[Stroke]:
        """What was looked at, section by section."""
        yield from _others(INSPECTION, "f6")
        items, marks = self.job.items, marks_of(self.wanted)
        marked = {outcome.item for outcome in self.job.inspection}
        left = [at for at, item in enumerate(items) if item.number not in marked]
        cursor = left[0]
        for section in dict.fromkeys(items[at].section for at in left):
            inside = [at for at in left if items[at].section == section]
            by_name = [at for at in inside if marks[items[at].number] is InspectionOutcome.NOT_APPLICABLE]
            together = [at for at in inside if at not in by_name]
            for at in by_name:
                yield from _others(INSPECTION, *_rows(cursor, at), "n")
                cursor = min(at + 1, len(items) - 1)
            if together:
                beside = cursor if items[cursor].section == section else together[-1]
                yield from _others(INSPECTION, *_rows(cursor, beside), "r", "enter")
                cursor = min(together[-1] + 1, len(items) - 1)

    def signing(self) -> Iterator[Stroke]:
        """One person signs for every part, and the pack is issued into the folder that is offered."""
        yield from _others(SIGNING, "f9", "a")
        yield from _letters(SIGNING, self.name)
        yield from _others(SIGNING, "enter")
        yield from _letters(SIGNING, "Electrician")
        yield from _others(SIGNING, "enter", "enter", "i", "enter")

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
                yield from _moves(stage, keys, Kind.CELL)
            view = self._row(stage, target.row)[target.column]
            self._do(Enter(place=view.place, text=target.text))
            while left and self._stands(stage, left[0]):
                left.popleft()
            below = self._below(stage, target, left)
            if below:
                yield from _letters(stage, fewest(view, target.text))
                yield from self._filled_down(stage, below)
                for _ in below:
                    left.popleft()
                continue
            (first, *keys), at = self._way(stage, at, left[0] if left else None)
            mark = mark_key(view, target.text) if first == "enter" else ""
            yield from _letters(stage, "" if mark else fewest(view, target.text))
            yield Stroke(mark or first, Kind.KEPT, stage, fills=1)
            yield from _moves(stage, keys, Kind.CELL)
        return at

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
        rows = range(len(self.job.boards[0].circuits))
        stops = [[view.is_stop for view in self._row(stage, row)] for row in rows]
        return way(Schedule(stops, _IN_SIGHT).moves, at, lambda cell: target is None or cell[:2] == target[:2])

    def _row(self, stage: str, row: int) -> tuple[BoxView, ...]:
        board = self.job.boards[0]
        place = Place(section="boards", board=board.id, circuit=board.circuits[row].id)
        return _views(self.job, place, _COLUMNS[stage])

    def _do(self, command: Command) -> None:
        after = apply(self.job, command)
        assert not isinstance(after, Declined), after.says
        self.job = after


def _alike(one: Circuit, other: Circuit) -> bool:
    return all(getattr(one, name) == getattr(other, name) for name in DETAIL_BOXES if name not in _EACH_ITS_OWN)


def _owner(job: Job, place: Place) -> BaseModel:
    return job.boards[0] if place.board else getattr(job, place.section)


def _views(job: Job, place: Place, names: Iterable[str] | None = None) -> tuple[BoxView, ...]:
    owner = job.boards[0].circuit(place.circuit) if place.circuit else _owner(job, place)
    assert owner
    waiting = put_forward_in(job).get(owner_of(place), frozenset())
    return views_of(owner, place, "", job.form_set, {}, names, waiting=waiting)


def _letters(stage: str, text: str) -> Iterator[Stroke]:
    yield from (Stroke(letter, Kind.LETTER, stage) for letter in text)


def _moves(stage: str, keys: Iterable[str], kind: Kind) -> Iterator[Stroke]:
    for key in keys:
        yield Stroke(key, Kind.PART if key.startswith("page") and kind is Kind.NEXT else kind, stage)


def _rows(start: int, end: int) -> list[str]:
    """Arrows from one row of a list to another."""
    return ["down"] * (end - start) or ["up"] * (start - end)


def _others(stage: str, *keys: str) -> Iterator[Stroke]:
    yield from (Stroke(key, Kind.ELSE, stage) for key in keys)
