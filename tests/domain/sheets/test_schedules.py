import pytest

from domain.editing.commands import AddBoard
from domain.forms.form_set import FormSet
from domain.inspection.observation import Code
from domain.job.job import Job
from domain.sheets import sheets_of
from domain.sheets.sheet import Listing, ScheduleSheet, SheetCell, TextSheet, ValueOrigin
from tests.builders import (
    RADIAL_CIRCUIT,
    complete_certificate,
    complete_minor_works,
    complete_report,
    done,
    entered,
    fresh,
)
from tests.domain.sheets.readers import entries_on, said_on, titled


def _schedules(job: Job, title: str) -> list[ScheduleSheet]:
    return [sheet for sheet in titled(sheets_of(job), title) if isinstance(sheet, ScheduleSheet)]


def _cell(job: Job, title: str, heading: str, row: int) -> SheetCell:
    schedule = _schedules(job, title)[0]
    at = [column.heading for column in schedule.columns].index(heading)
    return schedule.rows[row][at]


def test_readings_are_printed_as_typed():
    assert _cell(complete_certificate(), "Test results", "Live to live", 0) == SheetCell(">999")
    assert _cell(complete_certificate(), "Test results", "r2, cpc", 0) == SheetCell("0.70")


def test_a_radial_has_nothing_to_say_in_the_ring_columns():
    for heading in ("r1, line", "rn, neutral", "r2, cpc"):
        assert _cell(complete_certificate(), "Test results", heading, 1) == SheetCell("N/A", ValueOrigin.OURS)


def test_a_ring_that_was_not_read_is_a_blank_and_never_not_applicable():
    job = entered(complete_certificate(sign=False), {"shape": "ring"}, board="b1", circuit="c3")
    assert job.boards[0].circuits[1].is_ring
    assert _cell(job, "Test results", "r1, line", 1).origin is ValueOrigin.BLANK


def test_continuity_is_a_blank_until_one_of_its_two_readings_is_there():
    fresh_circuit = entered(fresh(FormSet.EIC), {"shape": "radial"}, board="b1", circuit="c2")
    assert [_cell(fresh_circuit, "Test results", heading, 0).origin for heading in ("R1+R2", "R2")] == [
        ValueOrigin.BLANK
    ] * 2
    read = entered(fresh_circuit, {"r2": "0.61"}, board="b1", circuit="c2")
    assert [_cell(read, "Test results", heading, 0).text for heading in ("R1+R2", "R2")] == ["–", "0.61"]


def test_an_undecided_circuit_is_not_called_a_radial():
    assert _cell(fresh(FormSet.EIC), "Test results", "r1, line", 0) == SheetCell("–", ValueOrigin.OURS)


def test_the_permitted_zs_is_the_tabulated_one_until_another_is_typed():
    printed = _cell(complete_certificate(), "Circuit details", "Maximum permitted Zs", 0)
    assert printed.origin is ValueOrigin.OURS
    assert printed.text[0].isdigit()
    job = entered(complete_certificate(sign=False), {"zs_permitted": "0.88"}, board="b1", circuit="c2")
    assert _cell(job, "Circuit details", "Maximum permitted Zs", 0) == SheetCell("0.88")


def test_a_failing_reading_is_marked_where_it_stands_and_listed_with_its_limit():
    job = entered(complete_report(Code.C2, sign=False), {"rcd_time": "345"}, board="b1", circuit="c2")
    assert _cell(job, "Test results", "RCD disconnection time", 0) == SheetCell("345", ValueOrigin.FAILS)
    assert _cell(job, "Test results", "RCD disconnection time", 1).origin is ValueOrigin.TYPED
    front = sheets_of(job)[0]
    assert isinstance(front, TextSheet)
    assert any(
        isinstance(block, Listing) and block.heading == "Readings outside their limits" for block in front.blocks
    )


def test_each_board_has_details_and_results_of_its_own_in_order():
    job = done(complete_certificate(sign=False), AddBoard())
    job = entered(job, {"designation": "DB2"}, board=job.boards[-1].id)
    made = [(sheet.title, sheet.subtitle) for sheet in sheets_of(job) if isinstance(sheet, ScheduleSheet)]
    assert made == [
        ("Circuit details", "Board DB1"),
        ("Test results", "Board DB1"),
        ("Circuit details", "Board DB2"),
        ("Test results", "Board DB2"),
    ]


def test_minor_works_carries_circuit_and_tests_on_the_one_form():
    sheets = sheets_of(complete_minor_works())
    assert [sheet.title for sheet in sheets] == [FormSet.MEIWC.profile.title, "Guidance for recipients"]
    shown = {entry.label: entry.value for entry in entries_on(sheets[0])}
    assert shown["R1+R2"] == "0.28"
    assert shown["Measured Zs"] == "0.49"
    assert shown["Insulation, live to earth"] == ">999"


def test_minor_works_on_a_radial_prints_no_ring_readings():
    job = entered(fresh(FormSet.MEIWC), RADIAL_CIRCUIT, board="b1", circuit="c2")
    shown = {entry.label: entry.value for entry in entries_on(sheets_of(job)[0])}
    assert shown["Ring line, end to end, r1"] == "N/A"
    assert shown["R1+R2"] == "0.96"


@pytest.mark.parametrize(
    ("job", "needed"),
    [
        (
            complete_certificate(),
            ("valid only", "original", "full copy", "test button", "next inspection", "notice", "older parts"),
        ),
        (complete_minor_works(), ("original", "full copy", "test button", "new circuit")),
        (
            complete_report(),
            ("valid only", "full copy", "test button", "next inspection", "C1", "C2", "C3", "FI", "LIM", "N/V"),
        ),
    ],
)
def test_guidance_says_what_a_recipient_must_know(job: Job, needed: tuple[str, ...]):
    (guidance,) = [sheet for sheet in sheets_of(job) if sheet.title == "Guidance for recipients"]
    said = said_on((guidance,))
    for words in (*needed, "competent electrician", "current edition of BS 7671"):
        assert words in said


def test_the_main_switch_of_the_only_board_at_the_origin_is_the_one_of_the_installation():
    # Common practice: the first sheet records it once, and a consumer unit without a main switch would be a fault.
    def switches(job: Job) -> list[str]:
        sheets = _schedules(job, "Circuit details")
        return [
            each.value for sheet in sheets for each in entries_on(sheet) if each.label == "Main switch of the board"
        ]

    job = complete_certificate(sign=False)
    assert switches(job) == ["the installation's"]
    own = entered(job, {"main_switch": "2-pole 100 A, BS EN 60947-3"}, board="b1")
    assert switches(own) == ["2-pole 100 A, BS EN 60947-3"]
    with_two = done(job, AddBoard())
    second = with_two.boards[1].id
    fed = entered(with_two, {"designation": "DB2", "supplied_from": "CU1 / 3"}, board=second)
    assert switches(fed) == ["the installation's", "None"]
    for_two = entered(fed, {"supplied_from": "Origin", "device_standard": "N/A"}, board=second)
    assert switches(for_two) == ["None", "None"]
