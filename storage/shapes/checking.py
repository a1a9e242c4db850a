"""Whether a web page or table is what the log's record makes again; a picture is told as one."""

import hashlib

from domain.gate.issued_paper import IssuedPaper
from domain.gate.other_shapes import SCAN, ShapeKind, is_picture, judge_shape, shape_in
from domain.gate.proof import Proof, ProofVerdict
from domain.job.job_number import is_job_number
from domain.log.job_log import JobLog
from storage.set_by import set_by
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
    return judge_shape(
        kind,
        number,
        sha256,
        issued,
        has_log=log is not None,
        is_same=issued is not None and _made_again(kind, issued) == content,
        by_same_version=stamp is not None and stamp.set_by == set_by(),
    )


def _made_again(kind: ShapeKind, issued: IssuedPaper) -> bytes | None:
    job = issued.pack.job
    return web_page(job, issued.sha256) if kind is ShapeKind.PAGE else schedule_table(job)
