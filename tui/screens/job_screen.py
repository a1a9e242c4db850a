"""A job that is open, one step of it at a time: the bar above, the step's own part, and the way from step to step."""

from collections.abc import Callable, Mapping
from contextlib import suppress

from textual.app import ComposeResult

from domain.coach.danger import Danger
from domain.coach.topics import topics_of
from domain.editing.commands import Command
from domain.gate.reason import Reason, ReasonKind
from domain.job.job import Job
from domain.log.job_log import JobLogError
from domain.place import Place
from tui.job_page import JobPage, step_of
from tui.keys import bindings, key_name
from tui.routes import ToFind, ToLastTime, ToTrail, ToVisitSheet
from tui.screens.dialogs import FormScreen, LineScreen
from tui.screens.job_session import JobSession, why_closed
from tui.screens.job_step import JobStep, StepHost
from tui.screens.page import Page
from tui.screens.places_next import circuit_called, left_of, reason_after
from tui.screens.position_note import note_of
from tui.services import Services
from tui.widgets.box_panel import Line
from tui.widgets.job_bar import JobBar

JOB_KEYS = bindings(
    *("help", "palette", "back", "details", "circuits", "results", "inspection", "raised", "review", "issue"),
    *("go", "undo", "redo", "trail", "last-time", "visit-sheet", "next-open", "leave"),
)


_LEAVES = "Esc once more leaves the job. All of it is saved"


class JobScreen(Page):
    """One step of one job. What differs from step to step is the part it is given."""

    BINDINGS = JOB_KEYS
    DEFAULT_CSS = """
    JobScreen.-coached.-wide > JobStep > BoxPanel { height: 4; }
    JobScreen.-coached.-wide > JobStep > #about { height: 5; }
    """

    def __init__(
        self,
        services: Services,
        number: str,
        part: Callable[[JobSession, StepHost], JobStep],
        place: Place | None = None,
        begun: Job | None = None,
    ) -> None:
        """`part` makes the step's own part of the screen; a job just `begun` has no number yet."""
        super().__init__()
        self.session = JobSession(services, number, self, begun)
        self.part = part(self.session, self)
        self.place = place
        if place is not None:
            self.part.expect(place)
        self._sent_to: Place | None = None
        self._landed: Place | None = None

    @property
    def number(self) -> str:
        """Its number; "" until the first entry."""
        return self.session.number

    @property
    def open_job(self) -> str:
        return self.number

    @property
    def job(self) -> Job | None:
        return self.session.job

    @property
    def step(self) -> JobPage:
        return self.part.page

    @property
    def explains(self) -> str:
        return self.part.explains

    @property
    def told_here(self) -> tuple[Line, ...]:
        return self.part.told_here

    @property
    def lifts_here(self) -> tuple[str, ...]:
        return self.part.lifts_here

    @property
    def dangers_here(self) -> tuple[Danger, ...]:
        return self.part.dangers_here

    @property
    def topics(self) -> tuple[str, ...]:
        """What is under the cursor, then the step."""
        return (*topics_of(self.where(), self.job.form_set if self.job else None), f"screen.{self.step}")

    def compose_page(self) -> ComposeResult:
        """Job bar, and the step's own part."""
        yield JobBar()
        yield self.part

    def on_mount(self) -> None:
        """Load the job and go where the person was sent."""
        self.bar.step = self.step
        trouble = f"{self.number} is no longer in the log"
        try:
            is_there = self.session.begin()
        except JobLogError as error:
            is_there, trouble = False, str(error)
        if not is_there:
            self.ohmfolio.turn_back(trouble)
            return
        self.set_interval(self.session.HEARS_EVERY, self._hear)
        self.show_keys()
        left = self.ohmfolio.half_typing.left_in(self.number) if self.number else None
        if self.place is not None:
            # At once: a key typed ahead would be worked through before a call that waits for the first frame.
            self._arrive(self.place)
        self.part.begin(sent=self.place is not None)
        if left is not None:
            self.part.take_up(left)
        self.call_after_refresh(self.note_place)

    def on_screen_resume(self) -> None:
        super().on_screen_resume()
        self.part.resume()

    def _hear(self) -> None:
        if self.is_current:
            self.session.hear()

    def show_session(self) -> None:
        """The job is another one now."""
        bar = self.bar
        bar.job, bar.assessment, bar.out = self.session.job, self.session.assessment, self.session.out
        self.part.show_job()

    @property
    def bar(self) -> JobBar:
        return self.query_one(JobBar)

    @property
    def typing(self) -> Place | None:
        return self.part.typing

    def where(self) -> Place | None:
        return self.part.where()

    def commit_open_entry(self) -> bool:
        return self.part.commit_open_entry() and self.save_waiting()

    def save_waiting(self) -> bool:
        return self.session.save_waiting()

    def may_type(self) -> bool:
        """An issued job cannot be typed into, nor one laid aside, nor one that is out with somebody else."""
        if says := why_closed(self.job) or self.session.why_out():
            self.say(says, bad=True)
        return not says

    def ask_named(
        self,
        form: FormScreen,
        command: Callable[[Mapping[str, str]], Command],
        then: Callable[[], object] | None = None,
    ) -> None:
        """Ask for what is given with a name, and do it; the name is put forward from then on."""

        def take(typed: Mapping[str, str]) -> None:
            self.ohmfolio.naming.note(typed["by"])
            if self.session.do(command(typed)) and then:
                then()

        self.ask(form, take)

    def action_step(self, step: str) -> None:
        """Go to another step of the job."""
        if step == JobPage.INSPECTION and self.job and not self.job.profile.checklist:
            self.say(f"{self.job.profile.opens_a_sentence} carries no inspection schedule")
            return
        if step != self.step and self.commit_open_entry():
            self._open_step(JobPage(step))

    def action_back(self) -> None:
        """Back to the list of jobs; after work on the job only on a second press, as letters mean something else there."""
        if not self.commit_open_entry():
            return
        if self.session.has_worked and self.said != _LEAVES:
            self.say(_LEAVES)
        else:
            self.ohmfolio.pop_screen()

    def action_go(self) -> None:
        """Ask for a circuit's number and go there, or find any job by what was typed."""
        if self.commit_open_entry():
            asked = LineScreen("Go where?", help="A circuit of this job by its number, or any job by words of it.")
            self.ohmfolio.push_screen(asked, self._go_where)

    def _go_where(self, typed: str | None) -> None:
        if typed is None or self.job is None:
            return
        if place := circuit_called(self.job, typed, self.where()):
            self.visit(place)
        else:
            self.ohmfolio.go(ToFind(typed))

    def action_undo(self) -> None:
        """Take back what this person did last."""
        self._step_back(self.session.undo)

    def action_redo(self) -> None:
        """Do again what was taken back last."""
        self._step_back(self.session.redo)

    def _step_back(self, take: Callable[[], Place | None]) -> None:
        """Undo or redo, and go to what it was about if that is in sight from here."""
        place = take() if self.commit_open_entry() else None
        if place is not None and step_of(place) is self.step:
            self.part.go_to(place)

    def action_trail(self) -> None:
        """Who changed what, and when."""
        if self.session.begun:
            self.say("Nothing has been typed into this job yet")
        elif self.commit_open_entry():
            self.ohmfolio.go(ToTrail(self.number))

    def action_last_time(self) -> None:
        """What was found here before."""
        if self.job and self.commit_open_entry():
            self.ohmfolio.go(ToLastTime(self.job, self.session.do))

    def action_visit_sheet(self) -> None:
        """What to have in hand on site."""
        if self.job and self.commit_open_entry():
            self.ohmfolio.go(ToVisitSheet(self.job))

    def action_next_open(self) -> None:
        """On to the next thing that keeps the job back, from where the cursor is."""
        if not self.commit_open_entry():
            return
        reasons = self.session.assessment.reasons if self.session.assessment else ()
        if not reasons:
            self.say(f"Nothing is left open; {key_name('issue')} issues it")
            return
        reason = reason_after(reasons, self._here)
        self.visit_reason(reason, f"{left_of(reasons)}. {reason.says}")

    def visit_reason(self, reason: Reason, says: str) -> None:
        """Go where a reason is mended: a question is answered on the review, anything else at its place."""
        if reason.kind is ReasonKind.QUESTION and self.step is not JobPage.REVIEW:
            if self.commit_open_entry():
                self._open_step(JobPage.REVIEW, reason.place, says)
        elif reason.kind is ReasonKind.QUESTION:
            self.part.go_to(reason.place)
            self.say(says)
        else:
            self.visit(reason.place, says)

    def visit(self, place: Place, says: str = "") -> None:
        """Go to a place of this job, on whatever step it is."""
        step = step_of(place)
        if step is self.step:
            self._arrive(place)
            self.say(says)
        elif self.commit_open_entry():
            self._open_step(step, place, says)

    def _open_step(self, step: JobPage, place: Place | None = None, says: str = "") -> None:
        """Go to another step, and know where this one was left."""
        if here := self.where():
            self.ohmfolio.places[self.number, self.step] = here
        self.ohmfolio.open_step(self.number, step, place, says, begun=self.session.begun)

    def _arrive(self, place: Place) -> None:
        self.part.go_to(place)
        self._sent_to, self._landed = place, self.where()

    @property
    def _here(self) -> Place | None:
        """The place the person was sent to, as long as the cursor stays; it may be no box, such as an empty board."""
        here = self.where()
        return self._sent_to if self._sent_to and here == self._landed else here

    def on_screen_suspend(self) -> None:
        """Remember where the person was."""
        self.note_place()

    def note_place(self) -> None:
        """Keep where the person is, so that the job opens there."""
        services = self.ohmfolio.services
        with suppress(JobLogError):
            if self.number:
                services.log.save_position(self.number, note_of(self.step, self.where()), who=services.who)
