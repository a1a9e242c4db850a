"""What every full screen has: the desk, one line to say something, and its keys in the foot line."""

from collections.abc import Callable
from typing import TYPE_CHECKING, ClassVar, TypeVar, cast

from textual.app import ComposeResult
from textual.screen import ModalScreen, Screen

from tui.keys import keys_at
from tui.screens.ask import ConfirmScreen
from tui.widgets.foot import KeyLine, SayLine
from tui.widgets.too_small import TooSmall

if TYPE_CHECKING:
    from tui.app import OhmfolioApp


Answer = TypeVar("Answer")


class Page(Screen[None]):
    """A full screen. Subclasses compose what stands above the two foot lines."""

    EXPLAINS: ClassVar[str] = ""
    """What this screen is for, in a few sentences; F1 shows it with the keys."""
    DEFAULT_CSS = "Page { layout: vertical; layers: default notice; } Page > .step { height: 1fr; }"

    @property
    def ohmfolio(self) -> "OhmfolioApp":
        """The app, by its own type."""
        return cast("OhmfolioApp", self.app)  # pyright: ignore[reportUnknownMemberType]

    def compose(self) -> ComposeResult:
        yield from self.compose_page()
        yield SayLine()
        yield KeyLine()
        yield TooSmall()

    def compose_page(self) -> ComposeResult:
        """What stands above the foot lines."""
        raise NotImplementedError

    def say(self, sentence: str, *, bad: bool = False) -> None:
        """Tell the person something, on the line above the keys."""
        self.query_one(SayLine).say(sentence, bad=bad)

    def show_keys(self) -> None:
        """List the keys of this screen and of the widget that has the focus in the foot line."""
        self.query_one(KeyLine).show_keys([key for key, _ in keys_at(self)])

    def on_descendant_focus(self) -> None:
        """Other keys work on another widget."""
        self.show_keys()

    def ask(self, question: ModalScreen[Answer | None], then: Callable[[Answer], object]) -> None:
        """Put a question; `then` gets the answer, if there is one."""

        def take(answer: Answer | None) -> None:
            if answer is not None:
                then(answer)

        self.ohmfolio.push_screen(question, take)

    def confirm(self, question: ConfirmScreen, then: Callable[[], object]) -> None:
        """Put a yes-or-no question; `then` is called on yes."""

        def take(yes: bool | None) -> None:  # noqa: FBT001 - the framework hands the answer over
            if yes:
                then()

        self.ohmfolio.push_screen(question, take)
