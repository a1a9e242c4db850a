"""One step of a job: the part of the screen that is the step's own, and what it may ask of the screen around it."""

from collections.abc import Callable, Mapping
from typing import ClassVar, Protocol, TypeVar

from textual.screen import ModalScreen
from textual.widget import Widget

from domain.checks.shared.lifting import what_lifts
from domain.coach.danger import Danger, dangers_at
from domain.editing.commands import Command
from domain.gate.reason import Reason
from domain.job.job import Job
from domain.log.half_typed import HalfTyped
from domain.place import Place
from tui.app import OhmfolioApp
from tui.job_page import JobPage, step_of
from tui.screens.dialogs import ConfirmScreen, FormScreen
from tui.screens.job_session import JobSession
from tui.widgets.box_panel import Line
from tui.widgets.box_view import is_same

Answer = TypeVar("Answer")


class StepHost(Protocol):
    """The screen that a step stands on."""

    @property
    def ohmfolio(self) -> OhmfolioApp:
        """The program."""
        ...

    def say(self, sentence: str, *, bad: bool = False) -> None:
        """Tell the person something, on the line above the keys."""
        ...

    def let_go(self) -> None:
        """Take away what was said of an earlier key, unless it is about what is wrong."""
        ...

    def ask(self, question: ModalScreen[Answer | None], then: Callable[[Answer], object]) -> None:
        """Put a question; `then` gets the answer, if there is one."""
        ...

    def ask_named(
        self,
        form: FormScreen,
        command: Callable[[Mapping[str, str]], Command],
        then: Callable[[], object] | None = None,
    ) -> None:
        """Ask for what is given with a name, and do it."""
        ...

    def confirm(self, question: ConfirmScreen, then: Callable[[], object]) -> None:
        """Put a yes-or-no question; `then` is called on yes."""
        ...

    def may_type(self) -> bool:
        """The job can still be changed; says why where it cannot."""
        ...

    def commit_open_entry(self) -> bool:
        """Save what is being typed; False when that failed and it is still open."""
        ...

    def visit(self, place: Place, says: str = "") -> None:
        """Go to a place of this job, on whatever step it is."""
        ...

    def visit_reason(self, reason: Reason, says: str) -> None:
        """Go where what keeps the job back is mended."""
        ...

    def show_keys(self) -> None:
        """List the keys that work now."""
        ...

    def show_coach(self) -> None:
        """Have the coach speak of what is under the cursor."""
        ...


class JobStep(Widget):
    """The widgets of a step. The main one carries the class `step`; `show_job` is called after every change."""

    PAGE: ClassVar[JobPage]
    """Which step it is."""
    EXPLAINS: ClassVar[str] = ""
    """What the step is for, in a few sentences; F1 shows it with the keys."""
    DEFAULT_CSS = """
    JobStep { height: 1fr; layout: vertical; }
    JobStep > .step { height: 1fr; }
    """

    def __init__(self, session: JobSession, host: StepHost) -> None:
        super().__init__()
        self.session = session
        self.host = host

    @property
    def page(self) -> JobPage:
        """Which step it is."""
        return self.PAGE

    @property
    def explains(self) -> str:
        """What the step is for."""
        return self.EXPLAINS

    @property
    def job(self) -> Job | None:
        """The job as the log holds it."""
        return self.session.job

    def do(self, command: Command) -> bool:
        """Change the job: saved first, then shown. False, with the reason said, when it could not be."""
        return self.session.do(command)

    def say(self, sentence: str, *, bad: bool = False) -> None:
        """Tell the person something."""
        self.host.say(sentence, bad=bad)

    def show_job(self) -> None:
        """Bring the widgets up to date."""

    def expect(self, place: Place) -> None:
        """Somebody will be taken to a place: it is to be in sight when the job is shown first."""

    def begin(self, *, sent: bool) -> None:
        """The job is shown for the first time; `sent` where somebody will be taken to a place of it."""

    def resume(self) -> None:
        """Somebody comes to the step, or back to it."""

    def go_to(self, place: Place) -> None:
        """Put the cursor on a place of this step."""

    def where(self) -> Place | None:
        """The place the cursor is on, to come back to."""
        return None

    def commit_open_entry(self) -> bool:
        """Save what is being typed; False when that failed and it is still open."""
        return True

    def take_up(self, left: HalfTyped) -> None:
        """Go on with what was being typed when the program ended: never kept, so it stands nowhere but here."""
        if left.place is None:
            self.say(f"The line dropped in a question: {left.question}. Asked again, it stands there as typed")
        elif step_of(left.place) is self.page:
            self.reopen(left)

    def reopen(self, left: HalfTyped) -> None:
        """Open the box that was being typed into, as it was."""

    @property
    def typing(self) -> Place | None:
        """The box that is being typed into."""
        return None

    @property
    def told_here(self) -> tuple[Line, ...]:
        """All there is to say of what is under the cursor, however long, for the help."""
        return ()

    @property
    def lifts_here(self) -> tuple[str, ...]:
        """What lifts the questions of the box or line under the cursor, a sentence each."""
        place, assessment = self.where(), self.session.assessment
        if place is None or assessment is None:
            return ()
        here = (each for each in assessment.findings if any(_is_at(place, other) for other in each.places))
        return tuple(dict.fromkeys(lifts for each in here if (lifts := what_lifts(each))))

    @property
    def dangers_here(self) -> tuple[Danger, ...]:
        """What can hurt people at the box under the cursor, in this job."""
        place, job = self.where(), self.job
        return dangers_at(job, place) if job and place else ()


def _is_at(place: Place, other: Place) -> bool:
    """The same box, or the same item."""
    return is_same(place, other) if place.box else place == other
