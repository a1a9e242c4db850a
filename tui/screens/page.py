"""What every full screen has: the services, one line to say something, and its keys in the foot line."""

from collections.abc import Callable
from contextlib import suppress
from typing import TYPE_CHECKING, ClassVar, TypeVar, cast

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import ModalScreen, Screen

from domain.coach.entry import entry_for
from domain.log.job_log import JobLogError
from tui import theme
from tui.keys import bindings, keys_at
from tui.widgets.coach_panel import CoachPanel
from tui.widgets.foot import WAYS_OUT, KeyLine, SayLine
from tui.widgets.pick_list import PickList
from tui.widgets.too_small import TooSmall

if TYPE_CHECKING:
    from domain.coach.danger import Danger
    from domain.place import Place
    from tui.app import OhmfolioApp
    from tui.screens.dialogs import ConfirmScreen


Answer = TypeVar("Answer")


class Page(Screen[None]):
    """A full screen. Subclasses compose what stands above the two foot lines."""

    EXPLAINS: ClassVar[str] = ""
    """What this screen is for, in a few sentences; F1 shows it with the keys."""
    STAYS: ClassVar[tuple[str, ...]] = WAYS_OUT
    """Keys that never leave the foot line."""
    BINDINGS: ClassVar[list[BindingType]] = bindings("coach")
    DEFAULT_CSS = """
    Page { layout: vertical; }
    Page.-coached > CoachPanel { display: block; }
    Page.-coached.-wide > #about { height: 5; }
    Page.-coached.-broad > CoachPanel { dock: right; width: 44; height: 100%; border: none; border-left: solid ansi_default; }
    """

    _said_at = 0
    """How many keys had had their turn when something was said last."""

    @property
    def ohmfolio(self) -> "OhmfolioApp":
        """The app, by its own type."""
        return cast("OhmfolioApp", self.app)  # pyright: ignore[reportUnknownMemberType]

    @property
    def explains(self) -> str:
        """What this screen is for."""
        return self.EXPLAINS

    def compose(self) -> ComposeResult:
        yield from self.compose_page()
        yield CoachPanel()
        yield SayLine()
        yield KeyLine(self.STAYS)
        yield TooSmall()

    def compose_page(self) -> ComposeResult:
        """What stands above the foot lines."""
        raise NotImplementedError

    def say(self, sentence: str, *, bad: bool = False) -> None:
        """Tell the person something, on the line above the keys."""
        self.query_one(SayLine).say(sentence, bad=bad)
        self._said_at = self.ohmfolio.type_ahead.handed

    def let_go(self) -> None:
        """Somebody goes on to something else: what was said of an earlier key goes, unless it is about what is wrong."""
        said, bad = self.query_one(SayLine).said
        if (
            said
            and not bad
            and not said.startswith(theme.SIGN_ASKS)
            and self._said_at < self.ohmfolio.type_ahead.handed
        ):
            self.say("")

    @property
    def said(self) -> str:
        """What the line above the keys says now."""
        return self.query_one(SayLine).said[0]

    def show_keys(self) -> None:
        """List the keys of this screen and of the widget that has the focus in the foot line."""
        self.query_one(KeyLine).show_keys([key for key, _ in keys_at(self)])

    def on_descendant_focus(self) -> None:
        """Other keys work on another widget."""
        self.show_keys()

    @property
    def topics(self) -> tuple[str, ...]:
        """What the coach would explain here, the closest first."""
        return (f"screen.{type(self).__name__.removesuffix('Screen').casefold()}",)

    @property
    def lifts_here(self) -> tuple[str, ...]:
        """What lifts the questions of what is under the cursor, for help and coach."""
        return ()

    @property
    def dangers_here(self) -> "tuple[Danger, ...]":
        """What can hurt people at what is under the cursor, for the coach."""
        return ()

    def on_screen_resume(self) -> None:
        """The coach may have been opened or closed on another screen."""
        self.show_coach()
        self.show_unheard()

    def show_unheard(self) -> None:
        """Say quietly what of this laptop's work is not at the office, or what the office has to settle."""
        with suppress(JobLogError):
            services = self.ohmfolio.services
            if firm := services.log.firm:
                from domain.log.laptops import quiet_sign

                self.query_one(SayLine).quiet = quiet_sign(firm, services.now())

    @on(PickList.Moved)
    def show_coach(self) -> None:
        """Have the coach speak of what is under the cursor, if it is open."""
        is_open = self.ohmfolio.coaching.is_open
        self.set_class(is_open, "-coached")
        if is_open:
            panel = self.query_one(CoachPanel)
            panel.explain(entry_for(self.topics), self.explains, self.lifts_here, self.dangers_here)

    def action_coach(self) -> None:
        """Open or close the coach, here and on every screen after."""
        self.ohmfolio.coaching.turn()
        self.show_coach()

    @property
    def open_job(self) -> str:
        """The number of the job that is worked on here; "" where it is none."""
        return ""

    def commit_open_entry(self) -> bool:
        """Save what is being typed, before the screen goes; False when that failed and it is still open."""
        return True

    def save_waiting(self) -> bool:
        """Save what was kept but could not be saved; False when it still cannot."""
        return True

    def note_place(self) -> None:
        """Keep where the person is, so that the job opens there."""

    def visit(self, place: "Place", says: str = "") -> None:
        """Go to a place of the job that is open here."""

    def ask(self, question: ModalScreen[Answer | None], then: Callable[[Answer], object]) -> None:
        """Put a question; `then` gets the answer, if there is one."""

        def take(answer: Answer | None) -> None:
            if answer is not None:
                then(answer)

        self.ohmfolio.push_screen(question, take)

    def confirm(self, question: "ConfirmScreen", then: Callable[[], object]) -> None:
        """Put a yes-or-no question; `then` is called on yes."""

        def take(yes: bool | None) -> None:  # noqa: FBT001 - the framework hands the answer over
            if yes:
                then()

        self.ohmfolio.push_screen(question, take)
