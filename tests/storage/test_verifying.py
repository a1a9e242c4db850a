"""What is said of a file: as issued, altered, unknown, or replaced; with the log and without."""

import shutil
import subprocess
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path

import pymupdf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.editing.commands import Sign
from domain.gate.assessment import Pack
from domain.gate.issued_paper import IssuedPaper
from domain.gate.proof import NotAPdfError, Proof, ProofVerdict, TooMuchInItError
from domain.job.job import Job
from storage.child_process import named
from storage.pdf import bind, bind_draft
from storage.sqlite_job_log import SqliteJobLog
from storage.verifying import proof_of as proof_apart
from tests.builders import AT, INSPECTOR, complete_certificate, complete_minor_works, entered, signed
from tests.examples import examples

pytestmark = pytest.mark.usefixtures("processes_part")

WHO = "tamsin"
LATER = AT + timedelta(hours=1)


def _issue(log: SqliteJobLog, job: Job, at: datetime = AT) -> IssuedPaper:
    number = log.create(job, who=WHO, at=at).number
    issued = log.issue(number, by=INSPECTOR, at=at, bind=bind)
    assert isinstance(issued, IssuedPaper)
    return issued


@pytest.fixture(scope="module")
def log(tmp_path_factory):
    log = SqliteJobLog.open(tmp_path_factory.mktemp("home"))
    yield log
    log.close()


@pytest.fixture(scope="module")
def issued(log) -> IssuedPaper:
    return _issue(log, complete_certificate())


def proof_of(pdf: bytes, log: SqliteJobLog | None) -> Proof:
    """The answer, read in the process that tests: a process for each file would take minutes."""
    return proof_apart(pdf, log, lambda function, request, _: named(function)(request))


class Bytes(bytes):
    """A file that is not printed whole when a test fails."""

    def __repr__(self) -> str:
        return f"<{len(self)} bytes>"


@pytest.fixture(scope="module")
def pdf(issued) -> bytes:
    return Bytes(Path(issued.kept).read_bytes())


def _edited(pdf: bytes, edit: Callable[[pymupdf.Document], None], **save: object) -> bytes:
    document = pymupdf.open(stream=pdf, filetype="pdf")
    edit(document)
    return document.tobytes(**save)


def _said(proof: Proof) -> str:
    return " ".join([proof.says, *proof.notes])


def test_the_file_as_issued_is_unaltered_whatever_its_name(log, issued, pdf):
    proof = proof_apart(pdf, log)
    assert proof.verdict is ProofVerdict.UNALTERED
    assert (proof.number, proof.issued_at, proof.issued_by) == (issued.number, AT, INSPECTOR)
    assert proof.sha256 == issued.sha256
    assert proof.record_sha256 == issued.record_sha256


def test_without_a_log_the_file_shows_that_it_is_whole_and_no_more(pdf):
    proof = proof_of(pdf, None)
    assert proof.verdict is ProofVerdict.UNKNOWN
    assert "no log here" in proof.says
    assert "whole in itself" in _said(proof)


def test_a_pack_of_another_log_is_unknown_here_though_whole(log, issued, tmp_path):
    other = SqliteJobLog.open(tmp_path)
    job = signed(entered(complete_minor_works(sign=False), {"name": "Sorrel Wick"}, section="client"))
    theirs = [Path(_issue(other, job, LATER).kept).read_bytes() for _ in range(2)]
    other.close()
    same_number, other_number = (proof_of(each, log) for each in theirs)
    assert same_number.number == issued.number
    assert same_number.verdict is other_number.verdict is ProofVerdict.UNKNOWN
    assert "another document" in same_number.says
    assert "not issued from this log" in other_number.says
    assert "whole in itself" in _said(other_number)


def test_a_draft_proves_nothing(log):
    proof = proof_of(bind_draft(complete_certificate()).pdf, log)
    assert proof.verdict is ProofVerdict.UNKNOWN
    assert "draft" in proof.says


def test_a_pdf_of_somebody_else_is_unknown(log):
    document = pymupdf.open()
    document.new_page().insert_text((50, 50), "A-0001")
    proof = proof_of(document.tobytes(), log)
    assert proof.verdict is ProofVerdict.UNKNOWN
    assert "Nothing in this file says" in proof.says


def test_what_is_no_pdf_is_not_judged(log):
    for other in (b"", b"plain text", b"PK\x03\x04" + bytes(200)):
        with pytest.raises(NotAPdfError):
            proof_of(other, log)


def test_a_locked_file_cannot_be_read(log, pdf):
    locked = _edited(pdf, lambda _: None, encryption=pymupdf.PDF_ENCRYPT_AES_256, owner_pw="o", user_pw="u")
    proof = proof_of(locked, log)
    assert proof.verdict is ProofVerdict.UNKNOWN
    assert "password" in proof.says


def test_a_file_larger_than_any_pack_is_none(log):
    with pytest.raises(TooMuchInItError, match="larger than any pack"):
        proof_of(b"%PDF-1.7" + bytes(64 * 1024 * 1024), log)


def _swap_attachment(document: pymupdf.Document) -> None:
    content = bytes(document.embfile_get(0)).replace(b'"zs":"0.49"', b'"zs":"0.31"')
    document.embfile_del(0)
    document.embfile_add("record.json", content)


EDITS: dict[str, tuple[Callable[[pymupdf.Document], None], str]] = {
    "a note on a page": (lambda document: document[0].add_text_annot((90, 90), "see here"), "Notes or form fields"),
    "a white patch over a value": (
        lambda document: document[0].draw_rect((40, 120, 300, 200), color=(1, 1, 1), fill=(1, 1, 1)),
        "Page 1 does not look",
    ),
    "a word added": (lambda document: document[1].insert_text((100, 700), "unsatisfactory"), "Page 2 does not look"),
    "a page taken out": (lambda document: document.delete_page(2), "pages"),
    "saved again": (lambda document: None, "the file around them was written anew"),
    "another attachment": (_swap_attachment, "attached"),
    "its title changed": (lambda document: document.set_metadata({"title": "A-0099"}), "written anew"),
}


@pytest.mark.parametrize("what", EDITS)
def test_an_edited_and_saved_file_is_altered_and_what_is_known_is_told(log, issued, pdf, what):
    edit, told = EDITS[what]
    edited = _edited(pdf, edit, deflate=True)
    proof = proof_of(edited, log)
    assert proof.verdict is proof_of(edited, None).verdict is ProofVerdict.ALTERED
    assert told in _said(proof)
    assert issued.sha256 in _said(proof)


def test_a_file_whose_record_was_taken_out_is_held_against_the_paper_that_the_log_keeps(log, pdf):
    def change(document: pymupdf.Document) -> None:
        document.embfile_del(0)
        document[0].insert_text((100, 700), "unsatisfactory")

    assert "Page 1 does not look" in _said(proof_of(_edited(pdf, change), log))


def test_an_edit_put_behind_the_file_is_altered(log, pdf, tmp_path):
    file = tmp_path / "pack.pdf"
    file.write_bytes(pdf)
    document = pymupdf.open(file)
    document[0].add_text_annot((90, 90), "see here")
    document.saveIncr()
    assert file.read_bytes().startswith(pdf)
    proof = proof_of(file.read_bytes(), log)
    assert proof.verdict is ProofVerdict.ALTERED
    assert "Notes or form fields" in _said(proof)


def test_a_changed_reading_in_the_record_is_named(log, issued, pdf):
    def change(document: pymupdf.Document) -> None:
        content = bytes(document.embfile_get(0))
        changed = content.replace(b"0.49", b"0.31", 1)
        assert changed != content
        document.embfile_del(0)
        document.embfile_add("record.json", changed)

    said = _said(proof_of(_edited(pdf, change), log))
    assert "0.49 as issued, 0.31 here" in said


def test_a_whole_paper_made_anew_from_a_changed_record_is_altered(log, issued):
    job = entered(issued.pack.job.model_copy(update={"issued": None}), {"zs": "0.31"}, board="b1", circuit="c2")
    forged = signed(job.model_copy(update={"signatures": ()})).model_copy(update={"issued": issued.pack.job.issued})
    proof = proof_of(bind(Pack(job=forged, outcome=issued.pack.outcome)).pdf, log)
    assert proof.verdict is ProofVerdict.ALTERED
    assert "made to look like it" in proof.says
    assert "0.31 here" in _said(proof)


@pytest.mark.skipif(shutil.which("qpdf") is None, reason="qpdf is not installed")
@pytest.mark.parametrize("options", [["--qdf"], ["--object-streams=disable"], []])
def test_a_file_saved_by_another_tool_is_altered(log, pdf, tmp_path, options):
    was, now = tmp_path / "was.pdf", tmp_path / "now.pdf"
    was.write_bytes(pdf)
    subprocess.run(["qpdf", *options, was, now], check=True)
    assert proof_of(now.read_bytes(), log).verdict is ProofVerdict.ALTERED


class TestEveryByte:
    """No byte of the file can be changed, added or taken away and the file still pass."""

    @given(share=st.floats(0, 1, exclude_max=True), bit=st.integers(0, 7))
    @examples(0.6)
    def test_one_bit_changed_is_altered(self, log, pdf, share, bit):
        changed = bytearray(pdf)
        changed[int(share * len(pdf))] ^= 1 << bit
        assert proof_of(bytes(changed), log).verdict is ProofVerdict.ALTERED

    @given(more=st.binary(min_size=1, max_size=30))
    @examples(0.2)
    def test_bytes_added_are_altered(self, log, pdf, more):
        assert proof_of(pdf + more, log).verdict is ProofVerdict.ALTERED

    @given(share=st.floats(0, 1, exclude_max=True))
    @examples(0.3)
    def test_a_file_cut_off_never_passes(self, log, pdf, share):
        cut = pdf[: int(share * len(pdf))]
        try:
            assert proof_of(cut, log).verdict in {ProofVerdict.ALTERED, ProofVerdict.UNKNOWN}
        except NotAPdfError:
            assert len(cut) < 8
        if b"% Ohmfolio seal" in cut:
            assert proof_of(cut, log).verdict is ProofVerdict.ALTERED


def _replaced(log: SqliteJobLog, number: str, at: datetime) -> IssuedPaper:
    begun = log.replace(number, because="a reading was misread", who=WHO, at=at)
    assert isinstance(begun, Job)
    for role in begun.roles:
        log.edit(begun.number, Sign(role=role, name=INSPECTOR, at=at), who=WHO, at=at)
    issued = log.issue(begun.number, by=INSPECTOR, at=at, bind=bind)
    assert isinstance(issued, IssuedPaper)
    return issued


def test_what_was_replaced_is_unaltered_and_names_the_newest(tmp_path):
    log = SqliteJobLog.open(tmp_path)
    first = _issue(log, complete_minor_works())
    second = _replaced(log, first.number, LATER)
    third = _replaced(log, second.number, LATER)
    proofs = [proof_of(Path(each.kept).read_bytes(), log) for each in (first, second, third)]
    assert [each.verdict for each in proofs] == [ProofVerdict.REPLACED, ProofVerdict.REPLACED, ProofVerdict.UNALTERED]
    assert [each.replaced_by for each in proofs] == [third.number, third.number, ""]
    assert "unaltered" in proofs[0].says
    assert third.number in proofs[0].says
    log.close()
