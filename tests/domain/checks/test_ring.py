import pytest

from domain.checks import findings_of
from domain.figures.asked.catalogue import ask, figure_named
from tests.domain.checks.jobs import RING, found, job, verdict


def test_a_sound_ring_has_nothing_said_of_it() -> None:
    boxes = ("ring_r1", "ring_rn", "ring_r2", "r1_r2")
    assert [verdict(job(RING), box) for box in boxes] == ["passes"] * 4


@pytest.mark.parametrize(("rn", "expected"), [("0.72", "passes"), ("0.73", "ask"), ("0.48", "passes"), ("0.47", "ask")])
def test_line_and_neutral_ends_agree_within_the_usual_margin(rn: str, expected: str) -> None:
    assert verdict(job(RING | {"ring_rn": rn}), "ring_rn") == expected


@pytest.mark.parametrize(
    ("sizes", "r2", "expected"),
    [
        (("2.5", "1.5"), "0.78", "passes"),
        (("2.5", "1.5"), "0.77", "ask"),
        (("2.5", "1.5"), "1.20", "passes"),
        (("2.5", "1.5"), "1.21", "ask"),
        (("4", "1.5"), "1.60", "passes"),
        (("4", "1.5"), "1.00", "ask"),
        (("2.5", "2.5"), "0.60", "passes"),
        (("2.5", "2.5"), "1.00", "ask"),
        (("2.5", ""), "9.00", "passes"),
        (("3.1", "1.5"), "1.24", "passes"),
    ],
)
def test_the_cpc_end_fits_the_line_end_by_the_sizes(sizes: tuple[str, str], r2: str, expected: str) -> None:
    circuit = RING | {"live_csa": sizes[0], "cpc_csa": sizes[1], "ring_r2": r2, "r1_r2": ""}
    assert verdict(job(circuit), "ring_r2", check="ring") == expected


@pytest.mark.parametrize(
    ("r1_r2", "expected"),
    [("0.40", "passes"), ("0.60", "passes"), ("0.61", "ask"), ("0.33", "passes"), ("0.32", "ask"), ("1.60", "ask")],
)
def test_the_recorded_r1_r2_is_about_a_quarter_of_the_ends(r1_r2: str, expected: str) -> None:
    assert verdict(job(RING | {"r1_r2": r1_r2}), "r1_r2", check="ring") == expected


def test_a_step_three_reading_anywhere_on_the_ring_is_within_its_span() -> None:
    ring = RING | {"live_csa": "4", "cpc_csa": "1.5", "ring_r1": "0.30", "ring_rn": "0.30", "ring_r2": "0.80"}
    assert verdict(job(ring | {"r1_r2": "0.22"}), "r1_r2") == "passes"
    assert verdict(job(ring | {"r1_r2": "0.275"}), "r1_r2") == "passes"


def test_the_sentence_writes_the_sum_out_with_its_tolerance() -> None:
    (finding,) = found(job(RING | {"r1_r2": "0.70"}), "r1_r2")
    assert finding.says.startswith(
        "R1+R2 0.70 Ω does not fit the ends: (r1 + r2) / 4 = (0.60 + 1.00) / 4 = 0.40 Ω is expected, give or take 0.05 Ω."
    )


def test_ring_readings_on_a_radial_are_asked_about_once() -> None:
    made = job({"ring_r1": "0.60", "ring_rn": "0.60"})
    assert verdict(made, "ring_r1") == "ask"
    assert verdict(made, "ring_rn") == "passes"
    assert verdict(job({"ring_r1": "N/A"}), "ring_r1") == "passes"


@pytest.mark.parametrize("reading", ["LIM", "", "<0.01", "0", "nonsense"])
def test_ends_without_a_figure_are_not_compared(reading: str) -> None:
    made = job(RING | {"ring_r1": reading})
    assert [verdict(made, box, check="ring") for box in ("ring_rn", "ring_r2", "r1_r2")] == ["passes"] * 3


@pytest.mark.parametrize(
    ("box", "typed", "meant"),
    [
        ("ring_r1", "6.0", "0.6"),
        ("ring_rn", "0.061", "0.61"),
        ("ring_r2", "10", "1"),
        ("r1_r2", "4.0", "0.4"),
        ("ring_r1", "600", "0.6"),
    ],
)
def test_one_reading_with_its_point_moved_is_asked_about_once(box: str, typed: str, meant: str) -> None:
    made = job(RING | {box: typed, "zs": ""})
    (finding,) = [each for each in findings_of(made) if each.check == "ring"]
    assert finding.place.box == box
    assert finding.says.endswith(f"Did you mean {meant} Ω?")


@pytest.mark.parametrize(
    ("r1", "r2", "expected"),
    [("0.88", "1.757", "passes"), ("0.88", "1.758", "ask"), ("0.60", "0.78", "passes"), ("0.60", "0.77", "ask")],
)
def test_the_job_and_the_figure_at_the_prompt_judge_the_cpc_end_alike(r1: str, r2: str, expected: str) -> None:
    circuit = RING | {"ring_r1": r1, "ring_rn": r1, "ring_r2": r2, "r1_r2": ""}
    assert verdict(job(circuit), "ring_r2", check="ring") == expected
    answer = ask(figure_named("ring"), [f"r1={r1}", f"r2={r2}", "line=2.5", "cpc=1.5"])
    fits = [note for note in answer.notes if note.endswith("and fits")]
    assert bool(fits) is (expected == "passes")
