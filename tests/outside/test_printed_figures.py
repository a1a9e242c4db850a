"""Figures without a formula, typed a second time from what is printed; the source stands beside each."""

from decimal import Decimal

import pytest

from domain.edition import Edition
from domain.figures.limits.loader import table


def printed(name: str, column: str, *keys: str | Decimal) -> str | None:
    limit = table(name, Edition.A2).limit(column, *keys)
    return limit.shown if limit else None


# Source: Electrical Wholesaler magazine, May 2023, on Table 64; open training notes for SELV and PELV.
@pytest.mark.parametrize(
    ("volts", "circuit", "least"),
    [
        (250, "SELV or PELV", "0.5 MΩ"),
        (500, "up to 500 V, and FELV", "1.0 MΩ"),
        (1000, "above 500 V", "1.0 MΩ"),
    ],
)
def test_insulation_minima_are_those_of_table_64(volts: int, circuit: str, least: str) -> None:
    assert printed("insulation", "at_least", Decimal(volts), circuit) == least


# Source: a safety council's technical article on RCD tripping times, Table 1, from BS EN 61008-1 and 61009-1, BS 4293, BS 7288.
@pytest.mark.parametrize(
    ("standard", "kind", "times", "shortest", "longest"),
    [
        ("BS EN 61008", "general", 1, None, "300 ms"),
        ("BS EN 61009", "general", 5, None, "40 ms"),
        ("BS EN 61008", "S", 1, "130 ms", "500 ms"),
        ("BS EN 61009", "S", 5, "50 ms", "150 ms"),
        ("BS 4293", "general", 1, None, "200 ms"),
        ("BS 7288", "general", 1, None, "200 ms"),
        ("BS 4293", "S", 1, None, None),
    ],
)
def test_rcd_times_are_those_of_their_standards(
    standard: str, kind: str, times: int, shortest: str | None, longest: str | None
) -> None:
    assert printed("rcd_times", "at_most", standard, kind, Decimal(times)) == longest
    assert printed("rcd_times", "at_least", standard, kind, Decimal(times)) == shortest


# Source: Locke, Guide to the Wiring Regulations (Wiley, 2008), Table C 4.3.
@pytest.mark.parametrize(
    ("device", "marked", "capacity"),
    [
        ("BS 3036", "S1A", "1 kA"),
        ("BS 3036", "S4A", "4 kA"),
        ("BS 1361", "type II", "33 kA"),
        ("BS 3871", "M9", "9 kA"),
    ],
)
def test_older_devices_break_what_their_mark_says(device: str, marked: str, capacity: str) -> None:
    assert printed("breaking_capacity", "capacity", device, marked) == capacity


# Source: Connections magazine, Spring 2015: BS 88-3, 32 A, within 0.4 s.
def test_the_cooker_fuse_of_today_is_as_printed() -> None:
    assert printed("zs_bs88_3", "within_0_4_s", Decimal(32)) == "0.91 Ω"


# Source: Linsley, Basic Electrical Installation Work: 3 % and 5 % of 230 V are 6.9 V and 11.5 V.
@pytest.mark.parametrize(("use", "volts"), [("lighting", "6.9"), ("other", "11.5")])
def test_voltage_drop_limits_in_volts(use: str, volts: str) -> None:
    limit = table("voltage_drop_limits", Edition.A2).limit(use, "public")
    assert limit
    assert limit.value / 100 * 230 == Decimal(volts)


# Source: a scheme body's pocket guide to BS 7671:2018, Table 54.8, and Locke (Wiley, 2008), Table E 4.6.
def test_pme_bonding_grows_with_the_supply_neutral() -> None:
    rows = table("main_bonding", Edition.A2).rows
    assert [str(row.figures["at_least"].value) for row in rows] == ["10", "16", "25", "35", "50"]
    bounds = [row.figures["neutral_up_to"].value for row in rows[:-1]]
    assert bounds == [row.figures["neutral_over"].value for row in rows[1:]]
