"""The last hand on a document: canvases painted, heads and feet, the draft mark, fonts, metadata."""

from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from storage.paper import seal
from storage.paper.attaching import Attachment, attach
from storage.paper.escape import clean
from storage.paper.grid import text_width
from storage.paper.mupdf import mupdf
from storage.paper.pen import Pen
from storage.paper.press import PageMark, Press
from storage.paper.style import ACCENT, FAILING, SLATE
from storage.paper.unicode_maps import repair_unicode_maps

_SIZE = 7.5
_MARK_SIZE = 52
_MARK_OPACITY = 0.16


@dataclass(frozen=True)
class Imprint:
    """What every page and the file itself say of the paper."""

    paper: str
    number: str
    """Or that there is none yet."""
    foot: str
    author: str
    at: datetime | None
    """The issue; None on a draft."""
    draft_mark: str = ""
    """Set across every page of a draft; empty on an issued paper."""
    record: Attachment | None = None
    """What an issued paper was made from."""


def finished(press: Press, imprint: Imprint) -> tuple[bytes, int]:
    """The file, and its number of pages. The same pages and imprint give the same bytes."""
    document = press.document()
    pages = len(document)
    for at, mark in enumerate(press.marks):
        page = document[at]
        page.wrap_contents()
        if painter := press.painters.get(at):
            painter(page)
        _stamp(page, mark, imprint, f"page {at + 1} of {pages}")
    sealing = _draw_seal(document, press)
    document.subset_fonts()
    repair_unicode_maps(document)
    if imprint.record:
        attach(document, imprint.record, _stamped(imprint.record.at))
    _describe(document, imprint)
    if sealing:
        seal.prepare(document, sealing)
    written: bytes = document.tobytes(garbage=3, deflate=True, no_new_id=True, use_objstms=1)
    # On saving, the library has a file with attachments open at their panel; ours opens at the bookmarks.
    return written.replace(b"/PageMode/UseAttachments", b"/PageMode/UseOutlines   ", 1), pages


def _draw_seal(document: Any, press: Press) -> int:
    if press.seal is None:
        return 0
    spot = press.seal.spots[0]
    return seal.draw_unsealed(document[spot.page], spot)


def _stamp(page: Any, mark: PageMark, imprint: Imprint, count: str) -> None:
    area = mark.area
    pen = Pen(page)
    head, foot = area.top - 18, area.height - 22
    pen.write(imprint.paper, area.left, head, _SIZE, ACCENT, bold=True)
    if mark.title != imprint.paper:
        after = area.left + text_width(imprint.paper, _SIZE, bold=True) + 8
        pen.write(mark.title, after, head, _SIZE, SLATE)
    pen.write_to(clean(imprint.number), area.right, head, _SIZE, ACCENT, bold=True)
    pen.line((area.left, head + 5), (area.right, head + 5), ACCENT, 0.7)
    pen.line((area.left, foot - 10), (area.right, foot - 10), ACCENT, 0.4)
    pen.write(clean(imprint.foot), area.left, foot, _SIZE, SLATE)
    pen.write_to(count, area.right, foot, _SIZE, SLATE)
    pen.finish()
    if imprint.draft_mark:
        _mark(page, imprint.draft_mark)


def _mark(page: Any, text: str) -> None:
    library = mupdf()
    centre = library.Point(page.rect.width / 2, page.rect.height / 2)
    start = library.Point(centre.x - text_width(text, _MARK_SIZE, bold=True) / 2, centre.y + _MARK_SIZE / 3)
    writer = library.TextWriter(page.rect, opacity=_MARK_OPACITY, color=FAILING)
    writer.append(start, text, font=library.Font("hebo"), fontsize=_MARK_SIZE)
    angle = 52 if page.rect.height > page.rect.width else 32
    writer.write_text(page, morph=(centre, library.Matrix(angle)))


def _describe(document: Any, imprint: Imprint) -> None:
    draft = "DRAFT " if imprint.draft_mark else ""
    written = {"creationDate": _stamped(imprint.at), "modDate": _stamped(imprint.at)} if imprint.at else {}
    document.set_metadata(
        {
            "title": f"{draft}{imprint.paper} {clean(imprint.number)}",
            "author": clean(imprint.author),
            "creator": "Ohmfolio",
            "producer": "Ohmfolio",
        }
        | written
    )
    catalog = document.pdf_catalog()
    document.xref_set_key(catalog, "Lang", "(en-GB)")
    document.xref_set_key(catalog, "ViewerPreferences", "<</DisplayDocTitle true>>")
    document.xref_set_key(catalog, "PageMode", "/UseOutlines")
    document.xref_set_key(catalog, "Info", "null")


def _stamped(at: datetime) -> str:
    return f"D:{at.astimezone(UTC) if at.tzinfo else at:%Y%m%d%H%M%S}Z"
