"""A few labelled lines to type into, drawn by line: the whole of a small question in one widget."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import ClassVar

from rich.cells import cell_len
from rich.segment import Segment
from textual import events
from textual.binding import BindingType
from textual.geometry import Size
from textual.message import Message
from textual.reactive import var
from textual.strip import Strip
from textual.widget import Widget

from domain.value import LINE_MAX
from tui import theme
from tui.keys import bindings
from tui.keys.editing import EDITING, Editing
from tui.widgets.line_editor import LineEditor
from tui.widgets.open_entry import painted
from tui.widgets.wrapping import line_of, wrapped


@dataclass(frozen=True, slots=True)
class EntryOption:
    """One answer of a line that is picked, not typed: its key, what it stands for, and what it means."""

    key: str
    value: str
    means: str = ""


@dataclass(frozen=True, slots=True)
class AskedLine:
    """One line of a question."""

    name: str
    label: str
    text: str = ""
    """What stands in it at first."""
    must: bool = False
    """Cannot be left empty."""
    options: tuple[EntryOption, ...] = ()
    """Picked with these; empty when the line is typed."""
    limit: int = LINE_MAX
    is_secret: bool = False
    """Shown as asterisks, and never kept."""
    when: Callable[[Mapping[str, str]], bool] | None = None
    """Only asked where this holds of what stands in the lines; else gone past."""

    @property
    def is_offered(self) -> bool:
        """Its text is put forward, and typing takes its place; running text is gone on with instead."""
        return bool(self.text) and not self.options and self.limit <= LINE_MAX


_EMPTIES = frozenset({Editing.CUT_BEFORE, Editing.CUT_UNDER})
"""What takes away the whole of a text put forward."""


class EntryLines(Widget, can_focus=True):
    """Lines with a label each. Typed text wraps; options are listed with their meaning beside them."""

    DEFAULT_CSS = "EntryLines { height: auto; }"
    BINDINGS: ClassVar[list[BindingType]] = bindings("line-down", "line-up")

    @dataclass
    class Changed(Message):
        """Something was typed."""

        typed: Mapping[str, str]

    at: var[int] = var(0)
    """The line the cursor is on."""

    def __init__(self, lines: tuple[AskedLine, ...]) -> None:
        super().__init__()
        self.lines = lines
        self.editors = [LineEditor.at_end(line.text) for line in lines]
        self._offered = {at for at, line in enumerate(lines) if line.is_offered}
        """Lines whose text is only put forward as yet."""

    @property
    def typed(self) -> Mapping[str, str]:
        """What stands in every line now, by its name."""
        return {line.name: editor.text for line, editor in zip(self.lines, self.editors, strict=True)}

    def put_back(self, typed: Mapping[str, str]) -> None:
        """Lines as they stood when they were left, ready to go on at their ends."""
        self._offered.clear()
        self.editors = [LineEditor.at_end(typed.get(line.name, line.text)) for line in self.lines]
        self.at = next((row for row, line in enumerate(self.lines) if not typed.get(line.name)), self.at)
        self.refresh(layout=True)

    @property
    def is_changed(self) -> bool:
        """Something was typed."""
        return any(line.text != editor.text for line, editor in zip(self.lines, self.editors, strict=True))

    @property
    def missing(self) -> AskedLine | None:
        """The first line that must be filled and is not."""
        pairs = zip(self.lines, self.editors, strict=True)
        return next((line for line, editor in pairs if line.must and not editor.text.strip()), None)

    @property
    def line(self) -> AskedLine:
        """The line the cursor is on."""
        return self.lines[self.at]

    @property
    def is_last(self) -> bool:
        """The cursor is on the last line that is asked."""
        return not any(self._is_asked(row) for row in range(self.at + 1, len(self.lines)))

    def _is_asked(self, row: int) -> bool:
        when = self.lines[row].when
        return when is None or when(self.typed)

    def watch_at(self) -> None:
        self.refresh()

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002
        return len(self._drawn(width))

    def render_line(self, y: int) -> Strip:
        drawn = self._drawn(self.size.width)
        return drawn[y].adjust_cell_length(self.size.width) if y < len(drawn) else Strip.blank(self.size.width)

    def action_line(self, by: int) -> None:
        """Go to another line, round the ends."""
        rows = [(self.at + by * step) % len(self.lines) for step in range(1, len(self.lines) + 1)]
        self.at = next((row for row in rows if self._is_asked(row)), self.at)

    def go_to(self, name: str) -> None:
        """Put the cursor on a line."""
        self.at = next((row for row, line in enumerate(self.lines) if line.name == name), self.at)

    def put(self, name: str, text: str) -> None:
        """Put a text into a line, the cursor at its end."""
        self.go_to(name)
        self._offered.discard(self.at)
        self._take(LineEditor.at_end(text))

    def on_key(self, event: events.Key) -> None:
        line, editor = self.lines[self.at], self.editors[self.at]
        after = self._picked(line, editor, event) if line.options else self._edited(line, editor, event)
        if after is not None:
            event.stop()
            event.prevent_default()
            self._take(after)

    def on_paste(self, event: events.Paste) -> None:
        event.stop()
        line = self.lines[self.at]
        if not line.options:
            after = self._typed_on(self.editors[self.at]).typed(event.text)
            self._take(LineEditor(after.text[: line.limit], min(after.cursor, line.limit)))

    def _take(self, editor: LineEditor) -> None:
        rows = len(self._drawn(self.size.width))
        was = self.editors[self.at].text
        self.editors[self.at] = editor
        if editor.text != was:
            self.post_message(self.Changed(self.typed))
        self.refresh(layout=len(self._drawn(self.size.width)) != rows)

    def _edited(self, line: AskedLine, editor: LineEditor, event: events.Key) -> LineEditor | None:
        if event.is_printable and event.character:
            editor = self._typed_on(editor)
            return editor.typed(event.character) if len(editor.text) < line.limit else editor
        after = editor.after_key(event.key)
        if after is None:
            return None
        if EDITING.get(event.key) in _EMPTIES and self.at in self._offered:
            return self._typed_on(editor)
        self._offered.discard(self.at)
        return after

    def _typed_on(self, editor: LineEditor) -> LineEditor:
        """What typing goes on from: nothing, where the text was only put forward."""
        if self.at not in self._offered:
            return editor
        self._offered.discard(self.at)
        return LineEditor()

    def _picked(self, line: AskedLine, editor: LineEditor, event: events.Key) -> LineEditor | None:
        letter = (event.character or "").casefold()
        for option in line.options:
            if letter == option.key.casefold():
                return LineEditor(option.value)
        if event.key in {"left", "right", "space"}:
            values = [option.value for option in line.options]
            step = -1 if event.key == "left" else 1
            at = values.index(editor.text) + step if editor.text in values else min(step, 0)
            return LineEditor(values[at % len(values)])
        return editor if event.is_printable else None

    def _drawn(self, width: int) -> list[Strip]:
        longest = max(cell_len(line.label) for line in self.lines)
        label_width = longest + 2 if longest else 0
        return [
            Strip([Segment(label.ljust(label_width), theme.HEAD if row == self.at else theme.QUIET), *segments])
            for row, line in enumerate(self.lines)
            for label, segments in self._rows_of(row, line, max(width - label_width, 10))
        ]

    def _rows_of(self, row: int, line: AskedLine, room: int) -> list[tuple[str, list[Segment]]]:
        here = row == self.at
        label = f"{line.label}{':' if line.label else ''}"
        if line.options:
            rows = [_option_row(option, self.editors[row].text, here=here) for option in line.options]
        else:
            editor = self.editors[row]
            shown = LineEditor("*" * len(editor.text), editor.cursor) if line.is_secret else editor
            rows = _typed_rows(shown, room, here=here, offered=row in self._offered)
        return [(label if index == 0 else "", segments) for index, segments in enumerate(rows)]


class SearchLine(EntryLines, inherit_bindings=False):
    """One line to type into; Up and Down belong to the list under it."""

    def __init__(self, label: str, words: str = "") -> None:
        super().__init__((AskedLine("words", label, words),))
        self._offered.clear()

    @property
    def words(self) -> str:
        """What is typed."""
        return self.editors[0].text


def _option_row(option: EntryOption, picked: str, *, here: bool) -> list[Segment]:
    is_picked = option.value == picked
    style = theme.CURSOR if is_picked and here else theme.HEAD if is_picked else theme.PLAIN
    sign = "(x)" if is_picked else "( )"
    return [Segment(f"{sign} {option.key.upper()} ", style), Segment(f" {option.means or option.value}", theme.PLAIN)]


def _typed_rows(editor: LineEditor, room: int, *, here: bool, offered: bool) -> list[list[Segment]]:
    spans = wrapped(f"{editor.text} ", room)
    if not here or offered:
        style = theme.CURSOR if here else theme.PLAIN
        return [[Segment(editor.text[start:end], style)] for start, end in spans]
    at = line_of(spans, editor.cursor)
    away = LineEditor(editor.text, -1)
    return [painted(editor if row == at else away, start, end) for row, (start, end) in enumerate(spans)]
