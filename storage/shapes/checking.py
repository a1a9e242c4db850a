"""Whether a web page or table is the one whose digest the log's record holds; a picture is told as one."""

import hashlib

from domain.gate.issued_paper import IssuedPaper
from domain.gate.other_shapes import SCAN, ShapeKind, is_picture, judge_shape, shape_in
from domain.gate.proof import Proof, ProofVerdict
from domain.job.job import IssueStamp
from domain.job.job_number import is_job_number
from domain.log.job_log import JobLog
from storage.set_by import set_by
from storage.shapes.digests import STAND_IN, digest_of
from storage.shapes.schedule_table import TABLE_BEGINS, schedule_table
from storage.shapes.web_page import web_page


def proof_of_shape(content: bytes, log: JobLog | None) -> Proof | None:
    """The answer about what is no PDF; None for what is no shape of a pack, nor a picture. Nothing in it is run or followed."""
    sha256 = hashlib.sha256(content).hexdigest()
    if is_picture(content):
        return Proof(verdict=ProofVerdict.UNKNOWN, says=SCAN, sha256=sha256)
    if (shape := shape_in(content, TABLE_BEGINS)) is None or not is_job_number(shape[1]):
        return None
    kind, number = shape
    issued = log.issued(number) if log else None
    stamp = issued.pack.job.issued if issued else None
    recorded = _recorded(kind, stamp)
    return judge_shape(
        kind,
        number,
        sha256,
        issued,
        has_log=log is not None,
        is_same=issued is not None
        and (_is_as_recorded(content, recorded, issued) or _made_again(kind, issued) == content),
        is_recorded=recorded != "",
        by_same_version=stamp is not None and stamp.set_by == set_by(),
    )


def _recorded(kind: ShapeKind, stamp: IssueStamp | None) -> str:
    """Its digest in the record; "" in a record older than these."""
    if stamp is None:
        return ""
    return stamp.page_sha256 if kind is ShapeKind.PAGE else stamp.table_sha256


def _is_as_recorded(content: bytes, recorded: str, issued: IssuedPaper) -> bool:
    """Where the stand-in for the digests that a page names stands in it already, it does not name them."""
    return (
        recorded != ""
        and STAND_IN.encode() not in content
        and recorded == digest_of(content, issued.sha256, issued.record_sha256)
    )


def _made_again(kind: ShapeKind, issued: IssuedPaper) -> bytes | None:
    """As this program hands it out: the only way to tell of older records, and of what another version handed out again."""
    job = issued.pack.job
    return web_page(job, issued.sha256) if kind is ShapeKind.PAGE else schedule_table(job)
