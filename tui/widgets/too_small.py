"""A sentence over the whole screen while the window is too small to work in."""

from typing import ClassVar

from rich.text import Text
from textual.widgets import Static


class TooSmall(Static):
    """Covers the screen below 80x24; what is under it keeps the focus and what was typed."""

    DEFAULT_CSS = """
    TooSmall { display: none; layer: notice; dock: top; width: 100%; height: 100%; background: ansi_default; }
    .-narrow TooSmall, .-low TooSmall { display: block; }
    """
    WIDTHS: ClassVar[list[tuple[int, str]]] = [(0, "-narrow"), (80, "-wide"), (124, "-broad")]
    HEIGHTS: ClassVar[list[tuple[int, str]]] = [(0, "-low"), (24, "-high")]

    def render(self) -> Text:
        return Text("This window is too small. Make it 80 columns by 24 lines or larger; nothing is lost meanwhile.")
