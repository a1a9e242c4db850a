import pytest

from tests.domain.checks.jobs import RCD_30, RING, found, job, verdict


def by_sum(*parts: str) -> list[dict[str, str]]:
    return [{"r1_r2": f"0.{part}", "zs": f"0.{int(part) + 32}"} for part in parts]


def test_four_circuits_that_add_up_exactly_are_asked_about_once() -> None:
    made = job(*by_sum("11", "24", "36", "47"))
    (finding,) = found(made, "zs", check="made-up")
    assert finding.place.board == "b1"
    assert finding.place.circuit == ""
    assert finding.measured == "4 of 4 circuits"


def test_three_may_add_up_by_chance_and_one_that_does_not_clears_the_rest() -> None:
    assert verdict(job(*by_sum("11", "24", "36")), "zs", check="made-up") == "passes"
    assert verdict(job(*by_sum("11", "24", "36", "47"), {"r1_r2": "0.20", "zs": "0.53"}), "zs") == "passes"


@pytest.mark.parametrize(
    ("readings", "expected"),
    [
        (["150", "150", "150", "150"], "ask"),
        (["150", "150", "150"], "passes"),
        (["150", "150", "150", "150", "40", "41", "42", "43"], "ask"),
        (["150", "150", "150", "150", "40", "41", "42", "43", "44"], "passes"),
        ([">999"] * 6, "passes"),
        (["LIM"] * 6, "passes"),
    ],
)
def test_one_figure_down_half_a_column_is_asked_about(readings: list[str], expected: str) -> None:
    rows = [{"ir_live": reading, "r1_r2": "", "zs": ""} for reading in readings]
    assert verdict(job(*rows, form_set="EICR"), "ir_live", check="made-up") == expected


def test_one_rcd_before_several_circuits_has_one_time() -> None:
    shared = RCD_30 | {"device_standard": "BS EN 60898", "rcd_standard": "BS EN 61008", "r1_r2": "", "zs": ""}
    assert verdict(job(*[shared] * 5), "rcd_time") == "passes"
    assert (
        verdict(job(*[shared | {"device_standard": "BS EN 61009", "rcd_standard": "BS EN 61009"}] * 5), "rcd_time")
        == "ask"
    )


@pytest.mark.parametrize("r2", ["1.00", "0.98"])
def test_two_rings_by_formula_are_asked_about_and_one_may_be_chance(r2: str) -> None:
    exact = RING | {"ring_rn": "0.60", "ring_r2": r2, "r1_r2": f"{(0.6 + float(r2)) / 4:.2f}"}
    assert verdict(job(exact, exact), "ring_r1", check="made-up") == "ask"
    assert verdict(job(exact), "ring_r1", check="made-up") == "passes"
    assert verdict(job(exact, RING), "ring_r1", check="made-up") == "passes"


@pytest.mark.parametrize(
    ("length", "r1_r2", "expected"),
    [
        ("16", "0.30", "passes"),
        ("16", "0.45", "passes"),
        ("16", "0.46", "ask"),
        ("16", "0.18", "passes"),
        ("16", "0.17", "ask"),
        ("", "2.93", "passes"),
        ("", "2.94", "note"),
        ("", "9.75", "note"),
        ("", "9.78", "ask"),
        ("0", "0.30", "passes"),
        ("16", ">20", "passes"),
    ],
)
def test_r1_r2_fits_the_length_within_a_band(length: str, r1_r2: str, expected: str) -> None:
    assert verdict(job({"length": length, "r1_r2": r1_r2, "zs": ""}), "r1_r2", check="run-length") == expected


def test_the_length_of_a_ring_is_all_the_way_round_or_half_of_it() -> None:
    for length, expected in [("80", "passes"), ("40", "passes"), ("20", "ask"), ("200", "ask")]:
        assert verdict(job(RING | {"length": length}), "r1_r2", check="run-length") == expected


def test_a_low_reading_in_steel_says_nothing_of_the_length_and_armour_has_another_table() -> None:
    for wiring, r1_r2, expected in [("B", "0.10", "passes"), ("B", "0.90", "ask"), ("F", "0.90", "passes")]:
        made = job({"wiring": wiring, "length": "16", "r1_r2": r1_r2, "zs": ""})
        assert verdict(made, "r1_r2", check="run-length") == expected


def test_the_sentence_gives_the_sum_the_band_and_what_was_meant() -> None:
    (finding,) = found(job({"length": "16", "r1_r2": "3.1", "zs": ""}), "r1_r2", check="run-length")
    assert finding.says == (
        "R1+R2 3.1 Ω does not fit 16 m of 2.5/1.5 mm²: about 0.31 Ω is expected, "
        "(7.41 + 12.1) mΩ/m × 16 m = 0.31216 Ω, give or take 0.14 Ω. Did you mean 0.31 Ω?"
    )
