"""A list keeps its cursor in sight and off the headings, and paints only what changed."""

import random

import pytest
from rich.segment import Segment
from textual.app import App, ComposeResult
from textual.geometry import Region

from tests.tui.screens.shown import lines_of
from tui.widgets.pick_list import ListCell, ListRow, PickList

LONG = "a description that takes more than one line of the list, because it says a great deal about very little"


class WatchedList(PickList):
    """Notes what it is asked to paint again."""

    def __init__(self) -> None:
        super().__init__(lines_a_row=2, empty="Nothing here")
        self.painted: list[Region] = []

    def refresh(
        self, *regions: Region, repaint: bool = True, layout: bool = False, recompose: bool = False
    ) -> "WatchedList":
        self.painted += regions or [self.size.region]
        return super().refresh(*regions, repaint=repaint, layout=layout, recompose=recompose)


class Listing(App[None]):
    CSS = "WatchedList { height: 10; width: 40; }"

    def compose(self) -> ComposeResult:
        yield WatchedList()


def rows(count: int, *, headings: bool = True) -> list[ListRow]:
    made: list[ListRow] = []
    for number in range(count):
        if headings and number % 4 == 0:
            made.append(ListRow(f"h{number}", (ListCell(f"Part {number}"),), heading=True))
        made.append(
            ListRow(str(number), (ListCell(str(number), width=3), ListCell(LONG if number % 3 == 0 else "short")))
        )
    return made


@pytest.mark.parametrize("seed", range(4))
async def test_wherever_the_cursor_goes_its_row_is_in_sight_and_is_no_heading(seed: int) -> None:
    chance = random.Random(seed)
    app = Listing()
    async with app.run_test(size=(60, 20)) as pilot:
        listed = app.query_one(WatchedList)
        listed.show(rows(30))
        for _ in range(60):
            if chance.random() < 0.1:
                listed.show(rows(chance.randint(1, 30), headings=chance.random() < 0.5))
            move = chance.choice([(listed.action_move, 1), (listed.action_move, -1), (listed.action_page, 1)])
            move[0](move[1])
            if chance.random() < 0.1:
                listed.action_ends(chance.choice([0, -1]))
            await pilot.pause()
            assert listed.at is not None
            assert not listed.at.heading
            marked = [line for line in lines_of(app)[:10] if line.startswith(">")]
            assert [line[1:4].strip() for line in marked] == [listed.at.id]


async def test_a_move_paints_the_two_rows_it_is_about_and_no_more() -> None:
    app = Listing()
    async with app.run_test(size=(60, 20)) as pilot:
        listed = app.query_one(WatchedList)
        listed.show(rows(30, headings=False))
        await pilot.pause()
        listed.painted.clear()
        await pilot.press("down")
        assert {(region.y, region.height) for region in listed.painted} == {(0, 2), (2, 1)}


async def test_a_changed_row_is_painted_alone() -> None:
    app = Listing()
    async with app.run_test(size=(60, 20)) as pilot:
        listed = app.query_one(WatchedList)
        before = rows(30, headings=False)
        listed.show(before)
        await pilot.pause()
        listed.painted.clear()
        listed.show([*before[:2], ListRow("2", (ListCell("2", width=3), ListCell("changed"))), *before[3:]])
        assert [(region.y, region.height) for region in listed.painted] == [(3, 1)]


async def test_an_empty_list_says_so() -> None:
    app = Listing()
    async with app.run_test(size=(60, 20)) as pilot:
        listed = app.query_one(WatchedList)
        listed.show(rows(3))
        listed.show([])
        await pilot.press("down", "up", "pagedown", "home", "end")
        assert listed.at is None
        assert "Nothing here" in lines_of(app)[0]


async def test_wide_letters_keep_the_columns_in_line() -> None:
    app = Listing()
    async with app.run_test(size=(60, 20)) as pilot:
        listed = app.query_one(WatchedList)
        listed.show(
            [
                ListRow("1", (ListCell("電気", width=6), ListCell("one"))),
                ListRow("2", (ListCell("plain", width=6), ListCell("two"))),
            ]
        )
        await pilot.pause()
        columns = [
            Segment(line[: line.index(word)]).cell_length
            for line, word in zip(lines_of(app), ("one", "two"), strict=False)
        ]
        assert columns == [8, 8]
