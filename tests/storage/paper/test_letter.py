"""The letter that confirms that a report was put right, read back from the PDF."""

from datetime import date

import pymupdf
import pytest

from domain.gate.proof import ProofVerdict
from domain.inspection.observation import Code
from domain.log.put_right.letter import Letter
from domain.log.put_right.remedial_status import PutRight, RemedialItem, Stage
from storage.paper.paper_error import PaperError
from storage.pdf import bind_letter
from storage.verifying import proof_of
from tests.builders import complete_report

PAPER = "QN-118 of Quenby Electrics, 9 March 2026"


def text_of(report, items) -> str:
    bound = bind_letter(Letter(put_right=PutRight(report=report, items=items), on=date(2026, 3, 12)))
    with pymupdf.open(stream=bound.pdf) as document:
        return " ".join(" ".join(page.get_text() for page in document).split())


def test_the_letter_names_each_observation_with_its_paper_and_says_what_it_is_not() -> None:
    report = complete_report(Code.C2, Code.C3, Code.FI).model_copy(update={"number": "A-0007"})
    closed = [each for each in report.observations if each.code.is_pressing]
    items = tuple(RemedialItem(observation=each, stage=Stage.CLOSED, paper=PAPER) for each in closed)
    text = text_of(report, items)
    for said in ("A-0007", "Zoë Fairweather", "Invented finding, coded C2", "Invented finding, coded FI", PAPER):
        assert said in text
    assert "Invented finding, coded C3" not in text
    assert "no certificate and no new report" in text
    assert "No inspection was made for it" in text


def test_a_letter_holds_whatever_people_wrote() -> None:
    report = complete_report(*[Code.C2] * 60)
    items = tuple(
        RemedialItem(observation=each, stage=Stage.CLOSED, paper=f"<b>{at}</b> & Sons Ω [x](#y)")
        for at, each in enumerate(report.observations)
    )
    assert "<b>59</b> & Sons Ω [x](#y)" in text_of(report, items)


def test_a_letter_with_a_sign_no_font_has_is_refused_by_name() -> None:
    report = complete_report(Code.C2)
    items = (RemedialItem(observation=report.observations[0], stage=Stage.CLOSED, paper="Paper 漢"),)
    with pytest.raises(PaperError, match="U\\+6F22"):
        text_of(report, items)


def test_a_letter_that_is_verified_says_that_it_is_one() -> None:
    report = complete_report(Code.C2).model_copy(update={"number": "A-0007"})
    items = (RemedialItem(observation=report.observations[0], stage=Stage.CLOSED, paper=PAPER),)
    bound = bind_letter(Letter(put_right=PutRight(report=report, items=items), on=date(2026, 3, 12)))
    proof = proof_of(bound.pdf, None)
    assert proof.verdict is ProofVerdict.UNKNOWN
    assert proof.says.startswith("This is a letter.")
