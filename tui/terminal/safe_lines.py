"""Every line of every screen, made safe for the terminal on its way there."""

from rich.segment import Segment
from textual.color import Color
from textual.filter import LineFilter

from tui.terminal.safe_text import safe_text


class SafeLines(LineFilter):
    """Has each line pass through `safe_text`."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        """The same segments; those that hold what a terminal obeys without it."""
        del background
        if all(segment.text.isprintable() for segment in segments):
            return segments
        return [
            segment if segment.control else segment._replace(text=safe_text(segment.text, written_out=False))
            for segment in segments
        ]
