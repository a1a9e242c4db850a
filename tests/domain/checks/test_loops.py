import pytest

from domain.checks import findings_of
from tests.domain.checks.jobs import RCD_30, found, job, verdict

SUB = {
    "id": "b2",
    "designation": "DB2",
    "supplied_from": "DB1 / 1",
    "phases": "1",
    "device_standard": "BS EN 60898",
    "device_rating": "16",
    "zs": "0.62",
    "ipf": "0.4",
    "circuits": [],
}


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({"zs": "0.83"}, "passes"),
        ({"zs": "0.84"}, "ask"),
        ({"zs": "0.41"}, "passes"),
        ({"zs": "0.40"}, "ask"),
        ({"zs": "0.40", "wiring": "B"}, "note"),
        ({"zs": "0.40", "wiring": "F"}, "note"),
        (RCD_30 | {"zs": "0.98"}, "passes"),
        (RCD_30 | {"zs": "0.99"}, "ask"),
        (RCD_30 | {"zs": "0.40"}, "ask"),
        ({"zs": ">20"}, "passes"),
        ({"zs": "LIM"}, "passes"),
        ({"zs": "0.99", "r1_r2": ""}, "passes"),
    ],
)
def test_zs_is_what_lies_before_and_r1_r2_within_measuring_error(changes: dict[str, str], expected: str) -> None:
    assert verdict(job(changes), "zs", check="loop-adds-up") == expected


def test_a_moved_point_is_offered_only_where_it_fits_everything_else() -> None:
    (finding,) = found(job({"zs": "7.3", "r1_r2": "0.41"}), "zs", check="loop-adds-up")
    assert finding.says.endswith("Did you mean 0.73 Ω?")
    assert finding.limit == "0.73 ± 0.22 Ω"
    (finding,) = found(job({"zs": "3.0", "r1_r2": "0.41"}), "zs", check="loop-adds-up")
    assert "Did you mean" not in finding.says


@pytest.mark.parametrize(("r1_r2", "meant"), [("4.1", "0.41"), ("0.041", "0.41"), ("410", "0.41")])
def test_the_point_of_r1_r2_may_have_moved_instead(r1_r2: str, meant: str) -> None:
    (finding,) = found(job({"zs": "0.73", "r1_r2": r1_r2}), "r1_r2", check="loop-adds-up")
    assert finding.says.endswith(f"For R1+R2: did you mean {meant} Ω?")


@pytest.mark.parametrize(("r2", "expected"), [("0.29", "passes"), ("0.30", "ask"), ("N/A", "passes")])
def test_r2_is_less_than_r1_r2(r2: str, expected: str) -> None:
    assert verdict(job({"r2": r2}), "r2", check="loop-adds-up") == expected


@pytest.mark.parametrize(("zs", "expected"), [("54.4", "passes"), ("54.3", "ask"), ("68", "passes")])
def test_on_tt_zs_may_scatter_below_the_electrode(zs: str, expected: str) -> None:
    made = job(RCD_30 | {"zs": zs, "r1_r2": ""}, supply={"system": "TT", "ze": "68"}, board={"zs": "68"})
    assert verdict(made, "zs", check="external-impedance") == expected


@pytest.mark.parametrize(
    ("zs", "expected"),
    [("0.83", "passes"), ("0.84", "ask"), ("0.41", "passes"), ("0.40", "ask"), ("0.31", "ask"), ("", "passes")],
)
def test_a_board_reads_what_the_board_before_it_and_the_way_between_add_up_to(zs: str, expected: str) -> None:
    assert verdict(job(more_boards=[SUB | {"zs": zs}]), "zs", check="sub-boards") == expected


def test_steel_round_the_way_between_makes_a_low_reading_a_note() -> None:
    assert verdict(job({"wiring": "F"}, more_boards=[SUB | {"zs": "0.40"}]), "zs", check="sub-boards") == "note"


@pytest.mark.parametrize(("zdb", "expected"), [("0.48", "passes"), ("0.49", "ask"), ("0.10", "passes")])
def test_zdb_at_the_origin_is_about_ze_or_less(zdb: str, expected: str) -> None:
    assert verdict(job({"zs": "", "r1_r2": ""}, board={"zs": zdb}), "zs", check="sub-boards") == expected
    declared = job({"zs": ""}, board={"zs": zdb}, supply={"ze_by": "enquiry"})
    assert verdict(declared, "zs", check="sub-boards") == "passes"


@pytest.mark.parametrize(("ipf", "expected"), [("0.96", "passes"), ("0.97", "ask"), ("0.2", "passes"), ("", "passes")])
def test_fault_current_does_not_rise_along_the_cables(ipf: str, expected: str) -> None:
    made = job(more_boards=[SUB | {"ipf": ipf, "zs": ""}])
    assert verdict(made, "ipf", check="sub-boards") == expected


@pytest.mark.parametrize(
    "text", ["DB1 / 1", "DB1/1", "DB1 way 1", "db 1 circuit no 1", "DB1, cct 1", "DB1"], ids=lambda text: text
)
def test_a_board_finds_the_way_that_feeds_it_however_it_is_written(text: str) -> None:
    made = job({"description": "Submain to DB2"}, more_boards=[SUB | {"supplied_from": text, "zs": "0.99"}])
    assert verdict(made, "zs", check="sub-boards") == "ask"


@pytest.mark.parametrize("text", ["Origin", "Intake room", "Landlord's switchboard 3", "", "DB7 / 2"])
def test_a_board_fed_from_elsewhere_is_held_against_nothing(text: str) -> None:
    made = job(more_boards=[SUB | {"supplied_from": text, "zs": "0.31", "device_standard": "BS 88-2"}])
    assert found(made, "zs", check="sub-boards") == []
    assert verdict(made, "supplied_from") == "passes"


def test_a_spare_way_feeds_no_board() -> None:
    made = job({"shape": "spare"}, more_boards=[SUB])
    assert verdict(made, "supplied_from", check="names") == "ask"


@pytest.mark.parametrize(
    ("ze", "ipf", "expected"), [("68", "0.62", []), ("680", "0.62", ["zs"]), ("68", "6.2", ["ipf"])]
)
def test_on_tt_ten_times_the_board_is_the_same_reading_with_its_point_moved(
    ze: str, ipf: str, expected: list[str]
) -> None:
    supply = {"system": "TT", "ze": ze, "ipf": ipf}
    made = job(RCD_30 | {"zs": "68", "r1_r2": ""}, supply=supply, board={"zs": "68", "ipf": "0.62"})
    assert [each.place.box for each in findings_of(made) if each.check == "sub-boards"] == expected


def test_the_reading_that_the_others_second_is_not_the_one_that_slipped() -> None:
    (finding,) = found(job(supply={"ze": "0.030"}), "zs", check="sub-boards")
    assert finding.says.endswith("For Ze: did you mean 0.3 Ω?")
    (finding,) = found(job(board={"zs": "3.2"}), "zs", check="sub-boards")
    assert finding.says.endswith("Did you mean 0.32 Ω?")
    (finding,) = found(job(supply={"ze": "3.0"}), "ze", check="external-impedance")
    assert finding.says.endswith("Did you mean 0.3 Ω?")
    (finding,) = found(job(supply={"ze": "3.0"}), "ipf", check="fault-current")
    assert finding.says.endswith("For Ze: did you mean 0.3 Ω?")
    (finding,) = found(job(supply={"ipf": "8"}), "ipf", check="fault-current")
    assert finding.says.endswith("Did you mean 0.8 kA?")


def test_a_figure_before_many_circuits_is_asked_about_once() -> None:
    rows = [{"zs": "0.50", "r1_r2": ""}] * 3
    made = job(*rows, board={"zs": "0.55", "ipf": ""}, supply={"system": "TN-S", "ze": "0.50"})
    (finding,) = [each for each in findings_of(made) if each.check == "external-impedance"]
    assert (finding.place.circuit, finding.place.box) == ("", "zs")
    two = job(*rows[:2], board={"zs": "0.55", "ipf": ""}, supply={"system": "TN-S", "ze": "0.50"})
    assert {each.place.circuit for each in findings_of(two) if each.check == "external-impedance"} == {"c1", "c2"}
