"""What each form set cannot do without, box by box, against a list of its own."""

from collections.abc import Mapping
from typing import Any

import pytest

from domain.forms.form_set import FormSet
from domain.gate.assessment import assess
from domain.gate.reason import ReasonKind
from domain.job.board import Board
from domain.job.box import boxes_of, typed_in
from domain.job.circuit import Circuit
from domain.job.job import SECTIONS, Job, sections_for
from domain.job.place_in_words import owner_at
from domain.place import Place
from tests.domain.gate.changed import place_of, sound, table, typed

TABLE = table("required_boxes")
ONLY_WHERE = [(row, form_set) for row in TABLE["only_where"] for form_set in row["on"]]
SAYS = {"filled": "to be filled in", "taken": "not taken yet"}
NOWHERE = {"board": "b1", "ring": "b1.c2"}
MISSING = tuple(SAYS.values())


def pages() -> list[tuple[str, str]]:
    """Every page that a form set asks for; a page the list forgets is tested too, and held to need nothing."""
    return [(form_set, page) for form_set in FormSet for page in (*sections_for(form_set), "board", "ring")]


def asked_on(form_set: str, page: str) -> tuple[Place, ...]:
    owner = {"board": Board, "ring": Circuit}.get(page) or SECTIONS[page]
    return tuple(
        place_of(f"{NOWHERE.get(page, page)}.{name}")
        for name, box in boxes_of(owner).items()
        if box.is_asked(FormSet(form_set))
    )


def needs(row: Mapping[str, Any], within: str = "") -> dict[Place, str]:
    """The boxes that a row of the list says are needed, with what must be said of each."""
    return {place_of(f"{within}{name}"): says for how, says in SAYS.items() for name in row.get(how, ())}


def missed(job: Job, place: Place) -> str:
    """What the gate says is missing in a box once it is emptied; "" where nothing is."""
    reasons = assess(typed(job, {written(place): ""})).reasons
    says = [each.says.rpartition(": ")[2] for each in reasons if (each.kind, each.place) == (ReasonKind.GAP, place)]
    told = [each for each in says if each.endswith(MISSING)]
    assert len(told) <= 1
    return told[0] if told else ""


def written(place: Place) -> str:
    return ".".join(part for part in (place.board or place.section, place.circuit, place.box) if part)


def stands(job: Job, place: Place) -> bool:
    owner = owner_at(job, place)
    assert owner is not None
    return bool(typed_in(owner, place.box))


@pytest.mark.parametrize(("form_set", "page"), pages())
def test_each_box_that_is_needed_holds_the_paper_when_it_is_empty_and_no_other_does(form_set: str, page: str) -> None:
    job = sound(TABLE[form_set]["job"])
    needed = needs(TABLE[form_set].get(page, {}), f"{NOWHERE.get(page, page)}.")
    assert all(stands(job, place) for place in needed), "a sound job fills what it needs"
    given = {place: missed(job, place) for place in asked_on(form_set, page)}
    told = {place: says.removeprefix("a ring needs R1+R2, ") for place, says in given.items() if says}
    assert told == needed


@pytest.mark.parametrize(("row", "form_set"), ONLY_WHERE, ids=[f"{form}: {row['says']}" for row, form in ONLY_WHERE])
def test_a_box_is_needed_beside_some_answers_and_not_beside_others(row: dict[str, Any], form_set: str) -> None:
    job = sound(TABLE[form_set]["job"])
    needed = needs(row)
    there, elsewhere = typed(job, row["where"]), typed(job, row["elsewhere"])
    assert {place: missed(there, place) for place in needed} == needed
    assert {place: missed(elsewhere, place) for place in needed} == dict.fromkeys(needed, "")
