"""The digests of what is handed out beside a paper, for its record."""

import hashlib

from domain.job.job import Job, record_hash
from storage.shapes.schedule_table import schedule_table
from storage.shapes.web_page import web_page

STAND_IN = "x" * 64
"""The page names its PDF and its record by digests, and the record holds the page's own: that is taken with this for both."""


def shape_digests(job: Job) -> tuple[str, str]:
    """SHA-256 of the web page and of the table of an issued job, in hexadecimal; "" where there is no table."""
    table = schedule_table(job)
    return digest_of(web_page(job, STAND_IN), record_hash(job)), digest_of(table) if table else ""


def digest_of(content: bytes, *counted: str) -> str:
    """SHA-256 in hexadecimal, with these digests in it counted as the stand-in."""
    for digest in counted:
        content = content.replace(digest.encode(), STAND_IN.encode())
    return hashlib.sha256(content).hexdigest()
