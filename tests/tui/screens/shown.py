"""What a screen shows, as lines of text."""

from typing import Any

from textual.app import App


def lines_of(app: App[Any]) -> list[str]:
    """The rows of the terminal, as a person reads them."""
    width, height = app.size
    rows = app.screen._compositor.render_strips()  # the picture the driver gets
    return ["".join(segment.text for segment in row)[:width] for row in rows[:height]]


def text_of(app: App[Any]) -> str:
    """The whole screen as one text."""
    return "\n".join(line.rstrip() for line in lines_of(app))
