"""A file opened without trust: what it shows of itself, and how it differs from another."""

import hashlib
from collections.abc import Iterator
from functools import cache
from typing import Any, cast

from domain.gate.proof import Exhibit, NotAPdfError, Seal
from domain.job.exchange import ExchangeError, job_from_json
from domain.job.job import Job
from domain.job.seal_key import SealedWith, fingerprint_of, sealing_text, succession_text
from domain.log.put_right.letter import TITLE as LETTER_TITLE
from storage.keys.ed25519 import is_signed
from storage.pades.checking import later_signature
from storage.paper.mupdf import mupdf, troubles
from storage.paper.packing import MAKER
from storage.paper.seal import SealCheck, bears_mark, holds, issued_part, seal_of, signature_of

_ATTACHED = 4
"""Files attached to a document; a pack has one."""
_PAGES = 200
_SCANNED = 5
"""Pages that are looked at for whether a file is a scan."""
_SAYS = ("title", "author", "subject", "keywords", "creator", "producer")
"""What a file says of itself, as the library names it."""
_SIGHT = 50
"""Dots to the inch at which pages are compared."""
_SEALS = {SealCheck.YES: Seal.HOLDS, SealCheck.NO: Seal.BROKEN, SealCheck.ABSENT: Seal.ABSENT}


def examine(pdf: bytes, authorities: bytes = b"") -> Exhibit:
    """What the file shows. NotAPdfError for what is no PDF and never was a paper of ours.

    `authorities` are certificates in PEM that are gone by where somebody signed the paper afterwards.
    """
    if issued := issued_part(pdf):
        return _examined(issued).model_copy(
            update={
                "sha256": hashlib.sha256(pdf).hexdigest(),
                "issued_bytes": len(issued),
                "issued_sha256": hashlib.sha256(issued).hexdigest(),
                "later": later_signature(pdf, len(issued), authorities),
            }
        )
    return _examined(pdf)


def _examined(pdf: bytes) -> Exhibit:
    if b"%PDF-" not in pdf[:1024] and not bears_mark(pdf):
        raise NotAPdfError("It is not a PDF")
    sha256, seal = hashlib.sha256(pdf).hexdigest(), _SEALS[holds(pdf)]
    ours = bears_mark(pdf)
    document = opened(pdf)
    if document is None or document.needs_pass:
        says = (
            "This file is locked with a password, which no pack is; nothing in it can be read."
            if document
            else "This file is damaged or cut off, and nothing left in it can be read."
        )
        return Exhibit(sha256=sha256, seal=seal, is_ours=ours, unreadable="" if ours else says)
    said: dict[str, str] = document.metadata or {}
    records = _records(document)
    title = said.get("title") or ""
    made_here = said.get("creator") == MAKER
    return Exhibit(
        sha256=sha256,
        seal=seal,
        is_ours=ours or bool(records) or made_here,
        is_draft=made_here and title.startswith("DRAFT ") and not ours,
        is_scan=not ours and not records and not made_here and _is_scan(document),
        is_letter=made_here and title.startswith(LETTER_TITLE) and not ours and not records,
        number=records[0][0].number if records else title.rpartition(" ")[2] if made_here else "",
        **(_said_by(pdf, *records[0]) if records else {}),
    )


def attached_record(pdf: bytes) -> bytes:
    """What is attached to a file of ours, unread; b"" where it is not just one thing."""
    document = opened(pdf)
    held = (None if document is None or document.needs_pass else _attached(document)) or ()
    return held[0] if len(held) == 1 else b""


def _said_by(pdf: bytes, record: Job, sha256: str) -> dict[str, Any]:
    """What the record shows, and how the signature over it stands by the key it names."""
    said: dict[str, Any] = {"record": record, "record_sha256": sha256}
    if record.issued is None or (held := record.issued.sealed_with) is None:
        return said
    text = sealing_text(record.number, sha256, seal_of(pdf), record.issued.head, held.key)
    signature = signature_of(pdf)
    stands = Seal.HOLDS if is_signed(held.key, text, signature) else Seal.BROKEN if signature else Seal.ABSENT
    return said | {"signature": stands, "keys": tuple(map(fingerprint_of, _leading_to(held)))}


def _leading_to(held: SealedWith) -> Iterator[str]:
    """The key, and those before it for as long as each one's statement over the next holds."""
    yield (key := held.key)
    for before in reversed(held.earlier):
        if not is_signed(before.key, succession_text(key), before.statement):
            return
        yield (key := before.key)


def differences(pdf: bytes, reference: bytes, than: str) -> tuple[str, ...]:
    """How a file differs, to the eye and in what it carries, from the one it should be; `than` names that one."""
    document, other = _to_look_at(pdf), _to_look_at(reference)
    if document is None or other is None or document.needs_pass:
        return ("Its pages cannot be shown.",)
    return tuple(_differences(document, other, than))


def _to_look_at(pdf: bytes) -> Any:
    """The document without what it says to readers of its structure, which the library follows without care when drawing."""
    document = opened(pdf)
    if document is None or document.needs_pass:
        return document
    try:
        catalog = document.pdf_catalog()
        for key in ("StructTreeRoot", "MarkInfo"):
            document.xref_set_key(catalog, key, "null")
    except troubles():
        return None
    return document


@cache
def _document() -> Any:
    """The library's document, which does not read the outline of a file at once: that is most of opening it, and ours have none."""

    class WithoutOutline(mupdf().Document):
        def _loadOutline(self) -> None:  # noqa: N802 - the library's name
            return None

    return WithoutOutline


def opened(pdf: bytes) -> Any:
    """The document, repaired where it must be; None where nothing can be made of it."""
    library = mupdf()
    library.TOOLS.mupdf_display_errors(False)  # noqa: FBT003 - the library takes it so
    library.TOOLS.mupdf_display_warnings(False)  # noqa: FBT003
    try:
        document = _document()(stream=pdf, filetype="pdf")
        return document if document.needs_pass or len(document) else None
    except troubles():
        return None


def _is_scan(document: Any) -> bool:
    """Pictures on every page that is looked at, and no text on any."""
    try:
        pages = [document[at] for at in range(min(len(document), _SCANNED))]
        return all(page.get_images() and not page.get_text().strip() for page in pages)
    except troubles():
        return False


def _records(document: Any) -> list[tuple[Job, str]]:
    contents = _attached(document) or ()
    try:
        return [(job_from_json(content), hashlib.sha256(content).hexdigest()) for content in contents]
    except ExchangeError:
        return []


def _differences(document: Any, other: Any, than: str) -> Iterator[str]:
    if len(document) != len(other):
        yield f"It has {len(document)} pages; {than} has {len(other)}."
    unlike = [at + 1 for at in range(min(len(document), len(other), _PAGES)) if not _alike(document, other, at)]
    if unlike:
        named = ", ".join(map(str, unlike[:12])) + (" and more" if len(unlike) > 12 else "")
        yield f"Page{'s' if len(unlike) > 1 else ''} {named} {'do' if len(unlike) > 1 else 'does'} not look as in {than}."
    if noted := [at + 1 for at in range(min(len(document), _PAGES)) if _has_notes(document, at)]:
        yield f"Notes or form fields were put on page {', '.join(map(str, noted[:12]))}."
    said, meant = (cast("dict[str, str | None]", each.metadata or {}) for each in (document, other))
    if changed := [name for name in _SAYS if (said.get(name) or "") != (meant.get(name) or "")]:
        yield f"What it says of itself was changed: {', '.join(changed)}."
    if _attached(document) != _attached(other):
        yield f"What is attached to it is not what is attached to {than}."
    elif not unlike and not noted and len(document) == len(other):
        yield f"Its pages and its record are those of {than}; the file around them was written anew."


def _alike(document: Any, other: Any, at: int) -> bool:
    try:
        looks = [each[at].get_pixmap(dpi=_SIGHT, annots=True) for each in (document, other)]
    except troubles():
        return False
    return (looks[0].width, looks[0].height, looks[0].samples) == (looks[1].width, looks[1].height, looks[1].samples)


def _has_notes(document: Any, at: int) -> bool:
    try:
        page = document[at]
        return page.first_annot is not None or page.first_widget is not None
    except troubles():
        return False


def _attached(document: Any) -> tuple[bytes, ...] | None:
    """What is attached, in the order of the file; None where it cannot be read, or there is more than is looked at."""
    try:
        count = document.embfile_count()
        return tuple(bytes(document.embfile_get(at)) for at in range(count)) if count <= _ATTACHED else None
    except troubles():
        return None
