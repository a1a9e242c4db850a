"""What all steps of a job share: the job, the one way to change it, and the way from step to step."""

import json
from collections.abc import Callable
from typing import ClassVar

from pydantic import ValidationError
from textual.app import ComposeResult
from textual.reactive import var

from domain.commands import Command, Declined, Enter
from domain.gate import Hold, Reason, Standing, standing
from domain.job import Job
from domain.job_log import JobLogError
from domain.place import Place
from domain.stepping import Step as Stepped
from tui.keys import bindings
from tui.screens.others import Others, told
from tui.screens.page import Page
from tui.screens.trail import TrailScreen
from tui.steps import Step, step_of
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
    "undo",
    "redo",
    "trail",
    "next-open",
    "leave",
)


class JobScreen(Page):
    """One step of one job. Subclasses compose their own part and show the job when it changes."""

    STEP: ClassVar[Step]
    BINDINGS = JOB_KEYS
    HEARS_EVERY: ClassVar[float] = 1.0
    """Seconds between looks at what others did."""

    job: var[Job | None] = var(None)
    """The job as the log holds it."""

    def __init__(self, number: str, place: Place | None = None) -> None:
        super().__init__()
        self.number = number
        self.place = place
        self.stands: Standing | None = None
        self._sent_to: Place | None = None
        self._landed: Place | None = None
        self._others: Others | None = None
        self.heard = False
        """The last edit brought something to light that others did."""
        self._entry_waits = False
        self._unsaved: tuple[Command, ...] = ()
        """What the log could not take, to be given to it again."""

    def compose_page(self) -> ComposeResult:
        """Job bar, and the step's own part."""
        yield JobBar()
        yield from self.compose_step()

    def compose_step(self) -> ComposeResult:
        """The step's own widgets; the main one carries the class `step`."""
        raise NotImplementedError

    def show_job(self, job: Job, stands: Standing) -> None:
        """Bring the step's own widgets up to date. Called after every change."""
        raise NotImplementedError

    def go_to(self, place: Place) -> None:
        """Put the cursor on a place of this step."""

    def where(self) -> Place | None:
        """The place the cursor is on, to come back to."""
        return None

    def commit_open_entry(self) -> bool:
        """Save what is being typed, before the screen goes; False when that failed and it is still open."""
        waiting, self._unsaved = self._unsaved, ()
        saved = [self.do(command) for command in waiting]
        return all(saved)

    @property
    def typing(self) -> Place | None:
        """The box that is being typed into."""
        return None

    def on_mount(self) -> None:
        """Load the job and go where the person was sent."""
        log = self.ohmfolio.desk.log
        try:
            self._others = Others(log, self.number)
            loaded = log.load(self.number)
            trouble = f"{self.number} is no longer in the log"
        except JobLogError as error:
            loaded, trouble = None, str(error)
        if loaded is None:
            self.ohmfolio.turn_back(trouble)
            return
        self.query_one(JobBar).step = self.STEP
        self.take(loaded)
        self.show_keys()
        if self.place is not None:
            self.call_after_refresh(self._arrive, self.place)
        self.call_after_refresh(self.note_place)
        self.set_interval(self.HEARS_EVERY, self.hear)

    def hear(self) -> None:
        """Save what could not be saved before, and show what somebody else did meanwhile."""
        if self.is_current and self.job is not None:
            waits = bool(self._unsaved) or (self._entry_waits and self.typing is not None)
            self._entry_waits = False
            if waits and self.commit_open_entry():
                self.say("Saved now")
            self._show_others()

    def _show_others(self, *, kept: bool = False) -> bool:
        try:
            lines = self._others.news() if self._others else ()
            fresh = self.ohmfolio.desk.log.load(self.number) if lines else None
        except JobLogError as error:
            self.say(str(error), bad=True)
            return False
        if fresh is None or (fresh == self.job and all(line.who == self.ohmfolio.desk.who for line in lines)):
            return False
        typing = self.typing
        if fresh != self.job:
            self.take(fresh)
        self.say(told(lines, self.ohmfolio.desk.who, typing, kept=kept))
        return True

    def take(self, job: Job) -> None:
        """Show a job that came from the log."""
        self.stands = standing(job)
        bar = self.query_one(JobBar)
        bar.job, bar.standing = job, self.stands
        self.job = job
        self.show_job(job, self.stands)

    def do(self, command: Command) -> bool:
        """Change the job: saved first, then shown. False, with the reason said, when it could not be."""
        desk = self.ohmfolio.desk
        try:
            changed = desk.log.edit(self.number, command, who=desk.who, at=desk.now())
        except JobLogError as error:
            # A text stays open where it was typed; all else is kept here until the log takes it.
            self._entry_waits = isinstance(command, Enter)
            self._unsaved += () if self._entry_waits else (command,)
            self.say(f"Not saved. {error}", bad=True)
            return False
        if isinstance(changed, Declined):
            self._show_others()
            self.say(changed.says, bad=True)
            return False
        lifted = bool(self.job and self.job.signatures and not changed.signatures)
        self.take(changed)
        self.query_one(JobBar).saved = f"{desk.now():%H:%M}"
        self.say("Signatures lifted: the job changed after it was signed." if lifted else "")
        self.heard = self._show_others(kept=True)
        return True

    def may_type(self) -> bool:
        """An issued job cannot be typed into."""
        if self.job is None or self.job.issued:
            self.say("It has been issued; a correction is a new document that replaces this one", bad=True)
            return False
        return True

    def action_undo(self) -> None:
        """Take back what this person did last."""
        self._step(self.ohmfolio.desk.log.undo)

    def action_redo(self) -> None:
        """Do again what was taken back last."""
        self._step(self.ohmfolio.desk.log.redo)

    def _step(self, take: Callable[..., Stepped | Declined]) -> None:
        if not self.commit_open_entry():
            return
        desk = self.ohmfolio.desk
        try:
            step = take(self.number, who=desk.who, at=desk.now())
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        if isinstance(step, Declined):
            self.say(step.says, bad=True)
            return
        self.take(step.job)
        if step_of(step.place) is self.STEP:
            self.go_to(step.place)
        self.say(step.says)

    def action_trail(self) -> None:
        """Who changed what, and when."""
        if self.commit_open_entry():
            self.ohmfolio.push_screen(TrailScreen(self.number))

    def action_step(self, step: str) -> None:
        """Go to another step of the job."""
        if step == Step.INSPECTION and self.job and not self.job.form_set.has_schedules:
            self.say("Minor works carries no inspection schedule")
            return
        if step != self.STEP and self.commit_open_entry():
            self.ohmfolio.open_step(self.number, Step(step))

    def action_back(self) -> None:
        """Back to the list of jobs."""
        if self.commit_open_entry():
            self.ohmfolio.pop_screen()

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
        if reason.kind is Hold.QUESTION and self.STEP is not Step.REVIEW:
            self.ohmfolio.open_step(self.number, Step.REVIEW, reason.place, says)
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
        else:
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
            self.ohmfolio.desk.log.remember(self.number, note, who=self.ohmfolio.desk.who)
        except JobLogError:
            return


def _after(reasons: tuple[Reason, ...], here: Place | None) -> Reason:
    places = [reason.place for reason in reasons]
    at = places.index(here) + 1 if here in places else 0
    # Two reasons may stand at one place; the next one is somewhere else.
    return next((reason for reason in (*reasons[at:], *reasons[:at]) if reason.place != here), reasons[0])


def read_note(note: str) -> tuple[Step, Place | None]:
    """The step and place a job was left at, from what `remember` kept; the first step when it cannot be read."""
    try:
        kept = json.loads(note)
        return Step(kept["step"]), Place.model_validate(kept["place"]) if kept["place"] else None
    except (ValueError, KeyError, TypeError, ValidationError):
        return Step.DETAILS, None
