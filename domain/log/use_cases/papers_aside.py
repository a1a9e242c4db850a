"""Papers of issues that do not count here, or not yet: kept as they came, so that a person may let them count, and others hear of them."""

import base64
import hashlib
from datetime import datetime

from domain.laptops.operation import Operation
from domain.log.job_log import JobLogError
from domain.log.store import Store
from domain.log.use_cases.issuing import paper_of
from domain.log_note import LogNote

_TOPIC = "paper set aside "
"""Before the digest of the paper."""


def keep_paper_aside(store: Store, operation: Operation, pdf: bytes) -> None:
    """Keep the paper of an issue, where it is the one that was issued. Call it inside a transaction."""
    told = operation.told
    if hashlib.sha256(pdf).hexdigest() == told["pdf_sha"] and not _aside(store, operation):
        note = LogNote(at=datetime.fromisoformat(operation.at), who=told["who"], text=base64.b64encode(pdf).decode())
        store.notes.add(_TOPIC + told["pdf_sha"], note)


def paper_issued_by(store: Store, operation: Operation) -> bytes:
    """The paper of an issue, whether it counts here or not; b"" where it is not here."""
    record = store.papers.record(operation.job)
    if record and record.pdf_sha.hex() == operation.told["pdf_sha"]:
        return paper_of(store, operation.job)
    return _aside(store, operation)


def paper_come(store: Store, operation: Operation, came: bytes) -> bytes:
    """The paper of an issue that is to count now: as it came with it, or as it was kept; JobLogError where it did neither."""
    for pdf in (came, _aside(store, operation)):
        if hashlib.sha256(pdf).hexdigest() == operation.told["pdf_sha"]:
            return pdf
    raise JobLogError(f"The paper {operation.job} did not come with it, or not as it was issued.")


def _aside(store: Store, operation: Operation) -> bytes:
    notes = store.notes.of(_TOPIC + operation.told["pdf_sha"], "")
    return base64.b64decode(notes[-1].text) if notes else b""
