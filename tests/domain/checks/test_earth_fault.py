import pytest

from tests.domain.checks.jobs import RCD_30, found, job, verdict


def breaker(kind: str, rating: str, zs: str, **more: str) -> dict[str, str]:
    return {"device_type": kind, "rating": rating, "zs": zs, "r1_r2": "", **more}


def fuse(standard: str, rating: str, zs: str, **more: str) -> dict[str, str]:
    return {"device_standard": standard, "device_type": "N/A", "rating": rating, "zs": zs, "r1_r2": "", **more}


@pytest.mark.parametrize(
    ("circuit", "expected"),
    [
        (breaker("B", "32", "1.08"), "passes"),
        (breaker("B", "32", "1.09"), "passes"),
        (breaker("B", "32", "1.10"), "ask"),
        (breaker("B", "32", "1.37"), "ask"),
        (breaker("B", "32", "1.38"), "fails"),
        (breaker("B", "32", "<1.09"), "passes"),
        (breaker("B", "32", "<99"), "ask"),
        (breaker("B", "6", "5.82"), "passes"),
        (breaker("B", "6", "5.83"), "ask"),
        (breaker("C", "20", "0.87"), "passes"),
        (breaker("C", "20", "0,87"), "passes"),
        (breaker("C", "20", "0.88"), "ask"),
        (breaker("type c", "20", "0.88"), "ask"),
        (breaker("D", "16", "0.54"), "passes"),
        (breaker("D", "16", "0.55"), "ask"),
        (breaker("B", "32", "<0.01"), "passes"),
        (breaker("B", "32", ">20"), "fails"),
        (breaker("B", "32", "LIM"), "passes"),
        (breaker("B", "32", "N/V"), "passes"),
        (breaker("B", "32", ""), "passes"),
        (breaker("K", "32", "0.40"), "note"),
        (breaker("B", "33", "0.40"), "note"),
        (breaker("B", "", "9.00"), "passes"),
        (breaker("B", "32", "1.09", device_standard="61009-1"), "passes"),
        (breaker("B", "32", "1.10", device_standard="bs en 61009"), "ask"),
        (breaker("B", "100", "0.40", device_standard="BS EN 60947-2"), "note"),
        (fuse("BS 3036", "30", "0.83"), "passes"),
        (fuse("BS 3036", "30", "0.84"), "ask"),
        (fuse("BS 88-2", "32", "0.79"), "passes"),
        (fuse("BS 88-2", "32", "0.80"), "ask"),
        (fuse("BS 88-2.1", "32", "0.40"), "note"),
        (fuse("BS 88-2.2", "32", "0.79"), "passes"),
        (fuse("BS 88-6", "32", "0.80"), "ask"),
        (breaker("2", "30", "0.83", device_standard="BS 3871"), "passes"),
        (breaker("Type 2", "30", "0.84", device_standard="BS 3871"), "ask"),
        (fuse("BS 88-3", "6", "0.40"), "note"),
        (fuse("BS 1362", "13", "1.84"), "passes"),
        (fuse("BS 1362", "13", "1.85"), "ask"),
        (fuse("BS 1361", "30", "0.87"), "passes"),
        (fuse("BS 1361", "30", "0.88"), "ask"),
    ],
)
def test_a_cold_reading_passes_up_to_eight_tenths_of_the_tabulated_zs_is_asked_about_up_to_the_table_and_fails_above(
    circuit: dict[str, str], expected: str
) -> None:
    assert verdict(job(circuit), "zs", check="earth-fault-loop") == expected


def test_the_sentence_names_reading_limit_device_and_sum() -> None:
    (finding,) = found(job(breaker("C", "20", "1.10")), "zs")
    assert finding.says == (
        "1.10 Ω is over 0.87 Ω, the limit for a cold reading on a BS EN 60898 type C 20 A breaker (0.8 × 1.09 Ω). "
        "Look for a loose joint, or another cable or device"
    )
    assert (finding.measured, finding.limit) == ("1.10 Ω", "0.87 Ω")
    assert finding.source
    assert finding.source.cited == "BS 7671:2018+A2:2022, Table 41.3"


def test_the_newer_edition_uses_the_same_figure_and_says_it_was_not_rechecked() -> None:
    (finding,) = found(job(breaker("C", "20", "1.10"), edition="BS 7671:2018+A4:2026"), "zs")
    assert finding.limit == "0.87 Ω"
    assert finding.source
    assert "not re-checked against this edition" in finding.source.cited


def test_a_limit_from_memory_says_so_in_the_sentence_and_the_source() -> None:
    (finding,) = found(job(fuse("BS 1361", "30", "1.15")), "zs")
    assert "from memory" in finding.says
    assert finding.source
    assert "from memory" in finding.source.cited


@pytest.mark.parametrize(
    ("rating", "zs", "expected"),
    [
        ("45", "0.45", "passes"),
        ("45", "0.46", "ask"),
        ("45", "0.80", "ask"),
        ("45", "0.81", "fails"),
        ("32", "0.80", "ask"),
        ("32", "0.97", "fails"),
    ],
)
def test_above_the_rating_for_fixed_equipment_the_person_is_asked_whether_the_longer_time_holds(
    rating: str, zs: str, expected: str
) -> None:
    assert verdict(job(fuse("BS 88-3", rating, zs, description="Cooker")), "zs") == expected


def test_what_is_surely_fixed_has_the_longer_time_and_what_has_sockets_the_shorter() -> None:
    assert verdict(job(fuse("BS 88-3", "45", "0.80", description="Shower")), "zs", check="earth-fault-loop") == "passes"
    assert verdict(job(fuse("BS 88-3", "45", "0.60", description="Sockets, bar")), "zs") == "fails"


def test_a_designer_who_names_the_longer_times_figure_is_taken_at_their_word_where_it_may_hold() -> None:
    assert verdict(job(fuse("BS 88-3", "45", "0.80", zs_permitted="1.00")), "zs") == "passes"
    assert verdict(job(fuse("BS 88-3", "32", "1.20", zs_permitted="1.60")), "zs") == "fails"


def test_a_circuit_that_feeds_another_board_has_the_longer_time() -> None:
    second = {"id": "b2", "designation": "DB2", "supplied_from": "DB1 / way 1", "circuits": []}
    feeding = fuse("BS 88-2", "63", "0.62", number="1", description="Garage")
    assert verdict(job(feeding, more_boards=[second]), "zs") == "passes"
    assert verdict(job(feeding), "zs") == "ask"
    assert verdict(job(fuse("BS 88-2", "63", "0.62", description="Sub-main to garage")), "zs") == "passes"


@pytest.mark.parametrize(
    ("permitted", "zs", "expected"),
    [
        ("0.80", "0.80", "passes"),
        ("0.80", "0.81", "fails"),
        ("1.30", "1.20", "passes"),
        ("1.37", "1.09", "passes"),
        ("1.37", "1.20", "ask"),
        ("1.73", "1.20", "ask"),
        ("1.73", "1.38", "fails"),
    ],
)
def test_a_stricter_figure_of_the_designer_counts_as_it_stands_and_a_laxer_one_does_not(
    permitted: str, zs: str, expected: str
) -> None:
    assert verdict(job(breaker("B", "32", zs, zs_permitted=permitted)), "zs") == expected


def test_a_laxer_figure_than_the_tables_is_asked_about() -> None:
    assert verdict(job(breaker("B", "32", "0.50", zs_permitted="1.73")), "zs_permitted") == "ask"
    assert verdict(job(breaker("B", "32", "0.50", zs_permitted="1.37")), "zs_permitted") == "passes"
    assert verdict(job(breaker("B", "32", "0.50", zs_permitted="1667", **RCD_30)), "zs_permitted") == "passes"


def test_the_designers_figure_stands_in_where_no_table_has_the_device() -> None:
    moulded = {
        "device_standard": "BS EN 60947-2",
        "device_type": "N/A",
        "rating": "100",
        "zs_permitted": "0.40",
        "r1_r2": "",
    }
    assert verdict(job(moulded | {"zs": "0.40"}), "zs") == "passes"
    (finding,) = found(job(moulded | {"zs": "0.41"}), "zs")
    assert finding.severity == "fails"
    assert finding.source
    assert "design" in finding.source.cited.casefold()


def test_an_rcd_may_clear_the_fault_where_the_breaker_cannot() -> None:
    (finding,) = found(job(breaker("B", "32", "1.50", **RCD_30)), "zs")
    assert finding.severity == "ask"
    assert finding.says == (
        "1.50 Ω is over 1.09 Ω, the limit for a cold reading on a BS EN 61009 type B 32 A RCBO (0.8 × 1.37 Ω); "
        "the RCD alone gives fault protection. Say that the design is so, or find the cause"
    )
    assert verdict(job(breaker("B", "32", "1700", **RCD_30)), "zs") == "fails"
    assert verdict(job(breaker("B", "32", ">2000", **RCD_30)), "zs") == "fails"


@pytest.mark.parametrize("u0", ["230", "240", "", "LIM"])
def test_the_tables_hold_for_the_public_voltage(u0: str) -> None:
    assert verdict(job(breaker("B", "32", "1.40"), supply={"voltage_to_earth": u0}), "zs") == "fails"


@pytest.mark.parametrize(("u0", "expected"), [("63.5", "note"), ("277", "ask"), ("400", "ask")])
def test_no_limit_is_known_at_other_voltages_and_it_is_said_once(u0: str, expected: str) -> None:
    made = job(*[breaker("B", "32", "1.10")] * 3, supply={"voltage_to_earth": u0})
    assert [str(each.severity) for each in found(made, "voltage_to_earth")] == [expected]
    assert verdict(made, "zs", check="earth-fault-loop") == "passes"


TT = {"system": "TT", "ze": "85", "ipf": "1.1"}


@pytest.mark.parametrize(
    ("idn", "zs", "expected"),
    [
        ("30", "90", "passes"),
        ("30", "200", "passes"),
        ("30", "201", "ask"),
        ("30", "1667", "ask"),
        ("30", "1668", "fails"),
        ("100", "500", "ask"),
        ("100", "501", "fails"),
        ("300", "167", "passes"),
        ("300", "168", "fails"),
        ("30", ">1999", "fails"),
        ("50", "90", "note"),
    ],
)
def test_on_tt_the_rcd_decides_how_high_zs_may_be(idn: str, zs: str, expected: str) -> None:
    assert (
        verdict(job(RCD_30 | {"rcd_idn": idn, "zs": zs, "r1_r2": ""}, supply=TT, board={"zs": "85"}), "zs") == expected
    )


def test_on_tt_a_circuit_without_an_rcd_fails_unless_the_main_switch_is_one() -> None:
    board = {"zs": "85"}
    assert verdict(job({"zs": "90"}, supply=TT, board=board), "zs") == "fails"
    switch = {"rcd_type": "S", "rcd_idn": "100", "standard": "BS EN 61008"}
    assert verdict(job({"zs": "90"}, supply=TT, board=board, main_switch=switch), "zs") == "passes"


def test_on_tt_an_rcd_not_typed_yet_is_a_gap_and_no_finding() -> None:
    assert verdict(job({"zs": "90", "rcd_standard": ""}, supply=TT, board={"zs": "85"}), "zs") == "passes"
    assert verdict(job(RCD_30 | {"zs": "90", "rcd_idn": ""}, supply=TT, board={"zs": "85"}), "zs") == "passes"


def test_on_it_no_limit_is_known_and_it_is_said_once() -> None:
    (finding,) = found(job(*[{}] * 3, supply={"system": "IT"}), "system")
    assert (finding.check, finding.severity) == ("earth-fault-loop-tt", "note")
