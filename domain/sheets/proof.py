"""The last sheet of an issued paper: what it can be checked by."""

from domain.civil_time import written_moment
from domain.job.job import Job, record_hash
from domain.sheets.sheet import Block, SheetEntry, SheetGroup, SheetNote, SheetSeal, TextSheet, ValueOrigin

TITLE = "Proof of this document"
SEAL = "Seal: SHA-256 of the PDF, with the seal itself counted as zeros"
_CHECK = """\
- The command **ohmfolio verify** followed by the name of the PDF compares that file with the log that issued it, and says \
whether it is the file as issued, was altered, is not known there, or has been replaced by a later document. It needs no network.
- Where the log is not at hand, the same command checks what the PDF can show alone: that its seal holds, and that its pages, \
made again from the record attached to it, come out the same. That tells an altered file from a whole one; who issued it, only \
the log can tell.
- One changed, added or missing byte breaks the seal, and so does saving the file again with another program. Pass on the PDF as \
you received it. A print on paper cannot be checked in this way; ask for the file.
- It shows that the document is as it was issued. It does not show that what was written in it is true.
"""


def proof_of(job: Job) -> TextSheet:
    """Hashes of the record and of the log it was issued from, the seal of the file, and how to check them."""
    assert job.issued is not None
    issued = SheetEntry(
        "Issued", f"{written_moment(job.issued.at)}, by {job.issued.by}", standing=ValueOrigin.OURS, weight=2
    )
    blocks: tuple[Block, ...] = (
        SheetGroup(
            "",
            (
                (SheetEntry("Number", job.number), issued),
                (
                    _ours(
                        "SHA-256 of the record this document was made from, which is attached to the PDF",
                        record_hash(job),
                    ),
                ),
                (_ours("Head of the log of issued documents when this one was issued", job.issued.head or "no log"),),
            ),
        ),
        SheetSeal("", SEAL),
        SheetNote(_CHECK, "How to check it"),
    )
    return TextSheet(TITLE, "That it is complete, unaltered, and issued from the log it names", blocks)


def _ours(label: str, value: str) -> SheetEntry:
    return SheetEntry(label, value, standing=ValueOrigin.OURS)
