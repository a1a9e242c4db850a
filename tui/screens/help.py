"""What a screen is for, and every key that works on it."""

from collections.abc import Iterator
from typing import Any, ClassVar

from rich.style import Style
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import ModalScreen, Screen

from tui import theme
from tui.keys import Key, bindings, keys_at
from tui.screens.explained import explained, lifted_at
from tui.widgets.foot import NEXT, KeyLine
from tui.widgets.text_page import Paragraph, ReadingPage
from tui.widgets.too_small import TooSmall


class HelpScreen(ModalScreen[None]):
    """Explains the screen it was opened over."""

    EXPLAINS: ClassVar[str] = ""
    BINDINGS: ClassVar[list[BindingType]] = bindings("close")
    DEFAULT_CSS = """
    HelpScreen { background: ansi_default; }
    HelpScreen > ReadingPage { height: 1fr; padding: 0 1; }
    """

    def __init__(self, over: Screen[Any]) -> None:
        super().__init__()
        self.over = over

    def compose(self) -> ComposeResult:
        yield ReadingPage()
        yield KeyLine()
        yield TooSmall()

    def on_mount(self) -> None:
        """Read it from the one table of keys."""
        explains = explained(self.over)
        told: tuple[tuple[str, Style], ...] = getattr(self.over, "told_here", ())
        keys = [key for key, _ in keys_at(self.over)]
        lifts = tuple((text, theme.ASKS) for text in lifted_at(self.over))
        self.query_one(ReadingPage).show([*_told((*told, *lifts)), *_paragraphs(explains, keys)])
        self.query_one(KeyLine).show_keys([key for key, _ in keys_at(self)])

    def action_close(self) -> None:
        """Back to the screen below."""
        self.dismiss(None)


def _told(told: tuple[tuple[str, Style], ...]) -> Iterator[Paragraph]:
    """What is said of the box under the cursor, whole."""
    for text, style in told:
        yield Paragraph(text, style)
    if told:
        yield Paragraph()


def _paragraphs(explains: str, keys: list[Key]) -> Iterator[Paragraph]:
    yield Paragraph("What this screen is for", theme.HEAD)
    yield Paragraph(explains)
    yield Paragraph()
    yield Paragraph(f"Its keys; {NEXT} in the foot line stands before the one to press next", theme.HEAD)
    width = max((len(key.shown) for key in keys), default=0) + 2
    for key in keys:
        also = f" (also {', '.join(key.ways[1:])})" if len(key.ways) > 1 else ""
        yield Paragraph(f"{key.says}{also}", label=key.shown, label_width=width)
