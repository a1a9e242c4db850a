"""Boxes that contradict each other, names that do not tell things apart, and the edition of the day."""

import pytest

from tests.domain.checks.jobs import RCD_30, RING, found, job, verdict


@pytest.mark.parametrize(
    ("changes", "box", "expected"),
    [
        ({"description": "Ring main"}, "shape", "ask"),
        ({"description": "Kitchen ring sockets"}, "shape", "ask"),
        ({"description": "Ring doorbell"}, "shape", "passes"),
        (RING | {"description": "Kitchen radial"}, "shape", "ask"),
        ({"device_standard": "BS EN 61009"}, "rcd_standard", "ask"),
        ({"device_standard": "BS EN 61009", "rcd_standard": ""}, "rcd_standard", "passes"),
        ({"device_standard": "BS EN 61009"} | RCD_30, "rcd_standard", "passes"),
        ({"rcd_button": "y"}, "rcd_button", "ask"),
    ],
)
def test_the_words_of_a_circuit_agree_with_its_boxes(changes: dict[str, str], box: str, expected: str) -> None:
    assert verdict(job(changes), box, check="contradiction") == expected


@pytest.mark.parametrize(
    ("phases", "numbers", "expected"),
    [
        ("1", ("1", "2"), "passes"),
        ("1", ("2", "2"), "ask"),
        ("1", ("2", "no. 2"), "ask"),
        ("1", ("", ""), "passes"),
        ("3", ("1", "1", "1"), "passes"),
        ("3", ("1", "1", "1", "1"), "ask"),
        ("3", ("1L1", "1L2", "1L3"), "passes"),
    ],
)
def test_every_way_has_a_number_of_its_own(phases: str, numbers: tuple[str, ...], expected: str) -> None:
    supply = {"live_conductors": "AC 3-phase 4-wire"} if phases == "3" else {}
    made = job(*({"number": number} for number in numbers), board={"phases": phases}, supply=supply)
    assert verdict(made, "number") == expected


def board(board_id: str, name: str, supplied_from: str) -> dict[str, object]:
    return {"id": board_id, "designation": name, "supplied_from": supplied_from, "circuits": []}


def test_every_board_has_a_name_of_its_own() -> None:
    assert verdict(job(more_boards=[board("b2", "db 1", "Intake")]), "designation") == "passes"
    assert verdict(job(more_boards=[board("b2", "db1", "Intake")]), "designation") == "ask"


@pytest.mark.parametrize(
    ("supplied_from", "expected"),
    [("DB1 / 1", "passes"), ("DB1 / 2", "ask"), ("DB1", "passes"), ("DB1 busbar", "passes"), ("DB9 / 1", "passes")],
)
def test_a_board_is_fed_from_a_way_that_exists(supplied_from: str, expected: str) -> None:
    assert verdict(job(more_boards=[board("b2", "DB2", supplied_from)]), "supplied_from") == expected


def test_boards_that_feed_each_other_are_asked_about_once_for_the_circle() -> None:
    made = job(
        board={"supplied_from": "DB3 / 1"},
        more_boards=[board("b2", "DB2", "DB1 / 1"), board("b3", "DB3", "DB2")],
    )
    (finding,) = found(made, "supplied_from", check="names")
    assert finding.says.startswith("DB1 from DB3 from DB2 from DB1: ")


def test_a_board_that_feeds_itself_is_a_circle_of_one() -> None:
    (finding,) = found(job(more_boards=[board("b2", "DB2", "DB2")]), "supplied_from", check="names")
    assert finding.place.board == "b2"


@pytest.mark.parametrize(
    ("sections", "box", "expected"),
    [
        ({"board": {"phases": "3"}}, "phases", "ask"),
        ({"board": {"phases": "3"}, "supply": {"live_conductors": "AC 3-phase 4-wire"}}, "phases", "passes"),
        ({"supply": {"live_conductors": "AC 3-phase 4-wire"}, "main_switch": {"poles": "2"}}, "poles", "ask"),
        ({"supply": {"live_conductors": "AC 3-phase 4-wire"}, "main_switch": {"poles": "3"}}, "poles", "passes"),
        ({"supply": {"live_conductors": "AC 3-phase 4-wire", "voltage": "230"}}, "voltage", "ask"),
        ({"supply": {"live_conductors": "AC 3-phase 4-wire", "voltage": "400"}}, "voltage", "passes"),
        ({"supply": {"voltage": "230"}}, "voltage", "passes"),
        ({"supply": {"system": "TT", "ze": "80"}, "earthing": {"means": "distributor's facility"}}, "means", "ask"),
        ({"supply": {"system": "TT", "ze": "80"}, "earthing": {"means": "electrode"}}, "means", "passes"),
        ({"earthing": {"means": "electrode"}}, "means", "ask"),
        ({"earthing": {"means": "both"}}, "means", "passes"),
        ({"earthing": {"means": "electrode", "electrode_resistance": "N/A"}}, "electrode_resistance", "ask"),
        ({"earthing": {"bonding_csa": "N/A", "bonded_gas": "y"}}, "bonding_csa", "ask"),
        ({"earthing": {"bonding_csa": "N/A", "bonded_gas": "N/A"}}, "bonding_csa", "passes"),
        ({"board": {"spd_type": "N/A", "spd_indicator": "y"}}, "spd_indicator", "ask"),
        ({"board": {"spd_type": "", "spd_indicator": "y"}}, "spd_indicator", "passes"),
    ],
)
def test_supply_earthing_switch_and_boards_agree(sections: dict[str, dict[str, str]], box: str, expected: str) -> None:
    assert verdict(job(**sections), box, check="supply-fits") == expected


@pytest.mark.parametrize(
    ("form_set", "section", "box", "day", "edition", "expected"),
    [
        ("EIC", "work", "completed_on", "16/10/2026", "BS 7671:2018+A2:2022", "ask"),
        ("EIC", "work", "completed_on", "16/10/2026", "BS 7671:2018+A2:2022+A3:2024", "ask"),
        ("EIC", "work", "completed_on", "15/10/2026", "BS 7671:2018+A2:2022+A3:2024", "passes"),
        ("EIC", "work", "completed_on", "30/07/2024", "BS 7671:2018+A2:2022+A3:2024", "note"),
        ("EICR", "report", "inspected_on", "28/09/2022", "an earlier edition of BS 7671", "ask"),
        ("EIC", "work", "completed_on", "15/10/2026", "BS 7671:2018+A2:2022", "passes"),
        ("EICR", "report", "inspected_on", "2026-11-01", "BS 7671:2018+A2:2022", "ask"),
        ("EIC", "work", "completed_on", "16/10/2026", "BS 7671:2018+A4:2026", "passes"),
        ("EIC", "work", "completed_on", "14/04/2026", "BS 7671:2018+A4:2026", "note"),
        ("EIC", "work", "completed_on", "15/04/2026", "BS 7671:2018+A4:2026", "passes"),
        ("EIC", "work", "completed_on", "soon", "BS 7671:2018+A2:2022", "passes"),
    ],
)
def test_the_edition_named_was_in_force_on_the_day(
    form_set: str, section: str, box: str, day: str, edition: str, expected: str
) -> None:
    made = job(form_set=form_set, edition=edition, **{section: {box: day}})
    assert verdict(made, box, check="edition") == expected


@pytest.mark.parametrize(
    ("switch", "fed", "expected"),
    [
        ("63 A, 4 poles, BS EN 60947-3", "63", "passes"),
        ("4-pole 40A", "63", "ask"),
        ("30 mA RCD, 80 A", "63", "passes"),
        ("Isolator", "63", "passes"),
        ("40 A", "N/A", "passes"),
    ],
)
def test_the_switch_of_a_board_carries_what_its_device_lets_through(switch: str, fed: str, expected: str) -> None:
    made = job(board={"main_switch": switch, "device_rating": fed, "device_standard": "BS 88-2"})
    assert verdict(made, "main_switch") == expected
