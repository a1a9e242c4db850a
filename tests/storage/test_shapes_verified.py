"""The web page and the table beside a pack, and scans, given to `verify`."""

import pymupdf
import pytest

from domain.gate.issued_paper import IssuedPaper
from domain.gate.proof import Proof, ProofVerdict
from domain.job.job import Job, canonical, record_hash
from domain.log.job_log import BoundPaper
from domain.log.stored_log import StoredLog
from storage.child_process import named
from storage.pdf import bind
from storage.shapes.digests import STAND_IN, digest_of
from storage.shapes.schedule_table import schedule_table
from storage.shapes.web_page import web_page
from storage.sqlite_job_log import SqliteJobLog
from storage.sqlite_store import SqliteStore
from storage.verifying import proof_of as proof_apart
from tests.builders import AT, INSPECTOR, complete_certificate, complete_minor_works


@pytest.fixture(scope="module")
def log(tmp_path_factory):
    log = SqliteJobLog.open(tmp_path_factory.mktemp("home"))
    yield log
    log.close()


@pytest.fixture(scope="module")
def shapes(log) -> dict[str, bytes]:
    number = log.create(complete_certificate(), who="tamsin", at=AT).number
    issued = log.issue(number, by=INSPECTOR, at=AT, bind=bind)
    assert isinstance(issued, IssuedPaper)
    table = schedule_table(issued.pack.job)
    assert table
    return {"web page": web_page(issued.pack.job, issued.sha256), "table of schedules": table}


def proof_of(content: bytes, log: SqliteJobLog | None) -> Proof:
    return proof_apart(content, log, lambda function, request, _: named(function)(request))


@pytest.mark.parametrize("kind", ["web page", "table of schedules"])
def test_what_stands_beside_a_pack_is_told_as_handed_out_altered_or_not_to_be_told_without_the_log(kind, log, shapes):
    proof = proof_of(shapes[kind], log)
    assert (proof.verdict, proof.number) == (ProofVerdict.UNALTERED, "A-0001")
    assert kind in proof.says
    altered = shapes[kind].replace(b">999", b">888", 1).replace(b"&gt;999", b"&gt;888", 1)
    assert altered != shapes[kind]
    assert proof_of(altered, log).verdict is ProofVerdict.ALTERED
    assert proof_of(shapes[kind], None).verdict is ProofVerdict.UNKNOWN
    other = shapes[kind].replace(b"A-0001", b"A-0077")
    assert proof_of(other, log).verdict is ProofVerdict.UNKNOWN


def test_the_record_holds_the_digests_so_that_a_page_of_another_version_of_the_program_is_told_without_making_it(
    tmp_path,
):
    def other_page(job: Job, pdf_sha256: str) -> bytes:
        return web_page(job, pdf_sha256) + b"<!-- as an earlier version closed it -->"

    def other_digests(job: Job) -> tuple[str, str]:
        return digest_of(other_page(job, STAND_IN), record_hash(job)), digest_of(
            b"a table as an earlier version wrote it"
        )

    log = StoredLog(SqliteStore.open(tmp_path / "home"), lambda: "an earlier version", shapes=other_digests)
    number = log.create(complete_minor_works(), who="tamsin", at=AT).number
    issued = log.issue(number, by=INSPECTOR, at=AT, bind=lambda _: BoundPaper(pdf=b"%PDF-1.7", pages=1))
    page = other_page(issued.pack.job, issued.sha256)
    assert proof_of(page, log).verdict is ProofVerdict.UNALTERED
    assert proof_of(web_page(issued.pack.job, issued.sha256), log).verdict is ProofVerdict.UNALTERED, "handed out again"
    altered = page.replace(b"&gt;999", b"&gt;888", 1)
    assert proof_of(altered, log).verdict is ProofVerdict.ALTERED
    nameless = page.replace(issued.sha256.encode(), STAND_IN.encode())
    assert proof_of(nameless, log).verdict is ProofVerdict.ALTERED, "it names no PDF"
    log.close()


def test_a_record_older_than_the_digests_is_checked_by_making_page_and_table_again(tmp_path):
    log = StoredLog(SqliteStore.open(tmp_path / "home"), lambda: "an earlier version")
    number = log.create(complete_certificate(), who="tamsin", at=AT).number
    issued = log.issue(number, by=INSPECTOR, at=AT, bind=lambda _: BoundPaper(pdf=b"%PDF-1.7", pages=1))
    assert b"page_sha256" not in canonical(issued.pack.job)
    page = web_page(issued.pack.job, issued.sha256)
    assert proof_of(page, log).verdict is ProofVerdict.UNALTERED
    assert proof_of(schedule_table(issued.pack.job), log).verdict is ProofVerdict.UNALTERED
    assert proof_of(page.replace(b"&gt;999", b"&gt;888", 1), log).verdict is ProofVerdict.UNKNOWN
    log.close()


def _scan() -> bytes:
    dots = pymupdf.Pixmap(pymupdf.csRGB, pymupdf.IRect(0, 0, 40, 60))
    dots.clear_with(255)
    document = pymupdf.open()
    document.new_page().insert_image(pymupdf.Rect(0, 0, 400, 600), pixmap=dots)
    return document.tobytes()


@pytest.mark.parametrize("content", [_scan(), b"\x89PNG\r\n\x1a\n0000", b"\xff\xd8\xff\xe0 picture"])
def test_a_scan_is_told_where_the_number_stands_and_what_to_ask_for(content: bytes, log):
    proof = proof_of(content, log)
    assert proof.verdict is ProofVerdict.UNKNOWN
    assert "top right of page 1" in proof.says
    assert "PDF of that number" in proof.says


def test_what_a_file_says_of_itself_is_named_where_it_was_changed(log, shapes):
    document = pymupdf.open(stream=log.paper("A-0001"), filetype="pdf")
    document.set_metadata({**(document.metadata or {}), "author": "Somebody else"})
    proof = proof_of(document.tobytes(), log)
    assert proof.verdict is ProofVerdict.ALTERED
    assert any("What it says of itself was changed: author" in note for note in proof.notes)
