"""Brings the terminal from the picture it shows to the picture that is wanted, with the fewest bytes."""

from tui.terminal.cursor_writer import CursorWriter
from tui.terminal.screen_buffer import BLANK, Picture, Row
from tui.terminal.scrolling import moved, scroll_between

_WORTH_ERASING = 5
"""Changed cells at the end of a row from which on erasing is shorter than blanks."""


def send_difference(pen: CursorWriter, shown: Picture, wanted: Picture) -> None:
    """Send what makes `shown` equal to `wanted`, and make it so."""
    scroll = scroll_between(shown, wanted)
    if scroll:
        pen.scroll(scroll.top, scroll.bottom, scroll.by, shown.height)
        moved(shown, scroll)
    for y, (old, new) in enumerate(zip(shown.rows, wanted.rows, strict=True)):
        if old != new:
            _send_row(pen, y, old, new)
            shown.rows[y] = new.copy()


def place_cursor(pen: CursorWriter, wanted: Picture) -> None:
    """Show the terminal's cursor on the cell marked for it, or hide it."""
    if wanted.cursor:
        x, y = wanted.cursor
        pen.go(x, y, wanted.rows[y], wanted.width)
    if pen.cursor_shown != bool(wanted.cursor):
        pen.cursor_shown = bool(wanted.cursor)
        pen.send("\x1b[?25h" if wanted.cursor else "\x1b[?25l")


def _send_row(pen: CursorWriter, y: int, old: Row, new: Row) -> None:
    width = len(new)
    changed = [x for x in range(width) if old[x] is not new[x] and old[x] != new[x]]
    filled = next((x + 1 for x in reversed(range(width)) if new[x] != BLANK), 0)
    tail = sum(x >= filled for x in changed)
    if tail < _WORTH_ERASING:
        filled = width
    sent_to = 0
    for x in changed:
        start = x - 1 if new[x][0] == "" else x
        if not sent_to <= start < filled:
            continue
        pen.go(start, y, new, width)
        pen.write(new[start], width)
        sent_to = start + 1
        if sent_to < width and new[sent_to][0] == "":
            sent_to += 1
    if filled < width:
        pen.go(max(filled, sent_to), y, new, width)
        pen.erase_rest()
