"""Sheets are filled: none ends in a few lines on a page of their own, or stands alone where it could join another."""

from itertools import pairwise
from typing import Any

import pytest

from domain.log.job_log import BoundPaper
from domain.sheets import sheets_of
from storage.paper.imprint import Imprint
from storage.paper.pack_data import pack_data
from storage.paper.page import SIDEWAYS, UPRIGHT
from storage.paper.typesetting import set_pages
from storage.pdf import bind_draft
from tests.storage.paper.bench_packs import job_of
from tests.storage.paper.golden import demo_pack, drafted
from tests.storage.paper.pages import Paper
from tui.commands.demo import scenarios

_DRAFT_MARK = 40.0
"""Points that only letters of the draft mark are higher than."""


def filled(page: Any) -> float:
    """Of the frame of a page, the share down to the lowest word in it."""
    area = UPRIGHT if page.rect.width < page.rect.height else SIDEWAYS
    feet = [
        foot for _, top, _, foot, *_ in page.get_text("words") if foot - top < _DRAFT_MARK and foot < area.bottom + 2
    ]
    return (max(feet) - area.top) / area.frame_height


def faults_of(paper: Paper) -> list[str]:
    """Pages under a third full that go on with a sheet, or could stand on the page before; declarations alone."""
    begun = {at - 1 for _, _, at in paper.document.get_toc()}
    pages = [(page.rect.width > page.rect.height, filled(page), page.number in begun) for page in paper.document]
    found = [
        f"page {at}: {share:.2f} full"
        for at, ((lay, before, _), (lies, share, begins)) in enumerate(pairwise(pages), start=2)
        if share < 1 / 3 and lay == lies and (not begins or before + share < 1)
    ]
    return found + [
        f"page {at}: details and results stand apart"
        for at, ((lay, before, _), (lies, share, _)) in enumerate(pairwise(pages), start=2)
        if lay and lies and before + share < 1 and _board(paper, at - 2) == _board(paper, at - 1)
    ]


def _board(paper: Paper, page: int) -> str:
    return paper.pages[page].partition("Board ")[2].partition("\n")[0]


@pytest.mark.parametrize("name", scenarios())
def test_no_sheet_of_the_demo_is_nearly_empty_where_it_could_join_another(name: str):
    assert faults_of(Paper(demo_pack(name))) == []


def test_a_short_tail_is_told_from_a_full_sheet_and_set_closer():
    name = "10-cooker-fresh"
    data, _ = pack_data(sheets_of(drafted(name)), Imprint("certificate", "T-0001", "", "", None))
    left = Paper(BoundPaper(pdf=set_pages(data, "").pdf, pages=1))
    assert faults_of(left) == [f"page {len(left.pages) - 1}: 0.12 full"]
    assert len(Paper(demo_pack(name)).pages) == len(left.pages) - 1


@pytest.mark.parametrize(("circuits", "sheets"), [(9, 1), (10, 2), (24, 2), (31, 2), (32, 4), (60, 4)])
def test_details_and_results_of_a_board_take_no_more_sheets_than_they_need(circuits: int, sheets: int):
    data, _ = pack_data(sheets_of(job_of(circuits)), Imprint("certificate", "T-0001", "", "", None))
    boards = [board for part in data["parts"] if part["sideways"] for board in part["sheets"]]
    assert sum(1 if board["together"] else _sheets(board) for board in boards) == sheets


@pytest.mark.parametrize(("circuits", "sheets"), [(9, 1), (31, 2)])
def test_the_fullest_sheets_do_not_run_over(circuits: int, sheets: int):
    pages = Paper(bind_draft(job_of(circuits))).document
    assert sum(page.rect.width > page.rect.height for page in pages) == sheets


def _sheets(board: dict[str, Any]) -> int:
    return sum(len(each["parts"]) for each in board["schedules"])


@pytest.mark.parametrize("name", scenarios())
def test_what_goes_with_the_sheets_stands_on_the_page_that_lists_them(name: str):
    pages = Paper(demo_pack(name)).pages
    listed = [at for at, page in enumerate(pages) if "is valid only with everything listed here" in page]
    assert listed == [at for at, page in enumerate(pages) if "Papers that go with the" in page]
