from typing import Any

import pytest

from domain.sheets.sheet import Listing, ScheduleSheet, SheetCell, SheetColumn, SheetEntry, SheetGroup, TextSheet
from storage.paper.finishing import Imprint, finished
from storage.paper.paper_error import Overflow, PaperError
from storage.paper.press import Press, Promise, Spot
from storage.paper.read_back import read_back
from storage.paper.schedule_sheet import set_schedule_sheet
from storage.paper.text_sheet import set_text_sheet
from storage.pdf import open_press

IMPRINT = Imprint(paper="Trial", number="1", foot="foot", author="", at=None)
TWO = (SheetColumn("No.", 5), SheetColumn("Says", 20, centred=False))


@pytest.fixture
def press() -> Press:
    return open_press()


def _text_sheet(*blocks: Any) -> TextSheet:
    return TextSheet("Trial", "of the press", blocks)


def test_a_row_taller_than_a_page_is_refused(press: Press):
    tall = Listing("Table", TWO, ((SheetCell("1"), SheetCell("word " * 4000)),))
    with pytest.raises(Overflow, match="taller than a page"):
        set_text_sheet(press, _text_sheet(tall), str)


def test_a_box_taller_than_a_page_is_refused(press: Press):
    with pytest.raises(Overflow, match="taller than a page"):
        set_text_sheet(press, _text_sheet(SheetGroup("Boxes", ((SheetEntry("Long", "word " * 4000),),))), str)


def test_a_schedule_row_taller_than_a_page_is_refused(press: Press):
    sheet = ScheduleSheet("Results", "Board", (), TWO, ((SheetCell("1"), SheetCell("W" * 6000)),))
    with pytest.raises(Overflow, match="taller than a page"):
        set_schedule_sheet(press, sheet)


def test_a_group_too_tall_for_a_page_is_split_between_its_rows(press: Press):
    rows = tuple((SheetEntry(f"Box {at}", f"value {at}"),) for at in range(80))
    set_text_sheet(press, _text_sheet(SheetGroup("Boxes", rows)), str)
    pdf, pages = finished(press, IMPRINT)
    assert pages == 3
    read_back(pdf, press.promises)
    assert [promise.text for promise in press.promises] == [f"value {at}" for at in range(80)]


def test_a_value_that_does_not_stand_in_its_own_place_is_found_out(press: Press):
    rows = ((SheetCell("1"), SheetCell("0.41")), (SheetCell("2"), SheetCell("0.42")))
    set_schedule_sheet(press, ScheduleSheet("Results", "Board", (), TWO, rows))
    pdf, _ = finished(press, IMPRINT)
    read_back(pdf, press.promises)
    first, second = (promise for promise in press.promises if promise.text.startswith("0.4"))
    swapped = [Promise(first.text, first.what, second.spots)]
    with pytest.raises(PaperError, match=r"0\.41.*cannot be printed as typed"):
        read_back(pdf, swapped)


def test_a_value_outside_the_page_is_found_out(press: Press):
    set_text_sheet(press, _text_sheet(SheetGroup("Boxes", ((SheetEntry("Box", "value"),),))), str)
    pdf, _ = finished(press, IMPRINT)
    with pytest.raises(PaperError):
        read_back(pdf, [Promise("value", "Box", [Spot(0, 700, 100, 900, 120)])])
    with pytest.raises(PaperError):
        read_back(pdf, [Promise("value", "Box", [])])


def test_a_letter_no_font_has_is_refused_in_plain_words(press: Press):
    set_text_sheet(press, _text_sheet(SheetGroup("Boxes", ((SheetEntry("Client", "Ida \U0001f9ff Fennel"),),))), str)
    pdf, _ = finished(press, IMPRINT)
    with pytest.raises(PaperError, match=r"Fennel” \(Boxes: Client\) cannot be printed as typed"):
        read_back(pdf, press.promises)


def test_no_part_of_the_writer_may_send_text_elsewhere():
    assert not open_press().engine.plugins
