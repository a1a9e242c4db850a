"""The work on boxes, whatever step they stand on: saving an entry, and telling of the box under the cursor."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import ClassVar

from pydantic import ValidationError
from textual.timer import Timer
from textual.widget import Widget

from domain.coach.danger import Danger, dangers_at
from domain.editing.commands import Confirm, Enter
from domain.editing.over_range import meant_by
from domain.gate.assessment import JobAssessment
from domain.job.box import BoxKind
from domain.job.finding import Severity
from domain.job.place_in_words import box_at
from domain.log.half_typed import HalfTyped
from domain.log.job_log import JobLogError
from domain.place import Place
from domain.value import PROSE_MAX
from tui import theme
from tui.keys import key_name
from tui.screens.job_session import JobSession
from tui.screens.job_step import StepHost
from tui.widgets.box_entry import BoxEntry
from tui.widgets.box_panel import BoxPanel, Line, told_whole
from tui.widgets.box_view import BoxView, is_same
from tui.widgets.open_entry import OpenEntry

_TODAY = frozenset({"today", "t"})


def _nothing_known(_: BoxView | None, __: OpenEntry | None) -> tuple[str, ...]:
    return ()


@dataclass(frozen=True, slots=True)
class BoxPart:
    """What a step with boxes brings along: where they stand, and what it knows of them."""

    widget: Widget
    """The step; the panel stands in it."""
    entering: Callable[[], BoxEntry]
    """The widget that is typed into now."""
    asides: Callable[[BoxView | None, OpenEntry | None], tuple[str, ...]] = _nothing_known
    """Lines of what is known from elsewhere of the box under the cursor."""
    nothing_here: Callable[[], str] = field(default=str)
    """What the panel says where there is no box."""
    kept: Callable[[Place], object] = field(default=lambda _: None)
    """Hears of every text that was saved."""


class BoxWork:
    """Stands between the boxes and the job: what a page of boxes or a schedule asks of its screen."""

    RESTS_AFTER: ClassVar[float] = 0.25
    """Seconds without a key after which the hands are taken to rest, and panel and coach speak of the box reached.

    While keys come faster nobody reads them, and on a slow line what nobody reads holds up what is typed.
    """

    def __init__(self, session: JobSession, host: StepHost, part: BoxPart) -> None:
        self._session = session
        self._host = host
        self._part = part
        self._at: tuple[BoxView | None, OpenEntry | None] = None, None
        self._rest: Timer | None = None
        self._refused = ""
        """The text that the log could not take last."""

    def where(self) -> Place | None:
        """The box the cursor is on."""
        view = self._part.entering().current
        return view.place if view else None

    def commit(self) -> bool:
        """Save what is being typed; False when that failed and it is still open."""
        return self._part.entering().commit()

    @property
    def typing(self) -> Place | None:
        """The box that is being typed into."""
        entry = self._part.entering().entry
        return entry.view.place if entry else None

    def may_type(self) -> bool:
        """The job can still be changed; says why where it cannot."""
        return self._host.may_type()

    def keep(self, place: Place, text: str) -> bool:
        """Save what was typed into a box, and say what came of it."""
        before = self._session.assessment
        try:
            command = Enter(place=place, text=self._meant(place, text))
        except ValidationError:
            self._host.say(f"Not saved. A box holds at most {PROSE_MAX:,} characters", bad=True)
            return False
        if not self._session.do(command):
            self._refused = text
            if self._session.waits and not self._session.tries_again:
                self._host.ohmfolio.type_ahead.begin_anew(self._tell_not_taken)
            return False
        if before and self._session.assessment and not self._session.heard:
            self._say_news(place, before, self._session.assessment)
        self._part.kept(place)
        return True

    def _tell_not_taken(self, typed: str) -> None:
        """What was typed before anybody could see that the log took nothing: it was meant for other boxes."""
        self._host.say(f"Not saved, nor taken what was typed ahead: {typed}. {self._session.trouble}", bad=True)

    @property
    def waits_for_log(self) -> bool:
        """What was to be kept last stays open because the log could not take it."""
        return self._session.entry_waits

    @property
    def waits_for_yes(self) -> bool:
        """The box under the cursor is put forward, and nobody types there."""
        view = self._part.entering().current
        return bool(view and view.is_put_forward and self._part.entering().entry is None)

    def say_yes(self, place: Place) -> bool:
        """Say yes to what is put forward in a box; False when that could not be saved."""
        return self._session.do(Confirm(places=(place,)))

    def say_yes_to(self, belongs: Callable[[Place], object]) -> tuple[Place, ...]:
        """Say yes to all that is put forward in a part; the boxes it was, none where it could not be saved."""
        job = self._session.job
        places = tuple(filter(belongs, job.unconfirmed)) if job else ()
        if not places or not self.may_type() or not self._session.do(Confirm(places=places)):
            return ()
        count = f"{len(places)} boxes" if len(places) > 1 else "1 box"
        self._host.say(f"{count} confirmed as put forward; {key_name('undo')} takes it back")
        return places

    def take_up(self, left: HalfTyped) -> None:
        """Open the box that was being typed into when the program ended; say where it stands no more."""
        entering, half_typing = self._part.entering(), self._host.ohmfolio.half_typing
        view, place = entering.current, left.place
        text, stood = ("".join(each.values()) for each in (left.typed, left.stood))
        if view and place and is_same(view.place, place) and view.typed == text:
            half_typing.forget(left)
        elif view and place and is_same(view.place, place) and self._session.job and not self._session.job.issued:
            entering.take_up(left)
            half_typing.forget(left)
            changed = "" if view.typed == stood else f"{view.typed or 'Nothing'} stands here now. "
            self._host.say(f"{changed}Half-typed when the program ended, not kept. Enter keeps it, Esc drops it")
        else:
            half_typing.forget(left)
            self._host.say(f"Half-typed when the program ended, and not kept; its box is closed: {text}", bad=True)

    def _meant(self, place: Place, text: str) -> str:
        """Today's date where a box for a date was given that word, the end of the range for a bare >; else the text as it is."""
        job = self._session.job
        text = meant_by(job, place, text) if job else text
        box = box_at(job, place) if job and text.strip().casefold() in _TODAY else None
        return f"{self._session.services.now():%d/%m/%Y}" if box and box.kind is BoxKind.DATE else text

    def may_mark(self, view: BoxView, mark: str) -> bool:
        """The mark can stand in the box; says why where it cannot."""
        job = self._session.job
        if job is None or mark in view.marks:
            return True
        says = view.box.problem(mark, job.form_set) or f"{view.box.label} takes a text, not a tick"
        self._host.say(says, bad=True)
        return False

    def describe(self, view: BoxView | None, entry: OpenEntry | None) -> None:
        """Say all there is to say of the box under the cursor, as soon as the hands rest."""
        is_first, self._at = self._at[0] is None, (view, entry)
        self._host.let_go()
        if entry is not None and entry.is_changed:
            self._give_number()
        self._host.ohmfolio.half_typing.in_box(self._session.number, entry)
        if entry is None or entry.text != self._refused:
            self._session.let_entry_be(is_open=entry is not None)
        if is_first or not self.RESTS_AFTER:
            self.speak()
        else:
            if self._rest is not None:
                self._rest.stop()
            self._rest = self._part.widget.set_timer(self.RESTS_AFTER, self.speak)

    def _give_number(self) -> None:
        """With the first key of its first entry a job gets its number: an ended program leaves the entry to that."""
        try:
            self._session.give_number()
        except JobLogError as error:
            self._host.say(f"Not saved yet. {error}", bad=True)

    def speak(self) -> None:
        """Say it now."""
        # The timer stays known: by now it may be a newer one, which the next key has to stop.
        self._host.ohmfolio.half_typing.settle()
        panel = self._part.widget.query_one(BoxPanel)
        dangers = tuple(each.says for each in self._dangers(self._at[0]))
        panel.show(*self._at, self._part.nothing_here(), self._part.asides(*self._at), dangers)
        self._host.show_coach()

    @property
    def told_here(self) -> tuple[Line, ...]:
        """All there is to say of the box under the cursor, however long, for the help."""
        view, entry = self._part.entering().current, self._part.entering().entry
        dangers = tuple(f"{each.says} [{each.source.cited}]" for each in self._dangers(view))
        return tuple(told_whole(view, entry, self._part.asides(view, entry), dangers)) if view else ()

    def _dangers(self, view: BoxView | None) -> tuple[Danger, ...]:
        job = self._session.job
        return dangers_at(job, view.place) if job and view else ()

    def _say_news(self, place: Place, before: JobAssessment, after: JobAssessment) -> None:
        """What cannot stand where it was typed, or the first thing that is wrong now and was not before."""
        view = self._part.entering().current
        if view and view.is_wrong and is_same(view.place, place):
            self._host.say(view.says[0], bad=True)
            return
        news = [each for each in after.findings if each.severity is not Severity.NOTE and each not in before.findings]
        if news:
            worst = min(news, key=lambda each: (each.severity is not Severity.FAILS, not is_same(each.place, place)))
            fails = worst.severity is Severity.FAILS
            self._host.say(worst.says if fails else f"{theme.SIGN_ASKS} {worst.says}", bad=fails)
