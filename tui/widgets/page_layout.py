"""How the boxes of a page are set out in lines: label, dots, value, and a sign with its word where something is wrong."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import zip_longest

from rich.cells import cell_len
from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip

from tui import theme
from tui.widgets.box_view import BoxView
from tui.widgets.open_entry import OpenEntry, painted
from tui.widgets.wrapping import fitted, line_of, padded, wrapped

_LABEL_MOST = 42
"""Cells of a label, its blanks and the last dots: the longest fits a line of eighty."""
_SIGN_ROOM = 2
_EMPTY = 8
"""Cells the cursor takes on an empty box."""


@dataclass(frozen=True, slots=True)
class Part:
    """A heading and the boxes under it."""

    title: str
    boxes: tuple[BoxView, ...]


def heading_line(title: str, width: int) -> Strip:
    """The line above the boxes of a part, with a short rule on each side: a rule takes three bytes a cell."""
    return _line([Segment(f"── {fitted(title, max(width - 6, 1))} ──", theme.HEAD)], width)


def box_lines(view: BoxView, width: int, *, at: bool, entry: OpenEntry | None = None) -> list[Strip]:
    """The lines of one box; `at` when the cursor is on it."""
    if entry is None:
        return [*_lines_at_rest(view, width, at=at)]
    editor = entry.editor
    value = [painted(editor, start, end) for start, end in entry_spans(entry, width)]
    return _beside_label(view, width, value)


@lru_cache(maxsize=1024)
def _lines_at_rest(view: BoxView, width: int, *, at: bool) -> tuple[Strip, ...]:
    """Kept for the boxes seen last: most stay as they are from one layout of a page to the next."""
    room = _value_room(width)
    value = _at_rest(view, room, at=at)
    value[0] = [*value[0], *_remark(view, room, value[0])]
    return tuple(_beside_label(view, width, value))


def _beside_label(view: BoxView, width: int, value: Sequence[list[Segment]]) -> list[Strip]:
    label_width = _label_width(width)
    indent = [Segment(" " * label_width)]
    both = zip_longest(_label(view, label_width), value)
    return [_line([*(label or indent), *(shown or ())], width) for label, shown in both]


def entry_spans(entry: OpenEntry, width: int) -> list[tuple[int, int]]:
    """The lines of a text being typed, with room for the cursor behind it."""
    return wrapped(entry.editor.text, _value_room(width) - 1)


def entry_line(entry: OpenEntry, width: int) -> int:
    """The line of the box that the cursor in the text stands on."""
    return line_of(entry_spans(entry, width), entry.editor.cursor)


def _label_width(width: int) -> int:
    return min(_LABEL_MOST, width * 21 // 40)


def _value_room(width: int) -> int:
    return max(width - _label_width(width) - _SIGN_ROOM, 4)


def _label(view: BoxView, label_width: int) -> list[list[Segment]]:
    """The label whole, on as many lines as it needs; dots lead from its last line to where values begin."""
    style = theme.QUIET if view.optional else theme.PLAIN
    spans = wrapped(view.label, max(label_width - 3, 1))
    *before, last = [f" {' ' if row else ''}{view.label[start:end].strip()} " for row, (start, end) in enumerate(spans)]
    dots = "." * max(label_width - cell_len(last) - 1, 0) + " "
    ended = [
        Segment(fitted(last, label_width), style),
        *([Segment(dots, theme.QUIET)] if cell_len(last) < label_width else []),
    ]
    return [*([Segment(padded(line, label_width), style)] for line in before), ended]


def _at_rest(view: BoxView, room: int, *, at: bool) -> list[list[Segment]]:
    text = view.at_rest
    style = theme.CURSOR if at else _value_style(view)
    lines = [text[start:end] for start, end in wrapped(text, room)]
    if at and not text:
        lines = [" " * min(_EMPTY, room)]
    return [[Segment(line, style if row == 0 else _value_style(view))] for row, line in enumerate(lines)]


def _value_style(view: BoxView) -> Style:
    if not view.shown:
        return theme.QUIET
    return style_of(view.sign)


def style_of(sign: str) -> Style:
    """The style that goes with a sign."""
    return {theme.SIGN_FAILS: theme.FAILS, theme.SIGN_ASKS: theme.ASKS}.get(sign, theme.PLAIN)


def _remark(view: BoxView, room: int, value: list[Segment]) -> list[Segment]:
    if not view.sign:
        return []
    used = sum(segment.cell_length for segment in value)
    blank = " " if used else ""
    left = room + _SIGN_ROOM - used - len(blank)
    # How it is said yes to stands below for the box under the cursor; beside each it would be many bytes of the line.
    says = "put forward" if view.sign == theme.SIGN_PUT_FORWARD else view.says[0]
    return [Segment(f"{blank}{fitted(f'{view.sign} {says}', left)}", style_of(view.sign))]


def _line(segments: list[Segment], width: int) -> Strip:
    return Strip([segment for segment in segments if segment.text]).adjust_cell_length(width)
