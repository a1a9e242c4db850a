"""Text to read, drawn by line: paragraphs with a label beside them, scrolled by keys when they need more room."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import ClassVar

from rich.cells import cell_len
from rich.segment import Segment
from rich.style import Style
from textual.binding import BindingType
from textual.geometry import Size
from textual.reactive import var
from textual.strip import Strip
from textual.widget import Widget

from tui import theme
from tui.keys import bindings, key_name
from tui.widgets.in_sight import lines_in_sight, repaint_changed
from tui.widgets.wrapping import fitted, padded, wrapped


@dataclass(frozen=True, slots=True)
class Paragraph:
    """One paragraph; a label stands to its left, as wide as it is or as `label_width` says."""

    text: str = ""
    style: Style = theme.PLAIN
    label: str = ""
    label_style: Style = theme.HEAD
    label_width: int = 0


class TextPage(Widget):
    """Paragraphs under one another. Painted again only when they change or scroll."""

    paragraphs: var[tuple[Paragraph, ...]] = var(())
    """What is shown."""
    top: var[int] = var(0)
    """The first line in sight."""
    _wrapped_for: tuple[tuple[Paragraph, ...], int] = ((), 0)
    _wrapped: Sequence[Strip] = ()

    def show(self, paragraphs: Iterable[Paragraph]) -> None:
        """Show other paragraphs, from their beginning."""
        before = lines_in_sight(self)
        self.paragraphs = tuple(paragraphs)
        self.set_reactive(TextPage.top, 0)
        repaint_changed(self, before)

    def lines(self, width: int) -> Sequence[Strip]:
        """Every line, in sight or not; wrapped again only for other paragraphs or another width."""
        wanted = (self.paragraphs, width)
        if self._wrapped_for != wanted:
            self._wrapped_for, self._wrapped = (
                wanted,
                [strip for each in self.paragraphs for strip in _drawn(each, width)],
            )
        return self._wrapped

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002
        return len(self.lines(width))

    def watch_top(self) -> None:
        self.refresh()

    def on_resize(self) -> None:
        self.top = min(self.top, self._lowest)

    def render_line(self, y: int) -> Strip:
        width, height = self.content_size
        lines = self.lines(width)
        row = self.top + y
        if y == height - 1 and row < len(lines) - 1:
            return self.cut_off(lines[row]).adjust_cell_length(width)
        return lines[row].adjust_cell_length(width) if row < len(lines) else Strip.blank(width)

    def cut_off(self, line: Strip) -> Strip:
        """The last line in sight, where there is more that cannot be."""
        text = fitted(f"{line.text.rstrip()} …", self.content_size.width)
        return Strip([Segment(text)])

    @property
    def _lowest(self) -> int:
        return max(len(self.lines(self.content_size.width)) - self.content_size.height, 0)


class ReadingPage(TextPage, can_focus=True):
    """A text page that takes the focus and scrolls by keys."""

    BINDINGS: ClassVar[list[BindingType]] = bindings(
        "row-up", "row-down", "rows-up", "rows-down", "row-first", "row-last"
    )

    def cut_off(self, line: Strip) -> Strip:  # noqa: ARG002
        """A line that says there is more to scroll to."""
        return Strip([Segment(f"… more below, {key_name('rows-down')}", theme.QUIET)])

    def render_line(self, y: int) -> Strip:
        strip = super().render_line(y)
        return strip if y or not self.has_focus else begun_with(strip, theme.COME_TO)

    def on_focus(self) -> None:
        """The cursor comes to the first line."""
        self.refresh()

    def on_blur(self) -> None:
        """The cursor goes."""
        self.refresh()

    def action_move(self, by: int) -> None:
        """One line up or down."""
        self.top = min(max(self.top + by, 0), self._lowest)

    def action_page(self, by: int) -> None:
        """One window up or down."""
        self.action_move(by * max(self.content_size.height - 2, 1))

    def action_ends(self, end: int) -> None:
        """To the beginning or the end."""
        self.top = 0 if end == 0 else self._lowest


def begun_with(strip: Strip, style: Style) -> Strip:
    """The line with its first cell in a style."""
    if strip.cell_length < 1:
        return strip
    first, rest = strip.divide([1, strip.cell_length])
    return Strip([*first.apply_style(style), *rest])


def _drawn(paragraph: Paragraph, width: int) -> list[Strip]:
    label_width = paragraph.label_width or (cell_len(paragraph.label) + 1 if paragraph.label else 0)
    return [
        Strip(
            [
                Segment(padded(paragraph.label if line == 0 else "", label_width), paragraph.label_style),
                Segment(paragraph.text[start:end], paragraph.style),
            ]
        )
        for line, (start, end) in enumerate(wrapped(paragraph.text, max(width - label_width, 10)))
    ]
