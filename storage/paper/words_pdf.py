"""What is words and no form, set by the Markdown writer: letters, and the page about somebody's practice."""

import re
from typing import Any

from domain.gate.letters import letter_problem
from domain.job.logo import Logo, LogoKind
from domain.sheets.sheet import (
    Banner,
    Block,
    Divider,
    Listing,
    SheetCell,
    SheetEntry,
    SheetGroup,
    SheetNote,
    Signing,
    TextSheet,
    ValueOrigin,
)
from storage.paper.boxes import letters_to_a_line, shown_value
from storage.paper.imprint import Imprint
from storage.paper.letters import is_joined, runs_leftwards, squashed
from storage.paper.measure import FONTS
from storage.paper.mupdf import mupdf
from storage.paper.packing import MAKER
from storage.paper.page import UPRIGHT
from storage.paper.paper_error import PaperError
from storage.paper.story_text import esc
from storage.paper.unicode_maps import repair_unicode_maps

_FACES = {"paper": "NotoSans-Regular.ttf", "paperbold": "NotoSans-Bold.ttf"}
_CSS = """
@font-face{font-family:paper;src:url(NotoSans-Regular.ttf)}
@font-face{font-family:paper;font-weight:bold;src:url(NotoSans-Bold.ttf)}
body{margin:0;font-family:paper;font-size:9.5pt;line-height:1.3;color:#0c1418;overflow-wrap:break-word}
p,ul{margin:1pt 0 4pt 0} li{margin:0 0 2pt 0}
h1{font-size:15pt;margin:0 0 2pt 0;color:#0d4d54} h3{font-size:10pt;margin:9pt 0 2pt 0;color:#0d4d54}
p.firm{font-size:15pt;font-weight:bold;margin:0} p.small{font-size:8.5pt;margin:0 0 1pt 0}
td.right{text-align:right} p.number{font-size:11pt;font-weight:bold;margin:0}
td.rule{border-top:2pt solid #0d4d54;font-size:2pt}
table{border-collapse:collapse;margin:2pt 0}
td,th{padding:2.5pt 5pt;text-align:left;vertical-align:baseline;border:0.75pt solid #64737a;overflow-wrap:break-word}
th{font-size:8.5pt;color:#0d4d54;border-top:1.5pt solid #0d4d54}
table.list th{padding:2.5pt 4pt} table.list td{font-size:8.5pt;line-height:1.2;padding:1.6pt 4pt} td.sign{height:45pt} td.bare{border-width:0;padding:0} td.banner{border:2pt solid #0d4d54;padding:5pt 9pt} p.says{font-size:15pt;font-weight:bold}
span.label{font-size:8pt;color:#24333a} b.fails{color:#8c150f}
"""
_BORDER = 1.5
_LOGO, _LOGO_SHARE, _FIRM_SHARE = "logo.png", 0.22, 0.5
_LOGO_SIDES = (100.0, 50.0)
"""Points that it may fill; it keeps its proportions."""


def set_words(sheet: TextSheet, imprint: Imprint) -> tuple[bytes, int]:
    """The sheet as a file, and its pages. PaperError where a text of it did not come back from the pages."""
    from markdown_pdf import MarkdownPdf, Section

    for text in _texts(sheet):
        if problem := letter_problem(text):
            raise PaperError(f"“{text[:60]}”: {problem}")
    writer: Any = MarkdownPdf(toc_level=0, plugins=None)
    writer.meta = {"title": imprint.title, "author": imprint.author, "creator": MAKER, "producer": MAKER}
    root: Any = mupdf().Archive()
    for name in _FACES.values():
        root.add(FONTS.joinpath(name).read_bytes(), name)
    if imprint.logo:
        root.add(_image_of(imprint.logo), _LOGO)
    section: Any = Section(_markdown(sheet, imprint), root=root, borders=_borders())
    writer.add_section(section, user_css=_CSS)
    document = writer._make_doc()
    _number_pages(document, imprint)
    document.subset_fonts()
    repair_unicode_maps(document)
    document.xref_set_key(document.pdf_catalog(), "Lang", "(en-GB)")
    document.xref_set_key(document.pdf_catalog(), "ViewerPreferences", "<</DisplayDocTitle true>>")
    pdf: bytes = document.tobytes(garbage=3, deflate=True, no_new_id=True, use_objstms=1)
    _read_back(pdf, sheet)
    return pdf, len(document)


def _borders() -> tuple[int, int, int, int]:
    left, top, right, bottom = UPRIGHT.left, UPRIGHT.top, UPRIGHT.right - UPRIGHT.width, UPRIGHT.bottom - UPRIGHT.height
    return (int(left), int(top), int(right), int(bottom))


def _number_pages(document: Any, imprint: Imprint) -> None:
    for at, page in enumerate(document):
        page.wrap_contents()
        words = mupdf().TextWriter(page.rect)
        font = mupdf().Font(fontbuffer=FONTS.joinpath(_FACES["paper"]).read_bytes())
        foot = UPRIGHT.height - 26
        words.append((UPRIGHT.left, foot), f"{imprint.number} · {imprint.foot}"[:110], font=font, fontsize=8)
        count = f"page {at + 1} of {len(document)}"
        words.append((UPRIGHT.right - font.text_length(count, 8), foot), count, font=font, fontsize=8)
        words.write_text(page)


def _markdown(sheet: TextSheet, imprint: Imprint) -> str:
    firm, *lines = imprint.firm or ("",)
    head = f'<p class="firm">{esc(firm)}</p>' if firm else ""
    head += "".join(f'<p class="small">{esc(line, multiline=True)}</p>' for line in lines)
    title = f"<h1>{esc(sheet.title)}</h1>"
    subtitle = f'<p class="small">{esc(sheet.subtitle)}</p>'
    opening = f"{_band(head, title, imprint)}{subtitle}" if firm else f"{title}{subtitle}"
    return "\n\n".join([f"<div>{opening}</div>", *map(_block, sheet.blocks)])


def _band(firm: str, title: str, imprint: Imprint) -> str:
    """The letterhead: the logo where there is one, the firm, and title and number on the right; a rule beneath."""
    shares = (_LOGO_SHARE, _FIRM_SHARE - _LOGO_SHARE) if imprint.logo else (_FIRM_SHARE,)
    logo = (f'<img src="{_LOGO}" style="{_sides_of(imprint.logo)}">',) if imprint.logo else ()
    cells = [
        f'<td class="bare" style="{_wide(share, 0)}">{cell}</td>'
        for share, cell in zip(shares, (*logo, firm), strict=True)
    ]
    number = f'<p class="number">{esc(imprint.number)}</p>'
    cells.append(f'<td class="bare right" style="{_wide(1 - _FIRM_SHARE, 0)}">{title}{number}</td>')
    rule = f'<tr><td class="rule" style="border-width:2pt 0 0 0;{_wide(1)}"> </td></tr>'
    return _table([f"<tr>{''.join(cells)}</tr>"]) + _table([rule])


def _image_of(logo: Logo) -> bytes:
    if logo.kind is LogoKind.PNG:
        return logo.content
    from storage.paper.typesetting import drawing_as_png

    return drawing_as_png(logo.content)


def _sides_of(logo: Logo) -> str:
    image = mupdf().Pixmap(_image_of(logo))
    share = min(_LOGO_SIDES[0] / image.width, _LOGO_SIDES[1] / image.height)
    return f"width:{image.width * share:.1f}pt;height:{image.height * share:.1f}pt"


def _block(block: Block) -> str:
    match block:
        case SheetGroup():
            return _html(block.heading, _boxes(block.rows))
        case SheetNote():
            return f"{_html(block.heading)}\n\n{block.text}"
        case Signing():
            return _html(block.heading, f"<p>{esc(block.declares)}</p>{_boxes(block.entries)}")
        case Listing():
            return f"{_html(block.heading)}\n\n{block.note}\n\n{_listing(block)}"
        case Banner():
            says = f'<p>{esc(block.label)}</p><p class="says">{esc(block.says)}</p><p>{esc(block.beneath)}</p>'
            return _table([f'<tr><td class="banner" style="{_wide(1, 22)}">{says}</td></tr>'])
        case _:
            raise PaperError(f"{type(block).__name__} has no place in a letter")


def _html(heading: str, inside: str = "") -> str:
    head = f"<h3>{esc(heading)}</h3>" if heading.strip() else ""
    return f"<div>{head}{inside}</div>" if head or inside else ""


def _boxes(rows: tuple[tuple[SheetEntry, ...], ...]) -> str:
    return "".join(_row_of_boxes(row) for row in rows)


def _row_of_boxes(row: tuple[SheetEntry, ...]) -> str:
    whole = sum(entry.weight for entry in row)
    return _table(["<tr>", *(_box(entry, entry.weight / whole) for entry in row), "</tr>"])


def _box(entry: SheetEntry, share: float) -> str:
    by_hand = ' class="sign"' if entry.origin is ValueOrigin.BLANK and entry.label == "Signature" else ""
    label = f'<span class="label">{esc(entry.label)}: </span>'
    return f'<td{by_hand} style="{_wide(share)}">{label}{_value(shown_value(entry), share)}</td>'


def _listing(listing: Listing) -> str:
    whole = sum(column.width for column in listing.columns)
    widths = [column.width / whole for column in listing.columns]
    heads = "".join(
        f'<th style="{_wide(share, 9)}">{esc(column.heading)}</th>'
        for column, share in zip(listing.columns, widths, strict=True)
    )
    rows = [
        f'<tr><td colspan="{len(widths)}"><b>{esc(row.text)}</b></td></tr>'
        if isinstance(row, Divider)
        else f"<tr>{''.join(_cell(cell, share) for cell, share in zip(row, widths, strict=True))}</tr>"
        for row in listing.rows
    ]
    return _table([f"<tr>{heads}</tr>", *rows], "list")


def _cell(cell: SheetCell, share: float) -> str:
    text = _value(cell.shown, share, 8.5)
    return f'<td style="{_wide(share, 9)}">{f"<b>{text}</b>" if cell.origin is ValueOrigin.FAILS else text}</td>'


def _value(text: str, share: float, size: float = 9.5) -> str:
    """A text in its cell, with a word that is wider than the cell broken where it must be."""
    cut = letters_to_a_line(text, UPRIGHT.frame_width * share - 13, size)
    words = [
        word if not cut or len(word) <= cut else " ".join(re.findall(f".{{1,{cut}}}", word)) for word in text.split(" ")
    ]
    return esc(" ".join(words), multiline=True)


def _wide(share: float, around: float = 11) -> str:
    """A column's width as the writer wants it: in points, less what stands around its text."""
    return f"width:{(UPRIGHT.frame_width - _BORDER) * share - around:.1f}pt"


def _table(rows: list[str], kind: str = "") -> str:
    named = f' class="{kind}"' if kind else ""
    return f"<table{named}>{''.join(rows)}</table>"


def _read_back(pdf: bytes, sheet: TextSheet) -> None:
    """Every text of people stands on the pages."""
    document = mupdf().open(stream=pdf, filetype="pdf")
    flags = mupdf().TEXT_PRESERVE_WHITESPACE
    stands = squashed("".join(page.get_text(flags=flags, clip=page.rect) for page in document))
    for text in _texts(sheet):
        meant = squashed(text)
        if meant not in stands and not any(runs_leftwards(letter) or is_joined(letter) for letter in meant):
            raise PaperError(f"“{text[:60]}” cannot be printed as typed; write it with other letters or signs")


def _texts(sheet: TextSheet) -> list[str]:
    found: list[str] = []
    for block in sheet.blocks:
        match block:
            case SheetGroup():
                found += [entry.value for row in block.rows for entry in row]
            case Signing():
                found += [entry.value for row in block.entries for entry in row]
            case Listing():
                found += [cell.shown for row in block.rows if not isinstance(row, Divider) for cell in row]
            case _:
                pass
    return found
