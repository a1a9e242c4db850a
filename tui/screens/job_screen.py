"""What all steps of a job share: the bar above them, and the way from step to step."""

import json
from collections.abc import Callable, Mapping
from typing import ClassVar

from pydantic import ValidationError
from textual.app import ComposeResult

from domain.coach.topics import topics_of
from domain.editing.commands import Command
from domain.gate.assessment import JobAssessment, assess
from domain.gate.reason import Hold, Reason
from domain.job.job import Job
from domain.log.job_log import JobLogError
from domain.place import Place
from domain.register.entries import Person
from tui.job_page import JobPage, step_of
from tui.keys import bindings
from tui.screens.dialogs import FormScreen, LineScreen
from tui.screens.last_time import LastTimeScreen
from tui.screens.open_job import OpenJob
from tui.widgets.job_bar import JobBar

JOB_KEYS = bindings(
    "help",
    "palette",
    "back",
    "details",
    "circuits",
    "results",
    "inspection",
    "raised",
    "review",
    "issue",
    "go",
    "undo",
    "redo",
    "trail",
    "last-time",
    "next-open",
    "leave",
)


_LEAVES = "Esc once more leaves the job. All of it is saved"


class JobScreen(OpenJob):
    """One step of one job. Subclasses compose their own part and show the job when it changes."""

    STEP: ClassVar[JobPage]
    BINDINGS = JOB_KEYS

    def __init__(self, number: str, place: Place | None = None) -> None:
        super().__init__(number)
        self.place = place
        self._sent_to: Place | None = None
        self._landed: Place | None = None

    def compose_page(self) -> ComposeResult:
        """Job bar, and the step's own part."""
        yield JobBar()
        yield from self.compose_step()

    def compose_step(self) -> ComposeResult:
        """The step's own widgets; the main one carries the class `step`."""
        raise NotImplementedError

    def show_job(self, job: Job, stands: JobAssessment) -> None:
        """Bring the step's own widgets up to date. Called after every change."""
        raise NotImplementedError

    def go_to(self, place: Place) -> None:
        """Put the cursor on a place of this step."""

    def where(self) -> Place | None:
        """The place the cursor is on, to come back to."""
        return None

    @property
    def topics(self) -> tuple[str, ...]:
        """What is under the cursor, then the step."""
        return (*topics_of(self.where(), self.job.form_set if self.job else None), f"screen.{self.STEP}")

    def on_mount(self) -> None:
        """Load the job and go where the person was sent."""
        try:
            loaded = self.begin_to_hear()
            trouble = f"{self.number} is no longer in the log"
        except JobLogError as error:
            loaded, trouble = None, str(error)
        if loaded is None:
            self.ohmfolio.turn_back(trouble)
            return
        self.query_one(JobBar).step = self.STEP
        self.take(loaded)
        self.show_keys()
        left = self.ohmfolio.unfinished.left
        if left.number == self.number:
            self.say(f"The line dropped in a question: {left.question}. Asked again, it stands there as typed")
        if self.place is not None:
            # At once: a key typed ahead would be worked through before a call that waits for the first frame.
            self._arrive(self.place)
        self.call_after_refresh(self.note_place)

    def stepped_at(self, place: Place) -> None:
        if step_of(place) is self.STEP:
            self.go_to(place)

    def note_saved(self, time: str) -> None:
        self.query_one(JobBar).saved = time

    def take(self, job: Job) -> None:
        self.stands = assess(job, self.signers_of(job))
        bar = self.query_one(JobBar)
        bar.job, bar.standing = job, self.stands
        self.job = job
        self.show_job(job, self.stands)

    def signers_of(self, job: Job) -> tuple[Person, ...]:
        """Those of the register of people who signed. What the log cannot say now, it says when the paper is issued."""
        try:
            return self.ohmfolio.desk.log.people_named(job.signers) if job.signers else ()
        except JobLogError:
            return ()

    def may_type(self) -> bool:
        """An issued job cannot be typed into."""
        if self.job is None or self.job.issued:
            self.say("It has been issued; a correction is a new document that replaces this one", bad=True)
            return False
        return True

    def ask_named(
        self,
        form: FormScreen,
        command: Callable[[Mapping[str, str]], Command],
        then: Callable[[], object] | None = None,
    ) -> None:
        """Ask for what is given with a name, and do it; the name is put forward from then on."""

        def take(typed: Mapping[str, str]) -> None:
            self.ohmfolio.naming.note(typed["by"])
            if self.do(command(typed)) and then:
                then()

        self.ask(form, take)

    def action_step(self, step: str) -> None:
        """Go to another step of the job."""
        if step == JobPage.INSPECTION and self.job and not self.job.profile.checklist:
            self.say(f"{self.job.profile.opens_a_sentence} carries no inspection schedule")
            return
        if step != self.STEP and self.commit_open_entry():
            self._open_step(JobPage(step))

    def action_back(self) -> None:
        """Back to the list of jobs; after work on the job only on a second press, as letters mean something else there."""
        if not self.commit_open_entry():
            return
        if self.has_worked and self.said != _LEAVES:
            self.say(_LEAVES)
        else:
            self.ohmfolio.pop_screen()

    def action_go(self) -> None:
        """Ask for a circuit's number and go there, or find any job by what was typed."""
        if self.commit_open_entry():
            asked = LineScreen(
                "Go where?", help="The number of a circuit of this job; or words of any job, to find it."
            )
            self.ohmfolio.push_screen(asked, self._go_where)

    def _go_where(self, typed: str | None) -> None:
        if typed is None or self.job is None:
            return
        here = self.where()
        found = [
            Place(section="boards", board=board.id, circuit=circuit.id, box=here.box if here and here.circuit else "")
            for board, circuit in self.job.circuits()
            if circuit.bears(typed)
        ]
        if found:
            self.visit(next((place for place in found if here and place.board == here.board), found[0]))
        else:
            self.ohmfolio.find_job(typed)

    def action_last_time(self) -> None:
        """What was found here before."""
        if self.job and self.commit_open_entry():
            self.ohmfolio.push_screen(LastTimeScreen(self.job, self.do))

    def action_next_open(self) -> None:
        """On to the next thing that keeps the job back, from where the cursor is."""
        if not self.commit_open_entry():
            return
        reasons = self.stands.reasons if self.stands else ()
        if not reasons:
            self.say("Nothing is left open; F9 issues it")
            return
        reason = _after(reasons, self._here)
        left = f"{len(reasons)} left" if len(reasons) > 1 else "The last one"
        self.visit_reason(reason, f"{left}. {reason.says}")

    def visit_reason(self, reason: Reason, says: str) -> None:
        """Go where a reason is mended: a question is answered on the review, anything else at its place."""
        if reason.kind is Hold.QUESTION and self.STEP is not JobPage.REVIEW:
            if self.commit_open_entry():
                self._open_step(JobPage.REVIEW, reason.place, says)
        elif reason.kind is Hold.QUESTION:
            self.go_to(reason.place)
            self.say(says)
        else:
            self.visit(reason.place, says)

    def visit(self, place: Place, says: str = "") -> None:
        """Go to a place of this job, on whatever step it is."""
        step = step_of(place)
        if step is self.STEP:
            self._arrive(place)
            self.say(says)
        elif self.commit_open_entry():
            self._open_step(step, place, says)

    def _open_step(self, step: JobPage, place: Place | None = None, says: str = "") -> None:
        """Go to another step, and know where this one was left."""
        if here := self.where():
            self.ohmfolio.places[self.number, self.STEP] = here
        self.ohmfolio.open_step(self.number, step, place, says)

    def _arrive(self, place: Place) -> None:
        self.go_to(place)
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
        place = self.where()
        note = json.dumps({"step": self.STEP.value, "place": place.model_dump(exclude_defaults=True) if place else {}})
        try:
            self.ohmfolio.desk.log.save_position(self.number, note, who=self.ohmfolio.desk.who)
        except JobLogError:
            return


def _after(reasons: tuple[Reason, ...], here: Place | None) -> Reason:
    places = [reason.place for reason in reasons]
    at = places.index(here) + 1 if here in places else 0
    # Two reasons may stand at one place; the next one is somewhere else.
    return next((reason for reason in (*reasons[at:], *reasons[:at]) if reason.place != here), reasons[0])


def read_note(note: str) -> tuple[JobPage, Place | None]:
    """The step and place a job was left at, from what `remember` kept; the first step when it cannot be read."""
    try:
        kept = json.loads(note)
        return JobPage(kept["step"]), Place.model_validate(kept["place"]) if kept["place"] else None
    except (ValueError, KeyError, TypeError, ValidationError):
        return JobPage.DETAILS, None
