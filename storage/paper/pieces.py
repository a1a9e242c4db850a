"""Blocks of a sheet as HTML, each value in an element of its own so that it can be read back by place."""

from collections.abc import Sequence

from domain.sheets.sheet import (
    Banner,
    Divider,
    Listing,
    Passage,
    Row,
    SheetCell,
    SheetColumn,
    SheetEntry,
    SheetGroup,
    SheetSeal,
    Signing,
    Tone,
    ValueOrigin,
)
from storage.paper.escape import esc, squashed
from storage.paper.press import Piece, Promise
from storage.paper.seal import UNSEALED
from storage.paper.style import TABLE_WIDTH

_PADDING = 10.5
"""What a cell takes beside its text: padding, and the border it shares with its neighbours, in points."""
_CLASS = {ValueOrigin.OURS: " ours", ValueOrigin.FAILS: " fails"}
_BLANK = "&nbsp;"
_CROSS = "✗ "
_FRAMES = {ValueOrigin.BLANK: ("blank", 0.4), ValueOrigin.FAILS: ("fails", 1.1)}
"""Frame of a cell that stands out, and how much wider it is than the common one."""


class Setter:
    """HTML of one piece, growing, with the promises made on the way."""

    def __init__(self, where: str) -> None:
        self._where = where
        self._promises: dict[str, Promise] = {}

    def piece(self, html: str) -> Piece:
        """The piece."""
        return Piece(html, self._promises)

    def text(self, text: str, css: str, what: str, *, unit: str = "", mark: str = "") -> str:
        """A value of the record as a paragraph that is read back."""
        if not squashed(text):
            return f'<p class="{css}">{_BLANK}</p>'
        element = f"v{len(self._promises)}"
        shown = f"{text} {unit}".strip()
        self._promises[element] = Promise(mark + shown, f"{self._where}: {what}" if self._where else what)
        tail = f' <span class="u">{esc(unit)}</span>' if unit else ""
        return f'<p id="{element}" class="{css}">{mark}{esc(text, multiline=True)}{tail}</p>'

    def entry(self, entry: SheetEntry, width: float) -> str:
        """One labelled box."""
        value = self.text(
            entry.value,
            f"v{_CLASS.get(entry.standing, '')}",
            entry.label,
            unit=entry.unit if entry.value else "",
            mark=_CROSS if entry.standing is ValueOrigin.FAILS else "",
        )
        css, wider = _FRAMES.get(entry.standing, ("", 0))
        label = esc(entry.label) + (f" ({esc(entry.unit)})" if entry.unit and not entry.value else "")
        return f'<td class="{css}" style="width:{width - _PADDING - wider:.2f}pt"><p class="l">{label}</p>{value}</td>'

    def entries(self, row: tuple[SheetEntry, ...], *, first: bool = True) -> str:
        """A row of boxes as a table of its own, over the full width; rows below the first share its line."""
        share = TABLE_WIDTH / sum(entry.weight for entry in row)
        css = "first" if first else "on"
        cells = "".join(self.entry(entry, share * entry.weight) for entry in row)
        return f'<table class="{css}"><tr>{cells}</tr></table>'

    def cell(self, cell: SheetCell, column: SheetColumn, width: float) -> str:
        """One value of a listing."""
        css = "c" + (" fails" if cell.standing is ValueOrigin.FAILS else "") + (" mid" if column.centred else "")
        frame, wider = _FRAMES.get(cell.standing, ("", 0))
        return (
            f'<td class="{frame}" style="width:{width - wider:.2f}pt">{self.text(cell.shown, css, column.heading)}</td>'
        )


def heading(text: str, level: str = "h2") -> str:
    """A heading, or nothing for none."""
    return f"<{level}>{esc(text)}</{level}>" if text.strip() else ""


def title_piece(title: str, subtitle: str, *, opens: bool) -> Piece:
    """The head of a sheet."""
    css = ' class="opens"' if opens else ""
    return Piece(f'<h1{css}>{esc(title)}</h1><p class="sub">{esc(subtitle)}</p>')


def group_rows(group: SheetGroup) -> tuple[Piece, ...]:
    """A group in parts that may be split between pages: its heading with the first row, then row by row."""
    pieces: list[Piece] = []
    for at, row in enumerate(group.rows):
        setter = Setter(group.heading)
        head = heading(group.heading) + note_line(group.note) if at == 0 else ""
        pieces.append(setter.piece(head + setter.entries(row, first=at == 0)))
    return tuple(pieces)


def group_piece(group: SheetGroup) -> Piece:
    """A group in one."""
    setter = Setter(group.heading)
    return setter.piece(heading(group.heading) + note_line(group.note) + _rows(setter, group.rows))


def _rows(setter: Setter, rows: tuple[tuple[SheetEntry, ...], ...]) -> str:
    return "".join(setter.entries(row, first=at == 0) for at, row in enumerate(rows))


def signing_piece(signing: Signing) -> Piece:
    """A declaration with its signature."""
    setter = Setter(signing.heading)
    declares = f'<p class="declares">{esc(signing.declares)}</p>'
    return setter.piece(heading(signing.heading) + declares + _rows(setter, signing.entries))


def banner_piece(banner: Banner) -> Piece:
    """A banner across the page."""
    css = "banner bad" if banner.tone is Tone.BAD else "banner"
    return Piece(
        f'<p class="sub"></p><table><tr><td class="{css}" style="width:{TABLE_WIDTH - 24:.2f}pt">'
        f'<p class="l">{esc(banner.label)}</p><p class="says">{esc(banner.says)}</p><p>{esc(banner.beneath)}</p>'
        "</td></tr></table>"
    )


def seal_piece(seal: SheetSeal) -> tuple[Piece, Promise]:
    """A box as wide as the page whose text is drawn when the rest of the file is finished."""
    drawn = Promise(UNSEALED, seal.label)
    html = (
        f'{heading(seal.heading)}<table><tr><td style="width:{TABLE_WIDTH - _PADDING:.2f}pt">'
        f'<p class="l">{esc(seal.label)}</p><p id="seal" class="v">{_BLANK}</p></td></tr></table>'
    )
    return Piece(html, {"seal": drawn}), drawn


def passage_piece(passage: Passage) -> Piece:
    """Running text under its number and label."""
    setter = Setter("")
    text = setter.text(passage.text, "text", passage.heading)
    return setter.piece(heading(f"Entry {passage.number}: {passage.heading}", "h3") + text)


def note_line(markdown: str) -> str:
    """A line of our own, small."""
    return f'<p class="note">{_inline(markdown)}</p>' if markdown else ""


def listing_widths(columns: tuple[SheetColumn, ...]) -> tuple[float, ...]:
    """The text width of each column."""
    total = sum(column.width for column in columns)
    return tuple(TABLE_WIDTH * column.width / total - _PADDING for column in columns)


def listing_piece(listing: Listing, rows: Sequence[Row | Divider], *, first: bool) -> Piece:
    """The head of a listing with some of its rows; each row's first cell is marked `r0`, `r1` … for measuring."""
    setter = Setter(listing.heading)
    widths = listing_widths(listing.columns)
    head = "".join(
        f'<th class="{"mid" if column.centred else ""}" style="width:{width:.2f}pt">{esc(column.heading)}</th>'
        for column, width in zip(listing.columns, widths, strict=True)
    )
    body = "".join(_listing_row(setter, listing, row, widths, at) for at, row in enumerate(rows))
    above = heading(listing.heading) + note_line(listing.note) if first else ""
    return setter.piece(f'{above}<table class="list"><tr>{head}</tr>{body}</table>')


def _listing_row(setter: Setter, listing: Listing, row: Row | Divider, widths: tuple[float, ...], at: int) -> str:
    if isinstance(row, Divider):
        return f'<tr><td id="r{at}" class="divider" colspan="{len(widths)}">{esc(row.text)}</td></tr>'
    cells = [setter.cell(*each) for each in zip(row, listing.columns, widths, strict=True)]
    cells[0] = cells[0].replace("<td ", f'<td id="r{at}" ', 1)
    return f"<tr>{''.join(cells)}</tr>"


def _inline(markdown: str) -> str:
    parts = esc(markdown).split("&#42;&#42;")
    return "".join(f"<b>{part}</b>" if at % 2 else part for at, part in enumerate(parts))
