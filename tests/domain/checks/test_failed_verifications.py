import pytest

from tests.domain.checks.jobs import RCD_30, found, job, verdict


@pytest.mark.parametrize("box", ["polarity", "rcd_button", "afdd_button"])
def test_a_cross_on_a_circuit_fails(box: str) -> None:
    assert verdict(job(RCD_30 | {box: "n"}), box, check="confirmed") == "fails"
    assert verdict(job(RCD_30 | {box: "y"}), box, check="confirmed") == "passes"


@pytest.mark.parametrize("box", ["polarity", "phase_sequence", "spd_indicator"])
def test_a_cross_on_a_board_fails(box: str) -> None:
    made = job(board={box: "✗"})
    assert [each.place.circuit for each in found(made, box)] == [""]
    assert verdict(made, box) == "fails"


@pytest.mark.parametrize("box", ["conductor_verified", "bonding_verified", "bonded_water", "bonded_gas"])
def test_a_cross_at_earthing_or_bonding_fails(box: str) -> None:
    assert verdict(job(earthing={box: "x"}), box) == "fails"
    assert verdict(job(earthing={box: "N/A"}), box) == "passes"


def test_a_cross_against_supply_polarity_fails() -> None:
    assert verdict(job(supply={"polarity": "no"}), "polarity") == "fails"


def test_a_box_the_paper_does_not_have_is_left_alone() -> None:
    assert verdict(job(board={"phase_sequence": "n"}, form_set="MEIWC"), "phase_sequence") == "passes"
