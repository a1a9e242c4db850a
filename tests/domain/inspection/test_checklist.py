"""The checklists: whole, in walking order, with their source."""

from itertools import pairwise

import pytest
from pydantic import ValidationError

from domain.editing.commands import SetOutcome
from domain.edition import Edition
from domain.forms.form_set import FormSet
from domain.gate.gaps import gaps_of
from domain.inspection.checklist import checklist_for, checklist_in, items_for
from domain.inspection.item_outcome import InspectionOutcome
from domain.source import Trust
from tests.builders import complete_certificate, done

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
    assert counts == {"1": 3, "2": 1, "3": 8, "4": 22, "5": 25, "6": 8, "7": 1, "8": 1}


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
SOURCE = '[source]\nstandard = "BS 7671"\ntrust = "memory"\n'


def test_a_checklist_without_a_source_is_refused() -> None:
    with pytest.raises(KeyError, match="source"):
        checklist_in(ONE_ITEM)


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
