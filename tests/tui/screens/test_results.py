"""The schedule of test results: readings kept as typed, judged at once, never copied."""

from pathlib import Path

import pytest
from textual import events

from domain.editing.commands import Enter
from domain.job.box import boxes_of
from domain.job.circuit import RESULT_BOXES, Circuit
from domain.job.job import Job
from domain.place import Place
from tests.builders import complete_certificate, complete_minor_works, complete_report, done, entered
from tests.tui.screens.job_at import AtStep, at_step, step_on
from tui.job_page import JobPage
from tui.screens.box_work import BoxWork
from tui.screens.results import RESULTS

RING, RADIAL = "c2", "c3"


def schedule(job: Job, home: Path, circuit: str = RING, box: str = "ring_r1"):
    return at_step(JobPage.RESULTS, job, home, place=Place(section="boards", board="b1", circuit=circuit, box=box))


@pytest.mark.parametrize("typed", ["0.50", ">999", "<0.01", "0,35", "n/a"])
async def test_a_typed_reading_is_kept_as_typed(tmp_path: Path, typed: str) -> None:
    async with schedule(complete_certificate(sign=False), tmp_path, RADIAL, "r1_r2") as at:
        await at.type(typed, "enter")
        assert at.job.boards[0].circuits[1].r1_r2.typed == typed


async def test_a_reading_past_its_limit_is_marked_and_the_panel_says_limit_and_source(tmp_path: Path) -> None:
    async with schedule(complete_certificate(sign=False), tmp_path, RING, "ir_earth") as at:
        await at.type("0.20", "enter")
        assert at.said.startswith("✗ 0.20")
        await at.press("left")
        assert "0.20✗" in at.text
        assert "0.20 MΩ" in at.panel
        assert "1.0 MΩ" in at.panel
        assert "7671:2018+A2:2022, Table 64" in at.panel


async def test_a_reading_to_look_at_again_has_a_question_mark(tmp_path: Path) -> None:
    async with schedule(complete_certificate(sign=False), tmp_path, RING, "zs") as at:
        await at.type("1.30", "enter")
        assert "1.30?" in at.text
        assert at.said.startswith("? ")
        assert "1.30" in at.said


async def test_lim_on_a_certificate_belongs_on_reports_only(tmp_path: Path) -> None:
    async with schedule(complete_certificate(sign=False), tmp_path, RING, "ir_live") as at:
        await at.type("lim", "enter")
        assert "LIM✗" in at.text
        assert "belongs on reports only" in at.said
        assert at.box == "ir_live"


@pytest.mark.parametrize(("key", "mark"), [("f10", "N/A"), ("f11", "LIM")])
async def test_a_mark_is_set_with_one_key_that_goes_on(tmp_path: Path, key: str, mark: str) -> None:
    async with schedule(complete_report(sign=False), tmp_path, RING, "ir_live") as at:
        await at.press(key)
        assert at.job.boards[0].circuits[0].ir_live.typed == mark
        assert at.box == "ir_earth"


@pytest.mark.parametrize(("letter", "mark"), [("n", "N/A"), ("l", "LIM"), ("v", "N/V")])
async def test_a_letter_stands_for_a_mark_where_a_figure_belongs(tmp_path: Path, letter: str, mark: str) -> None:
    async with schedule(complete_report(sign=False), tmp_path, RING, "ir_live") as at:
        await at.type(letter, "enter")
        assert at.job.boards[0].circuits[0].ir_live.typed == mark


async def test_a_column_of_ticks_takes_one_key_a_circuit(tmp_path: Path) -> None:
    job = entered(complete_certificate(sign=False), {"polarity": ""}, board="b1", circuit=RADIAL)
    job = entered(job, {"polarity": ""}, board="b1", circuit=RING)
    async with schedule(job, tmp_path, RING, "polarity") as at:
        await at.press("ctrl+t", "f12", "f12")
        assert [circuit.polarity.shown for circuit in at.job.boards[0].circuits] == ["✓", "✓"]


@pytest.mark.parametrize(
    ("key", "box", "why"),
    [
        ("f11", "ir_live", "belongs on reports only"),
        ("f10", "polarity", "N/A is no answer"),
        ("f12", "zs", "no reading"),
    ],
)
async def test_a_mark_that_cannot_stand_is_not_set_and_says_why(tmp_path: Path, key: str, box: str, why: str) -> None:
    async with schedule(complete_certificate(sign=False), tmp_path, RING, box) as at:
        before = at.job
        await at.press(key)
        assert why in at.said
        assert (at.job, at.box) == (before, box)


async def test_a_reading_being_typed_is_kept_before_a_mark_takes_its_place(tmp_path: Path) -> None:
    async with schedule(complete_report(sign=False), tmp_path, RING, "ir_live") as at:
        await at.type("123", "f11")
        assert at.job.boards[0].circuits[0].ir_live.typed == "LIM"
        await at.press("ctrl+u")
        assert at.job.boards[0].circuits[0].ir_live.typed == "123"


async def test_lim_on_a_report_is_taken(tmp_path: Path) -> None:
    async with schedule(complete_report(sign=False), tmp_path, RING, "ir_live") as at:
        await at.type("lim", "enter")
        assert at.job.boards[0].circuits[0].ir_live.shown == "LIM"
        assert at.box == "ir_earth"


async def test_enter_passes_over_the_ring_ends_of_a_radial(tmp_path: Path) -> None:
    async with schedule(complete_certificate(sign=False), tmp_path, RING, "remarks") as at:
        await at.press("enter")
        place = at.screen.where()
        assert place is not None
        assert (place.circuit, place.box) == (RADIAL, "r1_r2")
        assert at.line_with("2     Lights").count("N/A") == 3


async def test_a_quantity_is_typed_down_the_board(tmp_path: Path) -> None:
    async with schedule(complete_certificate(sign=False), tmp_path, RING, "zs") as at:
        await at.press("ctrl+t")
        await at.type("0.51", "enter")
        await at.type("1.20", "enter")
        assert [circuit.zs.typed for circuit in at.job.boards[0].circuits] == ["0.51", "1.20"]


@pytest.mark.parametrize("box", ["zs", "polarity", "ir_earth"])
async def test_a_measured_value_is_never_copied_from_above(tmp_path: Path, box: str) -> None:
    async with schedule(complete_certificate(sign=False), tmp_path, RADIAL, box) as at:
        before = at.job
        await at.press("ctrl+y")
        assert "measured on each circuit and never copied" in at.said
        await at.press("enter")
        assert at.job == before


async def test_the_cursor_keeps_to_the_readings_and_reaches_all_of_them(tmp_path: Path) -> None:
    async with schedule(complete_certificate(sign=False), tmp_path) as at:
        await at.press("home", "left", "left")
        assert at.box == RESULT_BOXES[0]
        seen: set[str] = set()
        for _ in RESULT_BOXES:
            seen.add(at.box)
            await at.press("right")
        assert seen == set(RESULT_BOXES)


async def test_a_new_circuit_is_numbered_on_the_schedule_of_details(tmp_path: Path) -> None:
    async with schedule(complete_certificate(sign=False), tmp_path) as at:
        await at.press("ctrl+n")
        await at.pilot.pause()
        assert step_on(at.app) is JobPage.CIRCUITS
        assert at.box == "number"


async def test_minor_works_readings_are_a_page_and_limits_hold_there_too(tmp_path: Path) -> None:
    async with schedule(complete_minor_works(sign=False), tmp_path, RING, "ir_earth") as at:
        assert at.box == "ir_earth"
        await at.type("0.20", "enter")
        assert "0.20 ✗" in at.line_with("Insulation, live to earth (MΩ)")
        await at.press("ctrl+y")
        assert "no circuit above" in at.said


def test_the_help_says_dead_tests_first_and_defers_to_the_standard() -> None:
    text = RESULTS.explains
    for words in ("prove dead", "Dead tests come first", "competent persons only", "BS 7671", "safe isolation"):
        assert words in text


async def test_the_panel_speaks_of_the_box_reached_once_the_hands_rest(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(BoxWork, "RESTS_AFTER", 3600)
    async with at_step(JobPage.RESULTS, complete_certificate(sign=False), tmp_path) as at:
        before = at.panel
        await at.press("right", "right")
        assert at.panel == before
        monkeypatch.setattr(BoxWork, "RESTS_AFTER", 0.01)
        await at.press("right")
        while at.panel == before:
            await at.pilot.pause()
        label = boxes_of(Circuit)[at.box].label
        assert label in at.panel


async def pasted(at: AtStep, text: str) -> None:
    at.app.post_message(events.Paste(text))
    await at.pilot.pause()
    await at.pilot.pause()


async def test_a_column_pasted_from_a_spreadsheet_fills_the_circuits_below_after_a_question(tmp_path: Path) -> None:
    async with schedule(complete_certificate(sign=False), tmp_path, RING, "zs") as at:
        before = [circuit.zs.typed for circuit in at.job.boards[0].circuits]
        await pasted(at, "0.61\n0.44\n")
        assert "0.61, 0.44" in at.text
        await at.press("n")
        assert [circuit.zs.typed for circuit in at.job.boards[0].circuits] == before
        await pasted(at, "0.61\n0.44\n")
        await at.press("y")
        assert [circuit.zs.typed for circuit in at.job.boards[0].circuits][:2] == ["0.61", "0.44"]
        await at.press("left")
        await pasted(at, "Y\t0.62\r\nY\t0.45\r\n")
        assert "2 columns" in at.text
        await at.press("y")
        assert [circuit.zs.typed for circuit in at.job.boards[0].circuits][:2] == ["0.62", "0.45"]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("1\n" * 99, "99 lines"),
        ("1\t2\t3\t4\t5\t6\t7\t8\n" * 2, "8 columns"),
        ("9" * 100_001, "More than 100,000 characters"),
    ],
)
async def test_a_paste_that_does_not_fit_the_column_fills_nothing_and_says_why(
    tmp_path: Path, text: str, says: str
) -> None:
    async with schedule(complete_certificate(sign=False), tmp_path, RING, "zs") as at:
        before = at.job
        await pasted(at, text)
        assert says in at.said
        assert at.job == before


async def test_the_panel_says_limit_and_expected_figure_with_their_sums_and_what_is_still_missing(
    tmp_path: Path,
) -> None:
    details = {"live_csa": "2.5", "cpc_csa": "1.5", "length": "20", "remarks": ""}
    job = entered(complete_certificate(sign=False), details, board="b1", circuit=RADIAL)
    not_taken = Enter(place=Place(section="boards", board="b1", circuit=RADIAL, box="ir_earth"), text="")
    job = done(job, not_taken)
    async with schedule(job, tmp_path, RADIAL, "r1_r2") as at:
        assert "To be expected" in at.panel
        assert "20 m" in at.panel
        assert "Missing on this circuit: IR L-E" in at.panel
        await at.press("right")
        while at.box != "zs":
            await at.press("right")
        assert "Limit: at most" in at.panel
        assert "0.8 ×" in at.panel


async def test_going_on_stops_at_r2_only_while_no_r1_r2_is_taken_and_the_other_way_round(tmp_path: Path) -> None:
    job = entered(complete_certificate(), {"r1_r2": "", "r2": ""}, board="b1", circuit=RADIAL)
    async with schedule(job, tmp_path, RADIAL, "r1_r2") as at:
        await at.type("0.40", "enter")
        assert at.box == "test_voltage"
        at.screen.part.go_to(Place(section="boards", board="b1", circuit=RADIAL, box="r1_r2"))
        await at.type("N/A", "enter")
        assert at.box == "r2"
        await at.type("0.20", "tab", "shift+tab", "shift+tab")
        assert at.box == "remarks", "of the circuit before"
