"""A job that is open: as the log holds it, how it stands, the one way to change it, and what others do to it meanwhile."""

from collections.abc import Callable
from contextlib import suppress
from typing import Protocol, TypeVar
from uuid import uuid4

from textual.screen import ModalScreen

from domain.editing.commands import Command, Declined, Enter
from domain.editing.reducer import apply
from domain.editing.undo import UndoStep
from domain.gate.assessment import JobAssessment, assess
from domain.job.job import Job
from domain.job.signature import shown_signed
from domain.log.job_log import BusyError, JobLogError, LogGoneError, NotWritableError
from domain.place import Place
from domain.register.entries import Person
from tui.keys import key_name
from tui.screens.concurrent_edits import Others, told
from tui.screens.copy_elsewhere import offer_copy
from tui.services import Services

Answer = TypeVar("Answer")


class Onlooker(Protocol):
    """The screen a job is open on."""

    @property
    def typing(self) -> Place | None:
        """The box that is being typed into."""
        ...

    def commit_open_entry(self) -> bool:
        """Save what is being typed, and what could not be saved before; False when that failed."""
        ...

    def show_session(self) -> None:
        """The job is another one now; show it."""
        ...

    @property
    def bar(self) -> "SavedSign":
        """Where it stands whether all is saved."""
        ...

    def say(self, sentence: str, *, bad: bool = False) -> None:
        """Tell the person something."""
        ...

    def show_unheard(self) -> None:
        """Say quietly what is not at the office."""
        ...

    def ask(self, question: ModalScreen[Answer | None], then: Callable[[Answer], object]) -> None:
        """Put a question; `then` gets the answer, if there is one."""
        ...


class SavedSign(Protocol):
    """What shows at a glance whether all that was typed is kept."""

    def saved_at(self, time: str) -> None:
        """An edit was saved at a time of day, and nothing else waits."""
        ...

    def wait_for_log(self, says: str) -> None:
        """Something waits for the log to take it; "" once nothing does any more."""
        ...


def why_closed(job: Job | None) -> str:
    """Why nothing can be typed into a job; "" where something can."""
    if job is None or job.issued:
        return "It has been issued; a correction is a new document that replaces this one"
    if job.laid_aside:
        return f"It is laid aside; {key_name('issue')}, then {key_name('lay-aside')}, takes it up again"
    return ""


class JobSession:
    """Keeps the job on the screen and the job in the log the same. Saved first, shown after."""

    HEARS_EVERY: float = 1.0
    """Seconds between looks at what others did."""
    PAUSES = 15
    """So many looks are left out after a log that another program held was waited for, since waiting holds up the keys, and
    after one that was gone or its disk full, so that what was said of it stays to be read."""

    def __init__(self, services: Services, number: str, onlooker: Onlooker, begun: Job | None = None) -> None:
        """`begun` is a job that the log does not hold yet: without a number until the first entry."""
        self.services = services
        self.number = number
        self._begun = begun
        self._op = uuid4().hex if begun else ""
        self.job: Job | None = None
        """The job as the log holds it; None until it is loaded."""
        self.assessment: JobAssessment | None = None
        self.has_worked = False
        """Something was changed from here."""
        self.out = ""
        """Where the job is, in a firm with laptops."""
        self.heard = False
        """The last edit brought something to light that others did."""
        self._onlooker = onlooker
        self._others: Others | None = None
        self._entry: Enter | None = None
        """The text that the log could not take last; it stays open where it was typed."""
        self._entry_waits = False
        self._tries_again = False
        self._pause = 0
        self._unsaved: tuple[Command, ...] = ()
        """What else the log could not take, to be given to it again."""
        self.trouble = ""
        """Why it could not."""

    @property
    def begun(self) -> Job | None:
        """The job, while the log does not hold it."""
        return None if self.number else self._begun

    def begin(self) -> bool:
        """Load the job; from now on what others do to it is heard of. False where the log does not hold it."""
        if self.begun:
            self.take(self.begun)
            return True
        self._others = Others(self.services.log, self.number)
        loaded = self.services.log.load(self.number)
        if loaded is not None:
            self.take(loaded)
        return loaded is not None

    def give_number(self) -> None:
        """Have the log hold the job, which gives it its number; nothing where it does already. Raises what the log raises."""
        if job := self.begun:
            kept = self.services.log.create(job, who=self.services.who, at=self.services.now(), op=self._op)
            self.number = kept.number
            self._others = Others(self.services.log, self.number)
            self.take(kept)

    def why_out(self) -> str:
        """Why nobody may change the job here: it is out with somebody else; "" where one may.

        A log that does not answer just now is no reason: what is typed waits for it, and it is asked again as it is kept.
        """
        try:
            firm = self.services.log.firm if self.number else None
            return firm.why_not_here(self.number) if firm else ""
        except JobLogError:
            return ""

    def take(self, job: Job) -> None:
        """Show a job that came from the log."""
        with suppress(JobLogError):
            firm = self.services.log.firm if self.number else None
            self.out = firm.sign(self.number, at=self.services.now()) if firm else ""
        self.assessment = assess(job, self.signers_of(job))
        self.job = job
        self._onlooker.show_session()

    def signers_of(self, job: Job) -> tuple[Person, ...]:
        """Those of the register of people who signed. What the log cannot say now, it says when the paper is issued."""
        try:
            return self.services.log.people_named(job.signers) if job.signers else ()
        except JobLogError:
            return ()

    def save_waiting(self) -> bool:
        """Give the log once more what it could not take; False when it still cannot."""
        waiting, self._unsaved = self._unsaved, ()
        saved = [self.do(command) for command in waiting]
        return all(saved)

    def hear(self) -> None:
        """Save what could not be saved before, and show what somebody else did meanwhile."""
        if self.job is None:
            return
        if self._pause:
            self._pause -= 1
            return
        waits = bool(self._unsaved) or (self._entry_waits and self._onlooker.typing is not None)
        self._entry_waits = False
        self._tries_again = True
        if waits and self._onlooker.commit_open_entry():
            self._onlooker.say("Saved now")
        self._tries_again = False
        self._show_others()

    @property
    def entry_waits(self) -> bool:
        """A text stays open because the log could not take it."""
        return self._entry_waits

    @property
    def waits(self) -> bool:
        """Something waits for the log to take it: a text that stays open, or what was done by a key."""
        return self._entry_waits or bool(self._unsaved)

    @property
    def tries_again(self) -> bool:
        """What could not be saved is tried again without anybody having asked."""
        return self._tries_again

    def let_entry_be(self, *, is_open: bool) -> None:
        """What could not be saved is typed on, or was given back where no entry `is_open`: only another Enter keeps it."""
        self._entry_waits = False
        if self._entry and not is_open:
            self._entry = None
            self._show_waiting()

    def as_typed(self) -> Job | None:
        """The job with all that the log could not take, as far as it can stand in it."""
        job = self.job
        for command in (*self._unsaved, *filter(None, (self._entry,))):
            changed = apply(job, command) if job else None
            job = job if changed is None or isinstance(changed, Declined) else changed
        return job

    def _show_waiting(self) -> None:
        says = f"NOT SAVED, {key_name('page-enter')} tries again" if self._entry else "NOT SAVED yet"
        self._onlooker.bar.wait_for_log(says if self._entry or self._unsaved else "")

    def do(self, command: Command, phrase: str = "") -> bool:
        """Change the job: saved first, then shown. False, with the reason said, when it could not be. A `phrase` is to sign with."""
        services = self.services
        try:
            self.give_number()
            changed = services.log.edit(self.number, command, who=services.who, at=services.now(), phrase=phrase)
        except JobLogError as error:
            # A text stays open where it was typed; all else is kept here until the log takes it.
            # A mark set by a key, or taken from the row above, is open nowhere.
            is_open = isinstance(command, Enter) and self._onlooker.typing == command.place
            self._entry = command if isinstance(command, Enter) and is_open else self._entry
            self._entry_waits = is_open
            self._unsaved += () if self._entry_waits else (command,)
            self.trouble = str(error)
            self._pause = self.PAUSES if isinstance(error, BusyError | LogGoneError | NotWritableError) else 0
            self._show_waiting()
            self._onlooker.say(f"Not saved. {error}", bad=True)
            if isinstance(error, LogGoneError | NotWritableError) and not self._tries_again:
                offer_copy(self, self._onlooker)
            return False
        if isinstance(changed, Declined):
            self._show_others()
            self._onlooker.say(changed.says, bad=True)
            return False
        lifted = shown_signed(self.job.signatures) if self.job and not changed.signatures else ""
        self.has_worked = True
        self.take(changed)
        self._entry = None if isinstance(command, Enter) else self._entry
        self._onlooker.bar.saved_at(f"{services.now():%H:%M}")
        self._onlooker.show_unheard()
        self._show_waiting()
        self._onlooker.say(f"Signatures lifted: {lifted}" if lifted else "")
        self.heard = self._show_others(kept=True)
        return True

    def undo(self) -> Place | None:
        """Take back what this person did last; the place it was about, None where nothing was taken back."""
        return self._step(self.services.log.undo)

    def redo(self) -> Place | None:
        """Do again what was taken back last."""
        return self._step(self.services.log.redo)

    def _step(self, take: Callable[..., UndoStep | Declined]) -> Place | None:
        if self.begun:
            self._onlooker.say("Nothing has been typed into this job yet")
            return None
        try:
            step = take(self.number, who=self.services.who, at=self.services.now())
        except JobLogError as error:
            self._onlooker.say(str(error), bad=True)
            return None
        if isinstance(step, Declined):
            self._onlooker.say(step.says, bad=True)
            return None
        lifted = shown_signed(self.job.signatures) if self.job and not step.job.signatures else ""
        self.take(step.job)
        self._onlooker.say(f"{step.says}. Signatures lifted: {lifted}" if lifted else step.says)
        return step.place

    def _show_others(self, *, kept: bool = False) -> bool:
        who = self.services.who
        try:
            lines = self._others.news() if self._others else ()
            fresh = self.services.log.load(self.number) if lines else None
        except JobLogError as error:
            self._onlooker.say(str(error), bad=True)
            return False
        if fresh is None or (fresh == self.job and all(line.who == who for line in lines)):
            return False
        typing = self._onlooker.typing
        if fresh != self.job:
            self.take(fresh)
        self._onlooker.say(told(lines, who, typing, kept=kept))
        return True
