"""Whether a file is what was issued: with the log where there is one, and by the file alone where there is none.

The file is a stranger's. All that is read out of it, and all that is made from it, is read and made in processes of their
own that may take only so much.
"""

import json
import pickle
from collections.abc import Callable
from typing import Any

from domain.gate.issued_paper import IssuedPaper
from domain.gate.judging import judge
from domain.gate.proof import Exhibit, LaterState, NotAPdfError, Proof, ProofVerdict, Seal, TooMuchInItError
from domain.job.seal_key import fingerprint_of
from domain.log.certificates import certificates_known
from domain.log.job_log import JobLog, JobLogError
from domain.log.seal_keys import FIRM_KEYS
from storage.child_process import BeyondLimitsError, ProcessLimits, asked
from storage.errors import DamagedError
from storage.set_by import set_by
from storage.shapes.checking import proof_of_shape

Read = Callable[[str, bytes, ProcessLimits], bytes]
PACK_MAX = 64 * 1024 * 1024
"""Bytes; no pack comes near it."""
_TO_EXAMINE = ProcessLimits(memory=1024, seconds=20, written=16)
_TO_COMPARE = ProcessLimits(memory=2048, seconds=60, written=1)
"""For as many pages as are looked at, and for making them again."""


def proof_of(
    pdf: bytes, log: JobLog | None, read: Read = asked, *, firm: tuple[str, ...] = (), authorities: bytes = b""
) -> Proof:
    """The answer about a file. Only its bytes count, never its name; `firm` are the fingerprints it is asked about.

    `authorities` are the certificates, in PEM, that somebody's signature behind a paper may go back to.

    NotAPdfError for what is no PDF, TooMuchInItError for what takes more to read than any pack does. `read` is what has
    the functions below answer; nothing but a process of its own is safe from a stranger's file.

    Long because it is one question after another, each with what it hands on.
    """
    if shaped := proof_of_shape(pdf, log):
        return shaped
    exhibit = _examined(pdf, read, authorities)
    try:
        issued = _issued(log, exhibit.number) if log else None
    except DamagedError as altered:
        # The log has a record of it, and not one that can be gone by.
        return Proof(verdict=ProofVerdict.ALTERED, says=str(altered), number=exhibit.number, sha256=exhibit.sha256)
    known = certificates_known(log) if log and exhibit.later else ()
    behind = _seen_behind(pdf, exhibit, read)
    if exhibit.unreadable or (issued and issued.sha256 in {exhibit.sha256, exhibit.issued_sha256}):
        return judge(exhibit, issued, has_log=bool(log), remade=None, seen=(), known=known, behind=behind)
    kept = _kept_paper(exhibit, issued, log)
    paper = pdf[: exhibit.issued_bytes] if exhibit.later else pdf
    remade, seen = _compared(paper, exhibit, issued, kept, read)
    own = tuple(key.fingerprint for key in log.seal_keys()) if log else ()
    if log and not firm and not issued and (theirs := {*firm_keys(log)} & {*exhibit.keys}):
        # Another log of the firm issued it, and this one has not heard of it yet.
        firm = tuple(theirs)
    return judge(
        exhibit,
        issued,
        has_log=bool(log),
        remade=remade,
        seen=seen,
        set_by=set_by(),
        asked=firm,
        own=own,
        known=known,
        behind=behind,
    )


def firm_keys(log: JobLog) -> tuple[str, ...]:
    """The fingerprints of the keys that other logs of the firm seal with, its office and its laptops."""
    notes = [fingerprint_of(note.text) for note in log.notes(FIRM_KEYS)]
    own = log.laptops.own if log.laptops else None
    keys = [key.fingerprint for key in log.seal_keys()]
    return (*notes, *(keys[:-1] if own and not own.is_office else ()))


def _issued(log: JobLog, number: str) -> IssuedPaper | None:
    """The paper of this number, naming the newest of those that replaced it one after another."""
    issued = newest = log.issued(number) if number else None
    while newest and newest.replaced_by:
        newest = log.issued(newest.replaced_by)
    return (
        issued.model_copy(update={"replaced_by": newest.number})
        if issued and newest is not issued and newest
        else issued
    )


def _kept_paper(exhibit: Exhibit, issued: IssuedPaper | None, log: JobLog | None) -> bytes | None:
    """The paper the file should be, where the log keeps it; None where only its own record can tell."""
    if not (log and issued and exhibit.seal is not Seal.HOLDS):
        return None
    try:
        return log.paper(issued.number)
    except JobLogError:
        return b""


def _examined(pdf: bytes, read: Read, authorities: bytes) -> Exhibit:
    if len(pdf) > PACK_MAX:
        # Only its beginning was read, and its digest would say nothing.
        raise TooMuchInItError("It is larger than any pack; it is none of ours")
    answer = json.loads(_answered(read, "shown_by", pickle.dumps((pdf, authorities)), _TO_EXAMINE))
    if says := answer.get("no_pdf"):
        raise NotAPdfError(says)
    return Exhibit.model_validate(answer["exhibit"])


def _compared(
    pdf: bytes, exhibit: Exhibit, issued: IssuedPaper | None, kept: bytes | None, read: Read
) -> tuple[bool, tuple[str, ...]]:
    """Whether the file is the reference, and how it differs from it to the eye."""
    if kept == b"" or (kept is None and exhibit.record is None):
        return False, ()
    than = f"{issued.number} as issued" if issued else "the paper that its record makes"
    look = exhibit.seal is not Seal.HOLDS and exhibit.is_ours and not exhibit.is_draft
    request = pickle.dumps((pdf, kept, exhibit.record if kept is None else None, than if look else ""))
    answer = json.loads(_answered(read, "compared_to", request, _TO_COMPARE))
    return answer["same"], tuple(answer["seen"])


def _seen_behind(pdf: bytes, exhibit: Exhibit, read: Read) -> tuple[str, ...]:
    """How a file differs to the eye from its own first part, where what stands behind that is no mere signature."""
    if exhibit.later is None or exhibit.later.state is LaterState.HOLDS:
        return ()
    request = pickle.dumps((pdf, pdf[: exhibit.issued_bytes], None, "its first part"))
    return tuple(json.loads(_answered(read, "compared_to", request, _TO_COMPARE))["seen"])


def _answered(read: Read, function: str, request: bytes, limits: ProcessLimits) -> bytes:
    try:
        return read(f"{__name__}:{function}", request, limits)
    except BeyondLimitsError:
        raise TooMuchInItError(
            "It takes more memory or time to read than any pack does, so it was not read to its end; it is none of ours"
        ) from None


def shown_by(request: bytes) -> bytes:
    """What a file shows of itself, in JSON."""
    from storage.paper.examining import examine

    # Made by the program that asks; nothing in it but bytes.
    pdf, authorities = pickle.loads(request)
    try:
        shown: dict[str, Any] = {"exhibit": examine(pdf, authorities).model_dump(mode="json")}
    except NotAPdfError as error:
        shown = {"no_pdf": str(error)}
    return json.dumps(shown).encode()


def compared_to(request: bytes) -> bytes:
    """How a file stands to the one it should be, in JSON."""
    from storage.paper.examining import differences
    from storage.paper.seal import without_signature

    # Made by the program that asks; nothing in it but bytes, texts and a job.
    pdf, kept, record, than = pickle.loads(request)
    reference = _remade(record) if record else kept
    seen = differences(pdf, reference, than) if reference and than else ()
    return json.dumps({"same": reference == (without_signature(pdf) if record else pdf), "seen": seen}).encode()


def _remade(record: Any) -> bytes | None:
    from domain.gate.assessment import Pack
    from domain.gate.report_outcome import outcome_of
    from storage.paper.paper_error import PaperError
    from storage.pdf import bind

    if record.issued is None:
        return None
    try:
        return bind(Pack(job=record, outcome=outcome_of(record))).pdf
    except PaperError:
        return None
