"""What is answered of a file that is no pack: the web page or the table beside one, or a picture."""

import pytest

from domain.gate.issued_paper import IssuedPaper
from domain.gate.other_shapes import ShapeKind, is_picture, judge_shape, shape_in
from domain.gate.proof import ProofVerdict
from tests.domain.gate.test_judging_a_file import OTHER, PAPER, REPLACED

BEGINS = b"document,board"
PAGE = b"<!DOCTYPE html><html><head><title>Certificate A-0001</title>"
ASK = "The document is the PDF: ask for that, and check it."


@pytest.mark.parametrize(
    ("content", "shape"),
    [
        (PAGE, (ShapeKind.PAGE, "A-0001")),
        (PAGE + b"x" * 9000, (ShapeKind.PAGE, "A-0001")),
        (PAGE.replace(b"Certificate", b"x" * 200), (ShapeKind.PAGE, "A-0001")),
        (PAGE.replace(b"Certificate", b"x" * 201), None),
        (b"<!DOCTYPE html>" + b" " * 4096 + PAGE[15:], None),
        (PAGE.replace(b"A-0001", b"letter"), None),
        (b" " + PAGE, None),
        (BEGINS + b",circuit\r\nA-0001,DB1,1\r\nA-0002,DB2,1\r\n", (ShapeKind.TABLE, "A-0001")),
        (BEGINS + b"\r\nA-\xff01,DB1\r\n", (ShapeKind.TABLE, "A-\N{REPLACEMENT CHARACTER}01")),
        (BEGINS, (ShapeKind.TABLE, "")),
        (BEGINS + b"\r\n" + b"A" * 50 + b",DB1", (ShapeKind.TABLE, "A" * 40)),
        (b"board,document\r\nA-0001", None),
        (b"", None),
    ],
)  # fmt: skip
def test_a_page_or_a_table_says_of_which_paper_it_is(content: bytes, shape: tuple[ShapeKind, str] | None) -> None:
    assert shape_in(content, BEGINS) == shape


@pytest.mark.parametrize(
    ("content", "is_one"),
    [
        (b"\xff\xd8\xff\xe0 a photograph", True),
        (b"\x89PNG\r\n\x1a\n", True),
        (b"\x00\x00\x00\x18ftypheic", True),
        (b"RIFF\x10\x00\x00\x00WEBPVP8 ", True),
        (b"RIFF\x10\x00\x00\x00WAVEfmt ", False),
        (b"RIFX\x10\x00\x00\x00WEBPVP8 ", False),
        (b"%PDF-1.7 ftyp", False),
    ],
)  # fmt: skip
def test_a_picture_is_told_by_how_it_begins(content: bytes, is_one: bool) -> None:
    assert is_picture(content) is is_one


@pytest.mark.parametrize(
    ("paper", "known", "verdict", "says"),
    [
        (None, "has_log", ProofVerdict.UNKNOWN, f"This is the web page beside A-0001; this log did not issue it. {ASK}"),
        (None, "", ProofVerdict.UNKNOWN, f"This is the web page beside A-0001; there is no log here to say whether it is as issued. {ASK}"),
        (PAPER, "has_log is_same", ProofVerdict.UNALTERED, "This is the web page of A-0001, unaltered, as this log handed it out."),
        (REPLACED, "has_log is_same", ProofVerdict.REPLACED, "This is the web page of A-0001, unaltered, but it has been replaced by A-0002."),
        (REPLACED, "has_log is_recorded by_same_version", ProofVerdict.ALTERED, "This is not the web page of A-0001 as this log handed it out: it was altered."),
        (PAPER, "has_log by_same_version", ProofVerdict.ALTERED, "This is not the web page of A-0001 as this log handed it out: it was altered."),
        (PAPER, "has_log is_recorded", ProofVerdict.ALTERED, f"This is not the web page of A-0001 as it was handed out at its issue, nor as this program makes it: it was altered, or a third version of the program handed it out in between. {ASK}"),
        (PAPER, "has_log", ProofVerdict.UNKNOWN, f"This is a web page of A-0001 that another version of the program made, or that was altered. {ASK}"),
    ],
)  # fmt: skip
def test_a_page_is_judged_by_what_the_log_holds_and_by_which_program_issued_it(
    paper: IssuedPaper | None, known: str, verdict: ProofVerdict, says: str
) -> None:
    held = {each: each in known.split() for each in ("has_log", "is_same", "is_recorded", "by_same_version")}
    proof = judge_shape(ShapeKind.PAGE, "A-0001", OTHER, paper, **held)
    assert (proof.verdict, proof.says, proof.number, proof.sha256) == (verdict, says, "A-0001", OTHER)
    assert proof.replaced_by == ("A-0002" if verdict is ProofVerdict.REPLACED else "")
