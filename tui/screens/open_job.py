"""A job that is open: as the log holds it, the one way to change it, and what others do to it meanwhile."""

from collections.abc import Callable
from typing import ClassVar

from textual.reactive import var

from domain.editing.commands import Command, Declined, Enter
from domain.editing.undo import UndoStep
from domain.gate.assessment import JobAssessment
from domain.job.job import Job
from domain.job.signature import shown_signed
from domain.log.job_log import JobLogError
from domain.place import Place
from tui.screens.concurrent_edits import Others, told
from tui.screens.page import Page
from tui.screens.trail import TrailScreen


class OpenJob(Page):
    """Keeps the job on the screen and the job in the log the same."""

    HEARS_EVERY: ClassVar[float] = 1.0
    """Seconds between looks at what others did."""

    job: var[Job | None] = var(None)
    """The job as the log holds it."""

    def __init__(self, number: str) -> None:
        super().__init__()
        self.number = number
        self.stands: JobAssessment | None = None
        self._others: Others | None = None
        self.has_worked = False
        """Something was changed from here."""
        self.heard = False
        """The last edit brought something to light that others did."""
        self._entry_waits = False
        self._unsaved: tuple[Command, ...] = ()
        """What the log could not take, to be given to it again."""

    def take(self, job: Job) -> None:
        """Show a job that came from the log."""
        raise NotImplementedError

    def stepped_at(self, place: Place) -> None:
        """An undo or redo changed a place; go there if it is in sight from here."""

    def note_saved(self, time: str) -> None:
        """Show when the last edit was saved."""

    def commit_open_entry(self) -> bool:
        """Save what is being typed, before the screen goes; False when that failed and it is still open."""
        waiting, self._unsaved = self._unsaved, ()
        saved = [self.do(command) for command in waiting]
        return all(saved)

    @property
    def typing(self) -> Place | None:
        """The box that is being typed into."""
        return None

    def begin_to_hear(self) -> Job | None:
        """The job as it stands; from now on what others do to it is heard of."""
        log = self.ohmfolio.desk.log
        self._others = Others(log, self.number)
        self.set_interval(self.HEARS_EVERY, self.hear)
        return log.load(self.number)

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

    def do(self, command: Command, phrase: str = "") -> bool:
        """Change the job: saved first, then shown. False, with the reason said, when it could not be. A `phrase` is to sign with."""
        desk = self.ohmfolio.desk
        try:
            changed = desk.log.edit(self.number, command, who=desk.who, at=desk.now(), phrase=phrase)
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
        lifted = shown_signed(self.job.signatures) if self.job and not changed.signatures else ""
        self.has_worked = True
        self.take(changed)
        self.note_saved(f"{desk.now():%H:%M}")
        self.say(f"Signatures lifted: {lifted}" if lifted else "")
        self.heard = self._show_others(kept=True)
        return True

    def action_undo(self) -> None:
        """Take back what this person did last."""
        self._step(self.ohmfolio.desk.log.undo)

    def action_redo(self) -> None:
        """Do again what was taken back last."""
        self._step(self.ohmfolio.desk.log.redo)

    def _step(self, take: Callable[..., UndoStep | Declined]) -> None:
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
        self.stepped_at(step.place)
        self.say(step.says)

    def action_trail(self) -> None:
        """Who changed what, and when."""
        if self.commit_open_entry():
            self.ohmfolio.push_screen(TrailScreen(self.number))
