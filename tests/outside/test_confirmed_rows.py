"""Rows compared with open pages in November 2026: each test names the publication its figures were read in."""

from decimal import Decimal

import pytest

from domain.edition import Edition
from domain.figures.limits.loader import table
from domain.source import Trust

A2 = Edition.A2
METHODS = tuple(f"method_{letter}_{phases}_phase" for letter in "ced" for phases in ("single", "three"))


# Source: a wholesaler's catalogue of 2024/25, page 488 (Table 4E4A): methods C, E and D, single-phase and three-phase each.
@pytest.mark.parametrize(
    ("csa", "amperes"),
    [
        ("1.5", "27 23 29 25 25 21"),
        ("6", "62 53 66 56 53 44"),
        ("16", "110 94 115 99 91 75"),
        ("50", "219 187 228 197 164 135"),
        ("120", "392 335 410 353 271 223"),
        ("300", "698 599 732 628 446 365"),
    ],
)
def test_armoured_thermosetting_cables_carry_what_a_wholesaler_prints(csa: str, amperes: str) -> None:
    row = table("capacity_4e4a", A2).row(Decimal(csa))
    assert row
    assert row.source.trust is Trust.PUBLISHED
    assert [row.figures[method].value for method in METHODS] == [*map(Decimal, amperes.split())]


def test_the_one_cell_that_is_printed_otherwise_stays_from_memory() -> None:
    row = table("capacity_4e4a", A2).row(Decimal(4))
    assert row
    assert (row.source.trust, row.figures["method_d_single_phase"].value) == (Trust.MEMORY, 43)


# Source: a wholesaler's specification catalogue, page 197 (Table 4G1A): method C, single-phase and three-phase.
@pytest.mark.parametrize(
    ("duty", "csa", "amperes"),
    [
        ("500", "1", "18.5 15"),
        ("500", "4", "40 35"),
        ("750", "1", "19.5 16"),
        ("750", "25", "133 112"),
        ("750", "35", "163 137"),
        ("750", "120", "340 286"),
        ("750", "240", "514 434"),
    ],
)
def test_mineral_insulated_cables_carry_what_a_wholesaler_prints(duty: str, csa: str, amperes: str) -> None:
    read = table(f"capacity_4g1a_{duty}", A2)
    row = read.row(Decimal(csa))
    assert row
    assert [row.figures[f"method_c_{phases}_phase"].value for phases in ("single", "three")] == [
        *map(Decimal, amperes.split())
    ]
    assert "exposed to touch multiply by 0.9" in read.source.note


# Source: a maker's manual of an RCD tester: 10, 20, 30, 200, 300 and 500 mA. 6, 100 and 1000 mA are from memory.
def test_rcds_are_made_for_the_residual_currents_a_maker_names() -> None:
    rows = {row.figures["idn"].value: row.source.trust for row in table("residual_currents", A2).rows}
    assert {made for made, trust in rows.items() if trust is Trust.PUBLISHED} == {10, 20, 30, 200, 300, 500}


# Source: the regulations of Northern Ireland, SR 2024/201, and the open guidance of its department for communities.
def test_northern_ireland_sets_days_for_copies_and_for_the_work() -> None:
    row = table("statutory_intervals", A2).row("Northern Ireland")
    assert row
    days = {name: row.figures[name].value for name in ("copy_to_tenant", "copy_to_council", "remedy_within")}
    assert days == {"copy_to_tenant": 28, "copy_to_council": 7, "remedy_within": 28}


# From memory: Sections 711, 717 and 740 ask for 30 mA; Guidance Note 3 names one year for medical locations.
def test_shows_mobile_units_and_fairgrounds_stand_in_the_list_of_rcds() -> None:
    rows = {row.texts["regulation"]: row for row in table("rcd_required", A2).rows}
    for section in ("711", "717", "740"):
        assert rows[section].figures["idn_up_to"].value == 30
        assert rows[section].source.trust is Trust.MEMORY
    medical = table("intervals", A2).row("Hospital, medical locations")
    assert medical
    assert (medical.figures["years"].value, medical.source.trust) == (1, Trust.MEMORY)


# Source: a wholesaler's catalogue of 2025, page 489 (Table 4D1B, z column, methods A and B).
@pytest.mark.parametrize(
    ("csa", "millivolts"), [("35", "1.3 1.1"), ("70", "0.72 0.61"), ("120", "0.47 0.41"), ("240", "0.33 0.29")]
)
def test_large_single_core_cables_drop_what_a_wholesaler_prints(csa: str, millivolts: str) -> None:
    row = table("volt_drop_70", A2).row("4D1B", "method A or B", Decimal(csa))
    assert row
    assert row.source.trust is Trust.PUBLISHED
    assert [row.figures[name].value for name in ("single_phase", "three_phase")] == [*map(Decimal, millivolts.split())]


# Source: mycableengineering.com and uecables.com, each a page of IEC 60228's resistances (class 5, plain, at 20 °C).
@pytest.mark.parametrize(
    ("csa", "milliohms"), [("120", "0.161"), ("150", "0.129"), ("185", "0.106"), ("240", "0.0801")]
)
def test_large_flexible_conductors_have_the_resistance_that_two_pages_print(csa: str, milliohms: str) -> None:
    row = table("conductor_resistance", A2).row(Decimal(csa))
    assert row
    assert row.figures["copper_flexible"].value == Decimal(milliohms)


# From memory: BS EN 60947-2, Annex B; a device without a time delay trips as those of BS EN 61008 do.
def test_residual_current_breakers_of_industry_trip_as_fast_as_those_of_homes() -> None:
    times = table("rcd_times", A2)
    for at in (1, 2, 5):
        industry, home = (times.row(which, "general", Decimal(at)) for which in ("BS EN 60947-2", "BS EN 61008"))
        assert industry
        assert home
        assert industry.figures["at_most"].value == home.figures["at_most"].value
        assert industry.source.trust is Trust.MEMORY


# Source: an electrician's own open page of Table 4D5 (ericpalmer.fsnet.co.uk): methods 100, 101, 102, 103, A and C.
@pytest.mark.parametrize(("csa", "amperes"), [("1", "13 10.5 13 8 11.5 16"), ("1.5", "16 13 16 10 14.5 20")])
def test_small_flat_cables_carry_what_an_open_page_of_their_table_has(csa: str, amperes: str) -> None:
    row = table("capacity_4d5", A2).row(Decimal(csa))
    assert row
    assert row.source.trust is Trust.PUBLISHED
    columns = [f"method_{each}_single_phase" for each in ("100", "101", "102", "103", "a", "c")]
    assert [row.figures[column].value for column in columns] == [*map(Decimal, amperes.split())]


# Source: a thread of the publisher's open forum on group 1 medical locations, which quotes 710.415.2.2; group 2 is from memory.
def test_bonding_of_a_medical_location_of_group_1_is_held_to_what_the_publishers_forum_quotes() -> None:
    limits = table("medical_bonding", A2)
    assert limits.value("group 1").value == Decimal("0.7")
    assert limits.value("group 1").source.trust is Trust.PUBLISHED
    assert limits.value("group 2").source.trust is Trust.MEMORY
