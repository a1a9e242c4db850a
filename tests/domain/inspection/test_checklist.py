"""The checklists: whole, in walking order, with their source."""

from itertools import pairwise

import pytest
from pydantic import ValidationError

from domain.editing.commands import AddBoard, SetOutcome
from domain.edition import Edition
from domain.forms.form_set import FormSet
from domain.gate.gaps import gaps_of
from domain.inspection.checklist import checklist_for, checklist_in, items_for
from domain.inspection.extent import Extent
from domain.inspection.item_outcome import InspectionOutcome, ItemOutcome
from domain.sheets.facts import Facts
from domain.sheets.inspection import inspection_schedule
from domain.source import Trust
from tests.builders import complete_certificate, complete_report, done, entered

SCHEDULED = (FormSet.EIC, FormSet.EICR)


def order_of(number: str) -> tuple[int, int, str]:
    main, _, rest = number.partition(".")
    return int(main), int(rest.rstrip("abcde") or 0), rest[-1:] if rest[-1:].isalpha() else ""


@pytest.mark.parametrize("edition", Edition)
@pytest.mark.parametrize("form_set", SCHEDULED)
def test_items_come_in_walking_order(form_set: FormSet, edition: Edition) -> None:
    numbers = [order_of(item.number) for item in items_for(form_set, edition)]
    assert numbers
    assert all(earlier < later for earlier, later in pairwise(numbers))


def test_an_initial_verification_has_fourteen_items() -> None:
    assert [item.number for item in items_for(FormSet.EIC, Edition.A2)] == [str(number) for number in range(1, 15)]


def test_a_periodic_inspection_walks_from_the_intake_to_own_generation() -> None:
    counts: dict[str, int] = {}
    for item in items_for(FormSet.EICR, Edition.A2):
        counts[item.number.split(".")[0]] = counts.get(item.number.split(".")[0], 0) + 1
    assert counts == {"1": 3, "2": 1, "3": 8, "4": 22, "5": 28, "6": 8, "7": 1, "8": 1}


def test_a_home_is_inspected_by_the_list_for_homes() -> None:
    job = complete_report()
    assert job.extent == ()
    assert job.list_named == "the list for domestic and similar premises up to 100 A"
    assert {"9", "10", "11", "12"} & {item.number.split(".")[0] for item in job.items} == set()


@pytest.mark.parametrize(("rating", "is_larger"), [("100", False), ("101", True), ("160", True), ("", False)])
def test_more_than_a_hundred_amperes_is_a_larger_installation(rating: str, is_larger: bool) -> None:
    job = entered(complete_report(), {"device_rating": rating}, section="supply")
    assert (Extent.LARGER in job.extent) is is_larger
    sections = {item.number.split(".")[0] for item in job.items}
    assert ({"9", "10", "11"} <= sections) is is_larger
    assert "12" not in sections


def test_three_phases_are_inspected_as_such_whatever_the_rating() -> None:
    job = entered(complete_report(), {"phases": "3"}, board="b1")
    assert {"9", "10", "11", "12"} <= {item.number.split(".")[0] for item in job.items}
    assert job.list_named == "the list for larger installations"
    assert any(gap.place.item == "12.1" for gap in gaps_of(job))


@pytest.mark.parametrize(
    ("fed_from", "is_fed"), [("CU1", True), ("cu 1 / 4", True), ("CU10", False), ("Origin", False), ("", False)]
)
def test_a_board_fed_from_another_brings_the_distribution_circuits(fed_from: str, is_fed: bool) -> None:
    job = done(entered(complete_report(), {"designation": "CU1"}, board="b1"), AddBoard())
    job = entered(job, {"designation": "Garage", "supplied_from": fed_from}, board=job.boards[-1].id)
    assert ("9.1" in {item.number for item in job.items}) is is_fed
    assert "10.1" not in {item.number for item in job.items}
    assert ("with distribution circuits" in job.list_named) is is_fed


def test_the_four_outcomes_of_connections_stand_apart_and_a_record_that_marked_them_as_one_keeps_its_one() -> None:
    apart = {"5.17a", "5.17b", "5.17c", "5.17d"}
    job = complete_report()
    assert {item.number for item in job.items if item.number.startswith("5.17")} == apart
    others = tuple(each for each in job.inspection if each.item not in apart)
    older = job.model_copy(update={"inspection": (*others, ItemOutcome(item="5.17", mark=InspectionOutcome.PASS))})
    assert {item.number for item in older.items if item.number.startswith("5.17")} == {"5.17"}
    assert not [gap for gap in gaps_of(older) if gap.place.item.startswith("5.17")]


def test_the_paper_says_by_which_list_was_inspected() -> None:
    larger = entered(complete_report(), {"phases": "3"}, board="b1")
    for job, named in ((complete_report(), "for domestic and similar"), (larger, "for larger installations")):
        assert named in inspection_schedule(Facts(job)).subtitle


def test_minor_works_has_no_inspection_schedule() -> None:
    assert items_for(FormSet.MEIWC, Edition.A2) == ()
    assert checklist_for(FormSet.MEIWC, Edition.A2) is None


@pytest.mark.parametrize("form_set", SCHEDULED)
def test_a_checklist_says_where_it_comes_from_and_how_far_to_trust_it(form_set: FormSet) -> None:
    checklist = checklist_for(form_set, Edition.A2)
    assert checklist
    assert checklist.source.trust is Trust.MEMORY
    assert "BS 7671" in checklist.source.cited
    assert all(item.title and item.section and item.regulations for item in checklist.items)


ONE_ITEM = """
[[section]]
title = "Intake"
[[section.item]]
number = "1.1"
look_at = "Tails"
"""
SOURCE = 'edition = "A2"\n[source]\nstandard = "BS 7671"\ntrust = "memory"\n[named]\ndomestic = "the list"\n'


def test_a_checklist_without_a_source_is_refused() -> None:
    with pytest.raises(KeyError, match="source"):
        checklist_in(f'edition = "A2"\n{ONE_ITEM}')


def test_a_checklist_that_names_no_edition_is_refused() -> None:
    with pytest.raises(KeyError, match="edition"):
        checklist_in(SOURCE.partition("\n")[2] + ONE_ITEM)


def test_an_item_number_used_twice_is_refused() -> None:
    assert len(checklist_in(SOURCE + ONE_ITEM).items) == 1
    with pytest.raises(ValidationError, match=r"1\.1.*twice"):
        checklist_in(SOURCE + ONE_ITEM + ONE_ITEM)


@pytest.mark.parametrize(
    ("mark", "note", "holds"),
    [
        (InspectionOutcome.PASS, "", True),
        (InspectionOutcome.PASS, "None", True),
        (InspectionOutcome.PASS, "Garden sauna", False),
        (InspectionOutcome.NOT_APPLICABLE, "", False),
    ],
)
def test_special_locations_that_pass_are_listed_by_name(mark: InspectionOutcome, note: str, holds: bool) -> None:
    job = done(complete_certificate(), SetOutcome(item="13", mark=mark, note=note))
    assert any("none is named" in gap.says for gap in gaps_of(job)) is holds
