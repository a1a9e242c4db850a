"""The coach over a question, where there is no room beside it."""

from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import ModalScreen, Screen

from domain.coach.entry import entry_for
from tui.keys import bindings, keys_at
from tui.screens.explained import dangers_at_hand, explained, lifted_at
from tui.widgets.coach_panel import coach_paragraphs, lifting_paragraphs
from tui.widgets.foot import KeyLine
from tui.widgets.text_page import Paragraph, ReadingPage
from tui.widgets.too_small import TooSmall


class CoachScreen(ModalScreen[None]):
    """Explains what the question is about, and goes back to it with nothing lost."""

    BINDINGS: ClassVar[list[BindingType]] = bindings("coach-close")
    DEFAULT_CSS = """
    CoachScreen { background: ansi_default; }
    CoachScreen > ReadingPage { height: 1fr; padding: 0 1; }
    """

    def __init__(self, over: list[Screen[Any]]) -> None:
        super().__init__()
        topics = next((found for screen in reversed(over) if (found := getattr(screen, "topics", ()))), ())
        entry = entry_for(topics)
        lifts = next((found for screen in reversed(over) if (found := lifted_at(screen))), ())
        dangers = next((found for screen in reversed(over) if (found := dangers_at_hand(screen))), ())
        told = tuple(coach_paragraphs(entry, dangers)) if entry else (Paragraph(explained(over[-1])),)
        self._paragraphs = (*told, *lifting_paragraphs(lifts))

    def compose(self) -> ComposeResult:
        yield ReadingPage()
        yield KeyLine()
        yield TooSmall()

    def on_mount(self) -> None:
        """Show it."""
        self.query_one(ReadingPage).show(self._paragraphs)
        self.query_one(KeyLine).show_keys([key for key, _ in keys_at(self)])

    def action_close(self) -> None:
        """Back to the question."""
        self.dismiss(None)
