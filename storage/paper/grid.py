"""A schedule laid out on sideways pages: what stands where, measured before anything is drawn."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from domain.sheets.sheet import Row, ScheduleSheet, SheetCell, SheetColumn, SheetEntry, ValueOrigin
from storage.paper.escape import clean
from storage.paper.mupdf import mupdf
from storage.paper.paper_error import Overflow
from storage.paper.style import SIDEWAYS

TITLE_SIZE, TEXT_SIZE, VALUE_SIZE, SMALL_SIZE = 15.0, 8.0, 8.5, 7.0
LEADING = 1.22
PAD = 3.0
TITLE_HEIGHT = 24.0
HEAD_TEXT = 7.5
GROUP_HEIGHT = HEAD_TEXT * LEADING + 1.5 * PAD


@dataclass(frozen=True)
class Words:
    """Lines of one text at its place, drawn from the top of a rectangle."""

    lines: tuple[str, ...]
    x0: float
    y0: float
    x1: float
    y1: float
    size: float
    bold: bool = False
    centred: bool = False
    standing: ValueOrigin = ValueOrigin.OURS
    promises: str = ""
    """The text of the record it must read back as; "" for our own words."""
    what: str = ""


@dataclass(frozen=True)
class Header:
    """The boxes above the grid."""

    words: tuple[Words, ...]
    boxes: tuple[tuple[float, float, float, float, ValueOrigin], ...]
    bottom: float


@dataclass(frozen=True)
class GridPage:
    """The rows of one page with their heights."""

    rows: tuple[Row, ...]
    heights: tuple[float, ...]


@lru_cache(maxsize=4)
def font(*, bold: bool) -> Any:
    """The one face of the papers, upright or bold."""
    return mupdf().Font("hebo" if bold else "helv")


@lru_cache(maxsize=16384)
def text_width(text: str, size: float, *, bold: bool) -> float:
    """How wide a text runs."""
    return float(font(bold=bold).text_length(text, fontsize=size))


@lru_cache(maxsize=16384)
def wrapped(text: str, width: float, size: float, *, bold: bool = False) -> tuple[str, ...]:
    """Lines no wider than `width`, broken between words and, where a word alone is too long, inside it."""
    lines: list[str] = []
    for paragraph in clean(text, multiline=True).split("\n"):
        line = ""
        for word in paragraph.split(" "):
            joined = f"{line} {word}" if line else word
            if text_width(joined, size, bold=bold) <= width:
                line = joined
                continue
            if line:
                lines.append(line)
            *full, line = _chopped(word, width, size, bold=bold)
            lines += full
        lines.append(line)
    return tuple(lines)


def _chopped(word: str, width: float, size: float, *, bold: bool) -> list[str]:
    pieces: list[str] = []
    piece = ""
    for letter in word:
        if piece and text_width(piece + letter, size, bold=bold) > width:
            pieces.append(piece)
            piece = letter
        else:
            piece += letter
    return [*pieces, piece]


def clipped(text: str, width: float, size: float) -> str:
    """A bold title on one line, cut where it would run on; its box below holds it in full."""
    first, *more = _chopped(clean(text), width, size, bold=True)
    return f"{first}…" if more else first


def column_edges(columns: tuple[SheetColumn, ...]) -> tuple[float, ...]:
    """Left edges of the columns, and last the right edge of the page."""
    total = sum(column.width for column in columns)
    edges = [float(SIDEWAYS.left)]
    for column in columns:
        edges.append(edges[-1] + SIDEWAYS.frame_width * column.width / total)
    return tuple(edges)


def is_bold(cell: SheetCell) -> bool:
    """Set in the bold face."""
    return cell.standing is ValueOrigin.FAILS


def laid_header(sheet: ScheduleSheet) -> Header:
    """The board's boxes in rows, under the title."""
    words: list[Words] = []
    boxes: list[tuple[float, float, float, float, ValueOrigin]] = []
    top = SIDEWAYS.top + TITLE_HEIGHT
    for row in sheet.header:
        share = SIDEWAYS.frame_width / sum(entry.weight for entry in row)
        widths = [share * entry.weight for entry in row]
        values = [
            wrapped(shown(entry), width - 2 * PAD, VALUE_SIZE, bold=entry.standing is ValueOrigin.FAILS)
            for entry, width in zip(row, widths, strict=True)
        ]
        labels = SMALL_SIZE * LEADING + PAD
        height = labels + max(map(len, values)) * VALUE_SIZE * LEADING + PAD
        left = float(SIDEWAYS.left)
        for entry, width, lines in zip(row, widths, values, strict=True):
            inner = (left + PAD, left + width - PAD)
            words.append(Words((entry.label,), inner[0], top + PAD, inner[1], top + labels, SMALL_SIZE))
            words.append(
                Words(
                    lines,
                    inner[0],
                    top + labels,
                    inner[1],
                    top + height,
                    VALUE_SIZE,
                    bold=entry.standing is ValueOrigin.FAILS,
                    standing=entry.standing,
                    promises=shown(entry),
                    what=f"{sheet.subtitle}: {entry.label}",
                )
            )
            boxes.append((left, top, left + width, top + height, entry.standing))
            left += width
        top += height
    return Header(tuple(words), tuple(boxes), top + 6)


def shown(entry: SheetEntry) -> str:
    """A value with its unit."""
    return f"{entry.value} {entry.unit}".strip() if entry.value else ""


def heading_lines(column: SheetColumn, width: float) -> tuple[str, ...]:
    """The head of a column, with its unit below."""
    lines = wrapped(column.heading, width - PAD, HEAD_TEXT, bold=True)
    return (*lines, column.unit) if column.unit else lines


def head_height(sheet: ScheduleSheet, edges: tuple[float, ...]) -> float:
    """Height of the column heads, group names above them."""
    lines = max(
        len(heading_lines(column, right - left))
        for column, left, right in zip(sheet.columns, edges, edges[1:], strict=False)
    )
    return GROUP_HEIGHT + lines * HEAD_TEXT * LEADING + 1.5 * PAD


def notes_lines(sheet: ScheduleSheet) -> tuple[str, ...]:
    """The lines under the table."""
    return tuple(line for note in sheet.notes for line in wrapped(note, SIDEWAYS.frame_width, SMALL_SIZE))


def paged(sheet: ScheduleSheet, edges: tuple[float, ...], top: float) -> tuple[GridPage, ...]:
    """Rows filled page by page; a row that no page can hold is refused."""
    room = SIDEWAYS.bottom - top - len(notes_lines(sheet)) * SMALL_SIZE * LEADING - 4
    heights = [_row_height(row, edges) for row in sheet.rows]
    if room < 0 or any(height > room for height in heights):
        raise Overflow(f"A row of {sheet.title}, {sheet.subtitle}, is taller than a page")
    pages: list[GridPage] = []
    start, used = 0, 0.0
    for at, height in enumerate(heights):
        if used + height > room:
            pages.append(GridPage(sheet.rows[start:at], tuple(heights[start:at])))
            start, used = at, 0.0
        used += height
    return (*pages, GridPage(sheet.rows[start:], tuple(heights[start:])))


def _row_height(row: Row, edges: tuple[float, ...]) -> float:
    lines = max(len(cell_lines(cell, right - left)) for cell, left, right in zip(row, edges, edges[1:], strict=False))
    return lines * TEXT_SIZE * LEADING + 2 * PAD


def cell_lines(cell: SheetCell, width: float) -> tuple[str, ...]:
    """A cell's text in lines."""
    return wrapped(cell.shown, width - 2 * PAD + 1, TEXT_SIZE, bold=is_bold(cell))
