import pytest

from domain.sheets.board_chart import board_papers
from storage.pdf import bind_charts
from tests.builders import complete_certificate, entered
from tests.storage.paper.pages import Paper

CERTIFICATE = complete_certificate()
LETTERS = {"a4": (13, 595), "a5": (10, 420)}


@pytest.mark.parametrize("sheet", LETTERS)
def test_a_chart_is_set_in_large_type_on_its_sheet_with_labels_behind(sheet: str):
    paper = Paper(bind_charts(board_papers(CERTIFICATE, CERTIFICATE.boards), sheet))
    size, wide = LETTERS[sheet]
    assert round(paper.document[0].rect.width) == wide
    assert "Circuits of board DB1" in paper.pages[0]
    assert "Labels to cut out" in paper.pages[-1]
    rows = [
        span["size"]
        for block in paper.document[0].get_text("dict")["blocks"]
        for line in block.get("lines", ())
        for span in line["spans"]
        if span["text"] == CERTIFICATE.boards[0].circuits[0].description
    ]
    assert rows == [pytest.approx(size)]


def test_a_chart_of_a_job_not_issued_is_marked_on_every_page():
    assert all(
        "DRAFT" in page for page in Paper(bind_charts(board_papers(CERTIFICATE, CERTIFICATE.boards), "a5")).pages
    )


def test_what_a_person_typed_stands_on_the_chart_letter_for_letter():
    typed = '#link("x") *Ω* <b> ' + "W" * 90
    job = entered(CERTIFICATE, {"description": typed}, board="b1", circuit="c2")
    said = Paper(bind_charts(board_papers(job, job.boards), "a5")).said
    assert "".join(typed.split()) in "".join(said.split())
