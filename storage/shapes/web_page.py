"""The record as one accessible page: no script, nothing fetched, the same sheets as the paper."""

from base64 import b64encode
from collections.abc import Iterable, Iterator
from itertools import groupby

from domain.job.job import Job
from domain.sheets import sheets_of
from domain.sheets.sheet import (
    Banner,
    Block,
    Contents,
    Divider,
    Listing,
    Passage,
    Row,
    ScheduleSheet,
    Section,
    Sheet,
    SheetCell,
    SheetColumn,
    SheetEntry,
    SheetGroup,
    SheetNote,
    SheetPicture,
    SheetPictures,
    SheetSeal,
    Signing,
    Tone,
    ValueOrigin,
    WordBlock,
)
from storage.shapes.markup import markdown, markdown_line, text
from storage.shapes.web_style import STYLE

_POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'"


_OURS = "Slanted: worded by the form, such as N/A where a box does not apply; all else stands as a person entered it."


def web_page(job: Job, pdf_sha256: str) -> bytes:
    """An issued job as a page in HTML; it names the PDF it stands beside by its hash."""
    sheets = sheets_of(job)
    title = f"{job.profile.title} {job.number}"
    named = [(f"sheet-{at}", _name(sheet)) for at, sheet in enumerate(sheets, start=1)]
    return "\n".join(
        [
            "<!DOCTYPE html>",
            '<html lang="en-GB">',
            "<head>",
            '<meta charset="utf-8">',
            f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">',
            '<meta name="viewport" content="width=device-width, initial-scale=1">',
            f"<title>{text(title)}</title>",
            f"<style>{STYLE}</style>",
            "</head>",
            "<body>",
            '<a class="skip" href="#record">Skip to the record</a>',
            f"<header><h1>{text(title)}</h1>",
            f"<p>{_beside(pdf_sha256)}</p>{_small(_OURS)}</header>",
            '<nav aria-label="Sheets"><ol>',
            *(f'<li><a href="#{each}">{text(name)}</a></li>' for each, name in named),
            "</ol></nav>",
            '<main id="record">',
            *(_sheet(sheet, each, pdf_sha256) for sheet, (each, _) in zip(sheets, named, strict=True)),
            "</main>",
            f"<footer><p>{text(title)}</p></footer>",
            "</body>",
            "</html>",
            "",
        ]
    ).encode()


def _beside(pdf_sha256: str) -> str:
    return (
        "This page says what the PDF of the same name says, for reading on screens and by screen readers. The PDF is the "
        f"document; its SHA-256 is <code>{pdf_sha256}</code>."
    )


def _name(sheet: Sheet) -> str:
    return f"{sheet.title}, {sheet.subtitle}" if isinstance(sheet, ScheduleSheet) else sheet.title


def _sheet(sheet: Sheet, each: str, pdf_sha256: str) -> str:
    if isinstance(sheet, ScheduleSheet):
        inside, css = _schedule(sheet), ' class="wide"'
    else:
        inside = "".join([_small(sheet.subtitle), *(_block_or_pictures(block, pdf_sha256) for block in sheet.blocks)])
        css = ""
    return (
        f'<section id="{each}" aria-labelledby="{each}-head"{css}><h2 id="{each}-head">{text(_name(sheet))}</h2>'
        f"{inside}</section>"
    )


def _block_or_pictures(block: Block, pdf_sha256: str) -> str:
    if isinstance(block, SheetPictures):
        return "".join(map(_picture, block.pictures))
    return _block(block, pdf_sha256)


def _block(block: WordBlock, pdf_sha256: str) -> str:
    match block:
        case Section():
            return f"<h3>{text(block.letter)} {text(block.heading)}</h3>"
        case Contents():
            listed = "".join(f"<li>{text(title)}, {text(subtitle)}</li>" for title, subtitle in block.sheets)
            return f"{_heading(block.heading)}<ul>{listed}</ul>{_note(block.note)}"
        case SheetGroup():
            return _heading(block.heading) + _note(block.note) + _boxes(block.rows)
        case Passage():
            return f"<h3>Entry {text(block.number)}: {text(block.heading)}</h3><p>{text(block.text)}</p>"
        case SheetNote():
            return _heading(block.heading) + markdown(block.text)
        case Banner():
            bad = " bad" if block.tone is Tone.BAD else ""
            return (
                f'<div class="banner{bad}"><p>{text(block.label)}</p><p class="says">{text(block.says)}</p>'
                f"<p>{text(block.beneath)}</p></div>"
            )
        case Signing():
            return _heading(block.heading) + f"<p>{text(block.declares)}</p>" + _boxes(block.entries)
        case SheetSeal():
            return f"{_heading(block.heading)}<dl>{_box('SHA-256 of the PDF of the same name', text(pdf_sha256))}</dl>"
        case Listing():
            return _heading(block.heading) + _note(block.note) + _listing(block)


def _picture(each: SheetPicture) -> str:
    held = b64encode(each.jpeg).decode()
    return (
        f'<figure><img alt="{text(each.instead)}" src="data:image/jpeg;base64,{held}">'
        f"<figcaption>{text(each.label)}<br>{text(each.caption)}</figcaption></figure>"
    )


def _heading(words: str) -> str:
    return f"<h3>{text(words)}</h3>" if words.strip() else ""


def _small(words: str) -> str:
    return f'<p class="small">{text(words)}</p>' if words.strip() else ""


def _note(line: str) -> str:
    return f'<p class="small">{markdown_line(line)}</p>' if line else ""


def _boxes(rows: Iterable[tuple[SheetEntry, ...]]) -> str:
    boxes = "".join(_box(entry.label, _value(entry)) for row in rows for entry in row)
    return f"<dl>{boxes}</dl>" if boxes else ""


def _box(label: str, value: str) -> str:
    return f"<div><dt>{text(label)}</dt><dd>{value}</dd></div>"


def _value(entry: SheetEntry) -> str:
    unit = f" {entry.unit}" if entry.unit and entry.value.strip() else ""
    return _text_of(entry.value, entry.origin, unit)


def _text_of(value: str, origin: ValueOrigin, unit: str = "") -> str:
    """A value with its unit, and in words what a frame says on paper."""
    if origin is ValueOrigin.FAILS:
        return f'<strong class="fails">✗ {text(value)}{text(unit)} (outside its limit)</strong>'
    if origin is ValueOrigin.BLANK:
        return f'<span class="blank">{text(value) or "to be filled in"}</span>'
    if origin is ValueOrigin.OURS and value.strip():
        return f'<span class="ours">{text(value)}</span>{text(unit)}'
    return f"<bdi>{text(value)}</bdi>{text(unit)}"


def _listing(listing: Listing) -> str:
    heads = "".join(f'<th scope="col">{text(column.heading)}</th>' for column in listing.columns)
    caption = listing.heading or "Items"
    return (
        f"<table><caption>{text(caption)}</caption><thead><tr>{heads}</tr></thead>{''.join(_bodies(listing))}</table>"
    )


def _bodies(listing: Listing) -> Iterator[str]:
    """A body for each stretch of rows, under the divider that names it."""
    rows, divider = list[Row](), ""
    for each in (*listing.rows, Divider("")):
        if not isinstance(each, Divider):
            rows.append(each)
            continue
        if rows or divider:
            yield f"<tbody>{divider}{''.join(map(_row, rows))}</tbody>"
        rows.clear()
        divider = f'<tr><th scope="rowgroup" colspan="{len(listing.columns)}">{text(each.text)}</th></tr>'


def _row(row: Row) -> str:
    first, *others = row
    return f'<tr><th scope="row">{_cell(first)}</th>{"".join(f"<td>{_cell(cell)}</td>" for cell in others)}</tr>'


def _cell(cell: SheetCell) -> str:
    return _text_of(cell.shown, cell.origin)


def _schedule(sheet: ScheduleSheet) -> str:
    groups = groupby(sheet.columns, key=lambda column: column.group)
    spans = [(name, len(list(members))) for name, members in groups]
    above = "".join(
        f'<th scope="colgroup" colspan="{count}">{text(name)}</th>' if name else f'<td colspan="{count}"></td>'
        for name, count in spans
    )
    heads = "".join(f'<th scope="col">{text(_head(column))}</th>' for column in sheet.columns)
    body = "".join(map(_row, sheet.rows))
    notes = "".join(_small(note) for note in sheet.notes)
    return (
        f"{_boxes(sheet.header)}{_boxes(sheet.footer)}"
        f'<div class="scroll" role="region" tabindex="0" aria-label="Rows of {text(_name(sheet))}"><table>'
        f"<caption>{text(_name(sheet))}</caption><thead><tr>{above}</tr><tr>{heads}</tr></thead>"
        f"<tbody>{body}</tbody></table></div>{notes}"
    )


def _head(column: SheetColumn) -> str:
    return f"{column.heading} ({column.unit})" if column.unit else column.heading
