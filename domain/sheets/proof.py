"""The sheet of an issued paper that says what it can be checked by."""

from domain.civil_time import written_moment
from domain.job.job import Job, record_hash
from domain.job.seal_key import fingerprint_of, in_groups
from domain.sheets.sheet import Block, SheetEntry, SheetGroup, SheetNote, SheetSeal, TextSheet, ValueOrigin

TITLE = "Proof of this document"
SEAL = "Seal: SHA-256 of the PDF, with the seal and any signature beside it counted as zeros"
_KEY = "Key this document is signed with, held by"
_WHOLE = """\
- **ohmfolio verify** and the name of the PDF: compares the file with the log that issued it, and says whether it is as issued, \
altered, replaced, or not known there. It needs no network.
- Where that log is not at hand, the same command checks that the seal holds and that the pages, made again from the attached \
record, come out the same. That tells an altered file from a whole one.
"""
_WHO_BY_KEY = """\
- Who issued it, the key tells. Ask the firm for its forty letters and figures, not this document, and put **--firm** and them \
behind that command; no log is needed. A document bound again bears another key or signature.
"""
_WHO_BY_LOG = "- Who issued it, only the log can tell.\n"
_WHAT_IT_SHOWS = """\
- One changed byte breaks the seal, and so does saving the file again with another program: pass on the PDF as you received it. A \
print or scan cannot be checked: ask whoever gave it to you for the PDF of the number on page 1.
- It shows that the document is as it was issued, not that what was written in it is true.
"""


def proof_of(job: Job) -> TextSheet:
    """Hashes of the record and of the log it was issued from, the seal of the file, and how to check them."""
    assert job.issued is not None
    issued = SheetEntry(
        "Issued", f"{written_moment(job.issued.at)}, by {job.issued.by}", origin=ValueOrigin.OURS, weight=2
    )
    key = job.issued.sealed_with
    signed_with = _ours(f"{_KEY} {job.firm.name}", in_groups(fingerprint_of(key.key))) if key else None
    blocks: tuple[Block, ...] = (
        SheetGroup(
            "",
            (
                (SheetEntry("Number", job.number), issued),
                (_ours("SHA-256 of the attached record", record_hash(job)),),
                (_ours("Head of the log before this issue", job.issued.head or "no log"),),
                *(((signed_with,),) if signed_with else ()),
            ),
        ),
        SheetSeal("", SEAL),
        SheetNote(_WHOLE + (_WHO_BY_KEY if key else _WHO_BY_LOG) + _WHAT_IT_SHOWS, "How to check it"),
    )
    return TextSheet(TITLE, "That it is complete, unaltered, and issued from the log it names", blocks)


def _ours(label: str, value: str) -> SheetEntry:
    return SheetEntry(label, value, origin=ValueOrigin.OURS)
