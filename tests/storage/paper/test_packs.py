import re
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from domain.dates import date_in, written
from domain.editing.commands import AddBoard, AddCircuit, Observe
from domain.forms.form_set import FormSet
from domain.inspection.item_outcome import InspectionOutcome
from domain.inspection.observation import Code
from domain.job.board import Board
from domain.job.box import BoxKind, boxes_of, shown_in
from domain.job.circuit import Circuit
from domain.job.job import SECTIONS, Job
from domain.job.people import Firm
from domain.place import Place
from domain.words import on_one_line
from storage.pdf import bind_draft
from storage.shapes.schedule_table import schedule_table
from tests.builders import (
    RADIAL_CIRCUIT,
    complete_certificate,
    complete_minor_works,
    complete_report,
    done,
    entered,
    fresh,
    signed,
)
from tests.storage.paper.pages import Paper, issued

ROOT = Path(__file__).parents[3]
BUILDS = {FormSet.EIC: complete_certificate, FormSet.MEIWC: complete_minor_works, FormSet.EICR: complete_report}


def _with_circuits(job: Job, count: int) -> Job:
    board = job.boards[0]
    like = board.circuits[-1]
    more = tuple(
        like.model_copy(update={"id": f"c{1000 + at}", "number": str(at), "description": f"Way {at} of the hall"})
        for at in range(len(board.circuits) + 1, count + 1)
    )
    return job.model_copy(update={"boards": (board.model_copy(update={"circuits": (*board.circuits, *more)}),)})


def _typed(job: Job) -> list[str]:
    owners = [(getattr(job, section), model) for section, model in SECTIONS.items()]
    owners += [(board, Board) for board in job.boards] + [(circuit, Circuit) for _, circuit in job.circuits()]
    return [
        written(date_in(text) or date.min) if box.kind is BoxKind.DATE and date_in(text) else text
        for owner, model in owners
        for name, box in boxes_of(model).items()
        if box.is_asked(job.form_set)
        for shown in [shown_in(owner, name)]
        for text in [on_one_line(shown) if isinstance(owner, Firm) else " ".join(shown.split())]
    ]


@pytest.mark.parametrize("form_set", FormSet)
def test_a_pack_holds_every_reading_and_text_of_its_job(form_set: FormSet):
    job = BUILDS[form_set]()
    said = Paper(issued(job)).said
    for text in _typed(job):
        assert text in said


@pytest.mark.parametrize("form_set", FormSet)
def test_each_page_bears_its_number_and_how_many_there_are(form_set: FormSet):
    paper = Paper(issued(BUILDS[form_set](), "H-0077"))
    assert paper.bound.pages == len(paper.pages)
    for at, page in enumerate(paper.pages, start=1):
        assert f"page {at} of {len(paper.pages)}" in page
        assert "H-0077" in page


@pytest.mark.parametrize("form_set", FormSet)
def test_a_draft_says_so_on_every_page_and_an_issued_pack_on_none(form_set: FormSet):
    mark = "DRAFT, not a report" if form_set is FormSet.EICR else "DRAFT, not a certificate"
    draft = Paper(bind_draft(BUILDS[form_set]()))
    assert all(page.count(mark) >= 2 for page in draft.pages)
    assert "DRAFT" in draft.document.metadata["title"]
    final = Paper(issued(BUILDS[form_set]()))
    assert "DRAFT" not in final.said
    assert "DRAFT" not in final.document.metadata["title"]


@pytest.mark.parametrize("form_set", FormSet)
def test_a_job_just_begun_can_be_printed_as_a_draft(form_set: FormSet):
    assert bind_draft(fresh(form_set)).pages >= 3 - (form_set is FormSet.MEIWC)


def test_a_long_inspection_schedule_repeats_its_head_and_loses_no_item():
    job = complete_report()
    pages = Paper(issued(job)).with_words("Remark or reason")
    assert len(pages) > 1
    lines = [line.strip() for page in pages for line in page.splitlines()]
    for item in job.items:
        assert lines.count(item.number) >= 1
    assert lines.count("✓") == sum(each.mark is InspectionOutcome.PASS for each in job.inspection)


def test_a_hundred_and_twenty_circuits_fill_sheets_that_each_repeat_head_and_board():
    job = _with_circuits(complete_certificate(sign=False), 120)
    paper = Paper(bind_draft(job))
    results = paper.with_words("Live to earth")
    assert len(results) >= 4
    for number, page in enumerate(results, start=1):
        assert f"sheet {number} of {len(results)}" in page
        assert "Board DB1" in page
        assert "Remarks" in page
        assert "MFT-20417" in page
        assert "Tested by: Tamsin Orchard" in page
        assert page.count("Signature:") == 1
    for at in (3, 77, 120):
        assert len(paper.with_words(f"Way {at} of the hall")) == 2


def test_several_boards_have_schedules_of_their_own():
    job = complete_certificate(sign=False)
    for name in ("DB2", "DB3"):
        job = done(job, AddBoard())
        board = job.boards[-1].id
        job = entered(job, {"designation": name}, board=board)
        job = done(job, AddCircuit(board=board))
        job = entered(job, RADIAL_CIRCUIT, board=board, circuit=job.boards[-1].circuits[-1].id)
    paper = Paper(bind_draft(job))
    for name in ("DB1", "DB2", "DB3"):
        assert len(paper.with_words(f"Board {name}")) == 2


def test_the_same_job_gives_the_same_bytes_in_another_process():
    code = (
        "import hashlib\n"
        "from tests.builders import complete_report\n"
        "from domain.inspection.observation import Code\n"
        "from tests.storage.paper.pages import issued\n"
        "print(hashlib.sha256(issued(complete_report(Code.C2)).pdf).hexdigest())\n"
    )
    sums = {
        subprocess.run(
            [sys.executable, "-c", code],
            cwd=ROOT,
            env={"PYTHONPATH": str(ROOT), "PYTHONHASHSEED": seed, "TZ": zone},
            capture_output=True,
            check=True,
        ).stdout
        for seed, zone in (("1", "Europe/London"), ("2", "Pacific/Auckland"))
    }
    assert len(sums) == 1


def test_every_font_is_embedded_and_cut_to_what_is_used():
    document = Paper(issued(complete_certificate())).document
    fonts = {font for page in document for font in page.get_fonts(full=True)}
    assert fonts
    for xref, kind, _, name, *_ in fonts:
        assert kind != "n/a"
        assert re.match(r"[A-Z]{6}\+", name), name
        assert document.extract_font(xref)[3], name


@pytest.mark.parametrize("job", [complete_minor_works(), complete_report(Code.C2)])
def test_no_letter_is_set_smaller_than_eight_points(job: Job):
    sizes = [
        span["size"]
        for page in Paper(issued(job)).document
        for block in page.get_text("dict")["blocks"]
        for line in block.get("lines", ())
        for span in line["spans"]
        if span["text"].strip()
    ]
    assert min(sizes) >= 7.99


def test_what_the_file_says_of_itself_is_its_own():
    first = Paper(issued(complete_certificate(), "A-1"))
    second = Paper(issued(complete_report(), "B-2"))
    assert first.document.metadata["title"] == "Electrical Installation Certificate A-1"
    assert second.document.metadata["title"] == "Electrical Installation Condition Report B-2"
    assert first.document.metadata["creationDate"].startswith("D:20260302163000")
    assert first.document.metadata["author"] == "Harebell Electrical"
    assert first.document.xref_get_key(first.document.pdf_catalog(), "Lang") == ("string", "en-GB")


def test_bookmarks_lead_to_every_sheet():
    titles = [title for level, title, _ in Paper(issued(complete_certificate())).document.get_toc() if level == 1]
    assert titles == [
        "Electrical Installation Certificate",
        "Inspection schedule",
        "Guidance for recipients",
        "Proof of this document",
        "Circuit details, Board DB1",
        "Test results, Board DB1",
    ]


def test_a_failing_reading_stands_in_bold_within_a_heavy_frame():
    job = entered(complete_report(Code.C2, sign=False), {"rcd_time": "345"}, board="b1", circuit="c2")
    paper = Paper(bind_draft(signed(job)))
    page = next(page for page in paper.document if "Live to earth" in page.get_text())
    spans = [
        span
        for block in page.get_text("dict")["blocks"]
        for line in block.get("lines", ())
        for span in line["spans"]
        if "345" in span["text"]
    ]
    assert len(spans) == 1
    assert "Bold" in spans[0]["font"]
    heavy = [drawing for drawing in page.get_drawings() if (drawing["width"] or 0) > 1.55]
    x0, y0, x1, y1 = spans[0]["bbox"]
    left, top = (min(drawing["rect"][at] for drawing in heavy) for at in (0, 1))
    right, bottom = (max(drawing["rect"][at] for drawing in heavy) for at in (2, 3))
    assert left < x0 < x1 < right < left + 60
    assert top < (y0 + y1) / 2 < bottom < top + 20


def test_ligatures_are_found_by_search():
    assert "Certificate" in Paper(issued(complete_certificate())).document[0].get_text()
    assert not any("\ufb00" <= letter <= "\ufb04" for letter in Paper(issued(complete_certificate())).said)


def test_minor_works_is_one_page_with_one_of_guidance_and_proof():
    pages = Paper(issued(complete_minor_works())).pages
    assert len(pages) == 2
    assert "Declaration" in pages[0]
    assert "Guidance for recipients" in pages[1]
    assert "Proof of this document" in pages[1]


def test_the_page_in_plain_words_is_as_long_as_it_needs_and_stands_apart():
    job = complete_report(*[Code.C1, Code.C2, Code.C3, Code.FI] * 10, sign=False)
    pages = Paper(bind_draft(job)).pages
    first = next(at for at, page in enumerate(pages) if "For whoever lives or works here" in page)
    last = next(at for at, page in enumerate(pages) if "What the codes mean" in page)
    assert last > first
    assert "Guidance for recipients" not in pages[last]
    numbers = [line for page in pages[first : last + 1] for line in page.splitlines() if line.strip().isdigit()]
    assert {int(number) for number in numbers} >= set(range(1, 41))


def test_twenty_four_circuits_stand_on_one_sheet_of_details_and_one_of_results():
    sheets = Paper(bind_draft(_with_circuits(complete_certificate(), 24))).pages
    assert [page for page in sheets if "Way 3 of the hall" in page] == [
        page for page in sheets if "Way 24 of the hall" in page
    ]
    assert len([page for page in sheets if "Way 24 of the hall" in page]) == 2


def test_details_and_results_are_broken_after_the_same_circuit():
    pages = Paper(bind_draft(_with_circuits(complete_certificate(), 120))).pages
    details = [_ways_on(page) for page in pages if "Circuit details" in page and "Way " in page]
    results = [_ways_on(page) for page in pages if "Test results" in page and "Way " in page]
    assert details == results
    assert len(details) > 3


def test_a_small_board_has_details_and_results_on_one_sheet():
    paper = Paper(issued(complete_certificate()))
    assert [page for page in paper.pages if "Reference method" in page and "Live to earth" in page]


def _ways_on(page: str) -> list[str]:
    return re.findall(r"Way \d+ of the hall", page)


def test_the_number_of_the_observation_stands_beside_the_failing_reading_it_answers():
    job = entered(complete_report(sign=False), {"rcd_time": "345"}, board="b1", circuit="c2")
    place = Place(section="boards", board="b1", circuit="c2", box="rcd_time")
    job = done(job, Observe(finding="Slow to trip", code=Code.C2, answers=(place,)))
    page = next(page for page in Paper(bind_draft(job)).pages if "Live to earth" in page)
    assert "✗ 345 (1)" in " ".join(page.split())
    table = (schedule_table(job) or b"").decode()
    assert ",345," in table
    assert "345 (1)" not in table
