"""What a reading should be and what it may be, beside every box of a circuit."""

from decimal import Decimal

import pytest

from domain.checks.compared.box_limits import limit_in
from domain.checks.compared.references import implied_length, references_of
from domain.checks.shared.circuits_in_use import ways_in_use
from domain.edition import Edition
from tests.domain.checks.jobs import RCD_30, RING, job

DELAYED = RCD_30 | {"rcd_standard": "BS EN 61008", "rcd_type": "S", "rcd_idn": "100"}


@pytest.mark.parametrize(
    ("box", "circuit", "supply", "shown", "working"),
    [
        ("zs", {}, {}, "at most 2.18 Ω", "0.8 × 2.73 Ω = 2.18 Ω, rounded down"),
        ("zs", {"zs_permitted": "1.5"}, {}, "at most 1.5 Ω", ""),
        ("zs", RCD_30, {"system": "TT"}, "at most 1667 Ω", ""),
        ("zs", {}, {"system": "TT"}, "", ""),
        ("zs", {"rating": "17"}, {}, "", ""),
        ("ir_earth", {}, {}, "at least 1.0 MΩ", ""),
        ("ir_live", {"test_voltage": "400"}, {}, "", ""),
        ("rcd_time", RCD_30, {}, "at most 300 ms", ""),
        ("rcd_time", DELAYED, {}, "130 to 500 ms", ""),
        ("rcd_time", {}, {}, "", ""),
        ("disconnection_time", {}, {}, "at most 0.4 s", ""),
        ("polarity", {}, {}, "", ""),
    ],
)
def test_a_box_has_the_limit_the_checks_judge_by_or_says_why_there_is_none(
    box: str, circuit: dict[str, str], supply: dict[str, str], shown: str, working: str
) -> None:
    made = job(circuit, supply=supply)
    (way,) = ways_in_use(made)
    limit = limit_in(made, way, box)
    assert (limit.shown, limit.working) == (shown, working)
    assert limit.why
    assert bool(limit.source) is bool(shown)
    assert shown or limit.why.startswith("no limit known")


def test_a_ring_has_its_ends_by_length_and_its_middle_by_its_ends() -> None:
    made = job(RING | {"length": "80"})
    (way,) = ways_in_use(made)
    found = references_of(made, way)
    assert found["ring_r1"].expected
    assert found["ring_r1"].expected.value == Decimal("0.59280")
    assert found["r1_r2"].expected
    assert found["r1_r2"].expected.sum == "(r1 + r2) / 4 = (0.60 + 1.00) / 4 = 0.40 Ω"
    assert found["ring_r2"].expected
    assert found["zs"].limit.shown == "at most 1.09 Ω"


def test_without_a_length_the_reading_tells_it() -> None:
    (radial, ring) = ways_in_use(job({"r1_r2": "0.39"}, RING | {"r1_r2": "0.39"}))
    by_radial, by_ring = implied_length(radial, Edition.A2), implied_length(ring, Edition.A2)
    assert by_radial
    assert by_ring
    assert by_radial.sum == "0.39 Ω / 19.51 mΩ/m = 20 m"
    assert by_ring.sum == "4 × 0.39 Ω / 19.51 mΩ/m = 80 m"
    (below_nought,) = ways_in_use(job({"r1_r2": "-0.39"}))
    assert implied_length(below_nought, Edition.A2) is None


@pytest.mark.parametrize(
    ("test_voltage", "shown", "why"),
    [
        ("", "at least 1.0 MΩ", "for every low-voltage circuit"),
        ("250", "at least 1.0 MΩ", "for a circuit with equipment that could be harmed"),
        ("500", "at least 1.0 MΩ", "for a circuit up to 500 V, and FELV"),
    ],
)
def test_a_minimum_of_insulation_says_which_circuits_it_is_for(test_voltage: str, shown: str, why: str) -> None:
    made = job({"test_voltage": test_voltage})
    (way,) = ways_in_use(made)
    limit = limit_in(made, way, "ir_earth")
    assert (limit.shown, limit.why) == (shown, why)


def test_the_length_that_a_long_run_means_is_told_to_the_metre() -> None:
    (way,) = ways_in_use(job({"r1_r2": "19.51"}))
    implied = implied_length(way, Edition.A2)
    assert implied
    assert implied.shown == "1000 m"
