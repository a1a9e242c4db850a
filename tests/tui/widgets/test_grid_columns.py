"""Columns of a schedule: every box has its place, and groups turn as a whole."""

from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from domain.forms.form_set import FormSet
from domain.job.box import boxes_of
from domain.job.circuit import DETAIL_BOXES, RESULT_BOXES, Circuit
from domain.place import Place
from tui.screens.results import RESULTS as SCHEDULE
from tui.widgets.box_view import views_of
from tui.widgets.grid_columns import column_for
from tui.widgets.grid_layout import HEADINGS, GridLayout

DETAILS = tuple(name for name in DETAIL_BOXES if boxes_of(Circuit)[name].is_asked(FormSet.EIC))
RESULTS = (*DETAIL_BOXES[:2], *RESULT_BOXES)


def layout(names: Sequence[str], width: int) -> GridLayout:
    return GridLayout.of([column_for(name, boxes_of(Circuit)[name]) for name in names], 2, width)


@pytest.mark.parametrize("names", [DETAILS, RESULTS])
@given(width=st.integers(min_value=1, max_value=250))
def test_every_column_is_on_exactly_one_page(names: Sequence[str], width: int) -> None:
    pages = layout(names, width).pages
    assert sorted(at for page in pages for at in page) == list(range(2, len(names)))


@pytest.mark.parametrize("names", [DETAILS, RESULTS])
def test_no_group_is_split_at_80_columns(names: Sequence[str]) -> None:
    grid = layout(names, 80)
    for group in grid.groups:
        assert len({grid.page_of(at) for at in group.columns}) == 1, group.title


def test_remarks_stand_beside_readings_and_not_alone_on_a_part_at_80_columns() -> None:
    boxes = boxes_of(Circuit)
    names = [name for name in RESULTS if boxes[name].is_asked(FormSet.EIC)]
    widths = {"description": SCHEDULE.description_width}
    grid = GridLayout.of([column_for(name, boxes[name], widths.get(name, 0)) for name in names], 2, 80)
    assert len(grid.pages) == 2
    assert names.index("zs") in grid.pages[grid.page_of(names.index("remarks"))]


@pytest.mark.parametrize("names", [DETAILS, RESULTS])
def test_every_column_fits_its_page_at_80_columns(names: Sequence[str]) -> None:
    grid = layout(names, 80)
    for at in range(len(names)):
        start, width = grid.span(at, grid.page_of(at))
        assert start + width <= 80


@pytest.mark.parametrize("names", [DETAILS, RESULTS])
@given(width=st.integers(min_value=1, max_value=200))
def test_every_line_is_as_wide_as_the_screen(names: Sequence[str], width: int) -> None:
    grid = layout(names, width)
    cells = views_of(Circuit(number="1L2", description="Öl 漢字" * 9), Place(), "", FormSet.EIC, {}, names)
    for page in range(len(grid.pages)):
        lines = [grid.heading(line, page, width, title="DB1", way="Enter across") for line in range(HEADINGS)]
        lines.append(grid.row(cells, page, width, at=3))
        assert {cell_len(line.text) for line in lines} == {width}


def test_headings_stand_in_full() -> None:
    for names in (DETAILS, RESULTS):
        grid = layout(names, 80)
        for at, name in enumerate(names):
            page = grid.page_of(at)
            start, width = grid.span(at, page)
            heading = grid.heading(1, page, 80, title="", way="").text[start : start + width]
            assert heading.strip() == boxes_of(Circuit)[name].heading


@pytest.mark.parametrize("names", [DETAILS, RESULTS])
@pytest.mark.parametrize("width", [80, 120, 200])
def test_no_two_columns_touch_though_each_carries_a_sign(names: Sequence[str], width: int) -> None:
    grid = layout(names, width)
    for shown, sign in (("", "·"), ("340", "✗")):
        cells = [
            replace(cell, shown=shown, sign=sign, needed=True)
            for cell in views_of(Circuit(), Place(), "", FormSet.EIC, {}, names)
        ]
        for page in range(len(grid.pages)):
            line = grid.row(cells, page, width, at=None).text
            assert f"{sign}{shown}{sign}" not in line
