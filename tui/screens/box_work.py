"""What the steps made of boxes share: saving an entry, the panel below, and boards."""

from typing import ClassVar

from pydantic import ValidationError
from textual.binding import BindingType
from textual.timer import Timer

from domain.editing.commands import AddBoard, Enter
from domain.gate.assessment import JobAssessment
from domain.job.box import BoxKind
from domain.job.finding import Severity
from domain.job.place_in_words import box_at
from domain.place import Place
from domain.value import PROSE_MAX
from tui import theme
from tui.keys import bindings
from tui.screens.job_screen import JobScreen
from tui.widgets.box_entry import BoxEntry
from tui.widgets.box_panel import BoxPanel, Line, told_whole
from tui.widgets.box_view import BoxView, is_same
from tui.widgets.open_entry import OpenEntry

_TODAY = frozenset({"today", "t"})


class BoxScreen(JobScreen):
    """A step on which texts are typed into boxes."""

    BINDINGS: ClassVar[list[BindingType]] = bindings("board-add")
    RESTS_AFTER: ClassVar[float] = 0.25
    """Seconds without a key after which the hands are taken to rest, and panel and coach speak of the box reached.

    While keys come faster nobody reads them, and on a slow line what nobody reads holds up what is typed.
    """

    def __init__(self, number: str, place: Place | None = None) -> None:
        super().__init__(number, place)
        self._at: tuple[BoxView | None, OpenEntry | None] = None, None
        self._rest: Timer | None = None

    @property
    def entering(self) -> BoxEntry:
        """The widget that is typed into."""
        raise NotImplementedError

    def where(self) -> Place | None:
        view = self.entering.current
        return view.place if view else None

    def commit_open_entry(self) -> bool:
        return self.entering.commit() and super().commit_open_entry()

    @property
    def typing(self) -> Place | None:
        return self.entering.entry.view.place if self.entering.entry else None

    def keep(self, place: Place, text: str) -> bool:
        """Save what was typed into a box, and say what came of it."""
        before = self.stands
        try:
            command = Enter(place=place, text=self._meant(place, text))
        except ValidationError:
            self.say(f"Not saved. A box holds at most {PROSE_MAX:,} characters", bad=True)
            return False
        if not self.do(command):
            return False
        if before and self.stands and not self.heard:
            self._say_news(place, before, self.stands)
        return True

    def _meant(self, place: Place, text: str) -> str:
        """Today's date where a box for a date was given that word; any other text as it is."""
        box = box_at(self.job, place) if self.job and text.strip().casefold() in _TODAY else None
        return f"{self.ohmfolio.desk.now():%d/%m/%Y}" if box and box.kind is BoxKind.DATE else text

    def may_mark(self, view: BoxView, mark: str) -> bool:
        """The mark can stand in the box; says why where it cannot."""
        if self.job is None or mark in view.marks:
            return True
        self.say(view.box.problem(mark, self.job.form_set) or f"{view.box.label} takes a text, not a tick", bad=True)
        return False

    def describe(self, view: BoxView | None, entry: OpenEntry | None) -> None:
        """Say all there is to say of the box under the cursor, as soon as the hands rest."""
        is_first, self._at = self._at[0] is None, (view, entry)
        if is_first or not self.RESTS_AFTER:
            self._speak()
        else:
            if self._rest is not None:
                self._rest.stop()
            self._rest = self.set_timer(self.RESTS_AFTER, self._speak)

    def _speak(self) -> None:
        # The timer stays known: by now it may be a newer one, which the next key has to stop.
        self.query_one(BoxPanel).show(*self._at, self.nothing_here, self.asides(*self._at))
        self.show_coach()

    @property
    def told_here(self) -> tuple[Line, ...]:
        """All there is to say of the box under the cursor, however long, for the help."""
        view, entry = self.entering.current, self.entering.entry
        return tuple(told_whole(view, entry, self.asides(view, entry))) if view else ()

    def asides(self, view: BoxView | None, entry: OpenEntry | None) -> tuple[str, ...]:  # noqa: ARG002
        """Lines of what is known from elsewhere of the box under the cursor."""
        return ()

    @property
    def nothing_here(self) -> str:
        """What the panel says where there is no box."""
        return ""

    def action_add_board(self) -> None:
        """Add a board and go to its header."""
        if self.commit_open_entry() and self.do(AddBoard()) and self.job:
            self.visit(Place(section="boards", board=self.job.boards[-1].id, box="designation"))

    @property
    def board_here(self) -> str:
        """Id of the board the cursor is on."""
        place = self.where()
        return place.board if place else ""

    def _say_news(self, place: Place, before: JobAssessment, after: JobAssessment) -> None:
        """What cannot stand where it was typed, or the first thing that is wrong now and was not before."""
        view = self.entering.current
        if view and view.is_wrong and is_same(view.place, place):
            self.say(view.says[0], bad=True)
            return
        news = [each for each in after.findings if each.severity is not Severity.NOTE and each not in before.findings]
        if news:
            worst = min(news, key=lambda each: (each.severity is not Severity.FAILS, not is_same(each.place, place)))
            fails = worst.severity is Severity.FAILS
            self.say(worst.says if fails else f"{theme.SIGN_ASKS} {worst.says}", bad=fails)
