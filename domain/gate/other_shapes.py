"""What `verify` answers of a file that is no pack: the web page or table beside one, or a picture of one."""

import re
from enum import StrEnum

from domain.gate.issued_paper import IssuedPaper
from domain.gate.proof import Proof, ProofVerdict

SCAN = (
    "This is a picture of pages, such as a scan, a print or a photograph; pictures cannot be checked. The number of a paper "
    "stands at the top right of page 1 and in the head of every later page: ask whoever gave it to you, or the firm named at "
    "the top, for the PDF of that number, and check that."
)
_TITLE = re.compile(rb"<title>[^<]{1,200} ([A-Z0-9]{1,8}-[0-9]{1,9})</title>")
_PICTURES = (b"\x89PNG\r\n", b"\xff\xd8\xff", b"II*\x00", b"MM\x00*", b"GIF8", b"BM")
_HEAD = 4096


class ShapeKind(StrEnum):
    """Which shape of a pack a file is."""

    PAGE = "web page"
    TABLE = "table of schedules"


def is_picture(content: bytes) -> bool:
    """It begins as pictures of the usual kinds do."""
    return (
        content.startswith(_PICTURES) or content[4:8] == b"ftyp" or (content[:4], content[8:12]) == (b"RIFF", b"WEBP")
    )


def shape_in(content: bytes, table_begins: bytes) -> tuple[ShapeKind, str] | None:
    """Which shape of a pack this says it is, and of which number; None for anything else.

    `table_begins` is how the first line of every table of schedules begins.
    """
    if content[:_HEAD].startswith(b"<!DOCTYPE html>") and (title := _TITLE.search(content[:_HEAD])):
        return ShapeKind.PAGE, title[1].decode()
    if content.startswith(table_begins):
        second = content.partition(b"\r\n")[2]
        return ShapeKind.TABLE, second[:40].partition(b",")[0].decode("ascii", "replace")
    return None


def judge_shape(
    kind: ShapeKind,
    number: str,
    sha256: str,
    issued: IssuedPaper | None,
    *,
    has_log: bool,
    is_same: bool,
    is_recorded: bool,
    by_same_version: bool,
) -> Proof:
    """The answer; `is_same` says that it is the one of the log's record, by its digest there or made again.

    `is_recorded` says that the record holds a digest of it, `by_same_version` that this program is the one that issued it.
    """

    def answer(verdict: ProofVerdict, says: str) -> Proof:
        replaced = issued.replaced_by if issued and verdict is ProofVerdict.REPLACED else ""
        return Proof(verdict=verdict, says=says, number=number, sha256=sha256, replaced_by=replaced)

    ask = "The document is the PDF: ask for that, and check it."
    if issued is None:
        where = "this log did not issue it" if has_log else "there is no log here to say whether it is as issued"
        return answer(ProofVerdict.UNKNOWN, f"This is the {kind} beside {number}; {where}. {ask}")
    if is_same and issued.replaced_by:
        says = f"This is the {kind} of {number}, unaltered, but it has been replaced by {issued.replaced_by}."
        return answer(ProofVerdict.REPLACED, says)
    if is_same:
        return answer(ProofVerdict.UNALTERED, f"This is the {kind} of {number}, unaltered, as this log handed it out.")
    if is_recorded and not by_same_version:
        says = f"This is not the {kind} of {number} as it was handed out at its issue, nor as this program makes it: it was altered, "
        return answer(ProofVerdict.ALTERED, f"{says}or a third version of the program handed it out in between. {ask}")
    if by_same_version:
        return answer(
            ProofVerdict.ALTERED, f"This is not the {kind} of {number} as this log handed it out: it was altered."
        )
    says = f"This is a {kind} of {number} that another version of the program made, or that was altered. {ask}"
    return answer(ProofVerdict.UNKNOWN, says)
