"""A whole certificate as somebody keys it in who knows the program: every key from the first question to the issued pack.

The keys follow from the job that is to come out and from what the program offers; the job as it stands is kept beside
them, changed by the commands that the keys give, so that the hands know where the cursor stops.
"""

from collections.abc import Collection, Generator, Iterator

from domain.editing.board_filling import is_without_circuits
from domain.editing.carrying import details_of
from domain.editing.commands import Confirm, Enter
from domain.editing.usual_commands import FillBoard
from domain.forms.form_set import FormSet
from domain.job.box import typed_in
from domain.job.job import sections_for
from domain.job.next_due import done_on
from domain.job.place_in_words import text_at
from domain.log.last_time.history import Earlier, History
from domain.log.last_time.known_records import known_records
from domain.place import Place
from domain.usual.filled_boards import filled_boards
from tests.tui.meter.fewest import fewest, mark_key
from tests.tui.meter.house import marks_of
from tests.tui.meter.inspected import INSPECTION, inspected
from tests.tui.meter.known import begun_alike
from tests.tui.meter.on_schedules import CIRCUITS, RESULTS, OnSchedules
from tests.tui.meter.presses import Kind, Stroke
from tests.tui.meter.strokes import letters, moves, others, owner, views
from tests.tui.meter.walking import Page, way
from tui.widgets.box_view import BoxView

QUESTIONS, DETAILS, SIGNING = "questions", "details", "signing"
STAGES = (QUESTIONS, DETAILS, CIRCUITS, RESULTS, INSPECTION, SIGNING)
POSITION = "Electrician"
_ANSWERS = {FormSet.EIC: ("n", "y"), FormSet.EICR: ("i",)}
"""New circuits, designed, built and tested by those who sign; inspected and tested only."""


class Certificate(OnSchedules):
    """The keys for a job, stage by stage, each from where the stage before it ended."""

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
                self.do(Confirm(places=together))
                at = self._past(at, together)
            elif taken := self.known.taken_at(self.job, view.place, self.wanted):
                yield from letters(DETAILS, taken.letters)
                yield Stroke("ctrl+y", Kind.KEPT, DETAILS, fills=len(taken.command.entries))
                self.do(taken.command)
                at = self._past(at, tuple(each.place for each in taken.command.entries))
                self._put_forward_from_earlier(view.place)
            else:
                mark = mark_key(view, text)
                yield from letters(DETAILS, "" if mark else fewest(view, text))
                yield Stroke(mark or "tab", Kind.KEPT, DETAILS, fills=1)
                self.do(Enter(place=view.place, text=text))
                at = self._stops().after(at)
            index += 1

    def _carried_over(self) -> Iterator[Stroke]:
        """Take the details of the last paper over, from where it is laid beside this one."""
        yield from others(DETAILS, "ctrl+k", "c", "enter", "escape")
        assert self.known.earlier
        self.do(details_of(self.known.earlier))

    def _put_forward_from_earlier(self, place: Place) -> None:
        """What the log tells of earlier papers once it knows the address."""
        if self.known.earlier and place.section == "premises":
            history = History(visits=(Earlier(job=self.known.earlier, on=done_on(self.known.earlier)),))
            if known := known_records(self.job, history):
                self.do(known)

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
        self.do(FillBoard(board=self.job.boards[0].id, known_from=picked.name, usual=picked.board))

    def inspection(self) -> Iterator[Stroke]:
        """What was looked at, section by section, with what was observed."""
        yield from others(INSPECTION, "f6")
        yield from inspected(self.job, marks_of(self.wanted), self.wanted.observations, self.do)

    def signing(self) -> Iterator[Stroke]:
        """One person signs for every part, at once or one after the other, and the pack goes into the folder that is offered."""
        yield from others(SIGNING, "f9")
        name = "" if self.wanted.boards[0].tested_by == self.name else self.name
        position = "" if self.known.position_of(self.name) else POSITION
        if self.job.profile.states_a_condition:
            # After the first, name and position are put forward.
            for at in range(len(self.job.roles)):
                yield from self._signed("enter", "" if at else name, "" if at else position)
        else:
            yield from self._signed("a", name, position)
            yield from others(SIGNING, "enter")
        yield from others(SIGNING, "i", "enter")

    def _signed(self, key: str, name: str, position: str) -> Iterator[Stroke]:
        yield from others(SIGNING, key)
        yield from letters(SIGNING, name)
        yield from others(SIGNING, "enter")
        yield from letters(SIGNING, position)
        yield from others(SIGNING, "enter")
