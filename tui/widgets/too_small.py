"""A sentence over the whole screen while the window is too small to work in."""

from typing import ClassVar

from rich.text import Text
from textual.widget import Widget

from tui.keys import key_name
from tui.widgets.wrapping import wrapped

_TOO_SMALL = "This window is too small. Make it 80 columns by 24 lines or larger; nothing is lost meanwhile."
_SAYS = (
    f"{_TOO_SMALL} No key acts here but {key_name('leave')}, which leaves.",
    _TOO_SMALL,
    "Too small. Make it 80x24.",
)
"""The longest that fits is said."""


class TooSmall(Widget):
    """Covers the screen below 80x24; what is under it keeps the focus and what was typed, and takes no keys."""

    DEFAULT_CSS = """
    TooSmall { display: none; layer: notice; dock: top; width: 100%; height: 100%; background: ansi_default; }
    .-narrow TooSmall, .-low TooSmall { display: block; }
    """
    WIDTHS: ClassVar[list[tuple[int, str]]] = [(0, "-narrow"), (80, "-wide"), (124, "-broad")]
    HEIGHTS: ClassVar[list[tuple[int, str]]] = [(0, "-low"), (24, "-high"), (32, "-tall")]

    @classmethod
    def covers(cls, width: int, height: int) -> bool:
        """A window of this size is covered; keys would act unseen."""
        return width < cls.WIDTHS[1][0] or height < cls.HEIGHTS[1][0]

    def render(self) -> Text:
        width, height = self.size
        lines = next((lines for text in _SAYS if len(lines := _lines(text, width)) <= height), _lines(_SAYS[-1], width))
        return Text("\n".join(lines))


def _lines(text: str, width: int) -> list[str]:
    return [text[start:end] for start, end in wrapped(text, width)]
