"""Paints again only those lines of a widget that look different from before."""

from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget


def lines_in_sight(widget: Widget) -> list[Strip]:
    """What every line of a line-drawn widget shows now."""
    return [widget.render_line(y) for y in range(widget.size.height)]


def repaint_changed(widget: Widget, before: list[Strip]) -> None:
    """Paint the lines that differ from `before`; all of them where the height is not settled."""
    if widget.styles.is_auto_height or not before:
        widget.refresh(layout=widget.styles.is_auto_height)
        return
    for y, (then, now) in enumerate(zip(before, lines_in_sight(widget), strict=True)):
        if then != now:
            widget.refresh(Region(0, y, widget.outer_size.width, 1))
