"""No box, item or screen is without a word of the coach, and every word fits the panel."""

from collections.abc import Iterator

import pytest
from pydantic import BaseModel

from domain.coach.entry import CoachEntry, entries, entries_in, entry_for
from domain.coach.topics import topics_of
from domain.edition import Edition
from domain.forms.choice.question import further_questions, questions
from domain.forms.form_set import FormSet
from domain.inspection.checklist import ChecklistItem, checklist_for
from domain.job.board import Board
from domain.job.box import boxes_of
from domain.job.circuit import Circuit
from domain.job.job import SECTIONS
from domain.place import Place

OWNERS: dict[str, type[BaseModel]] = {**SECTIONS, "board": Board, "circuit": Circuit}


def every_box() -> Iterator[str]:
    for owner, declared in OWNERS.items():
        yield from (f"{owner}.{name}" for name in boxes_of(declared))


def place_of(key: str) -> Place:
    owner, box = key.split(".")
    if owner == "circuit":
        return Place(section="boards", board="b1", circuit="c2", box=box)
    return Place(section="boards", board="b1", box=box) if owner == "board" else Place(section=owner, box=box)


def all_items(form_set: FormSet) -> tuple[ChecklistItem, ...]:
    """Those of larger installations with them."""
    checklist = checklist_for(form_set, Edition.A2)
    return checklist.items if checklist else ()


@pytest.mark.parametrize("key", sorted(every_box()))
def test_no_box_is_without_an_entry(key: str) -> None:
    assert topics_of(place_of(key), FormSet.EIC) == (key,)
    assert entry_for((key,))


@pytest.mark.parametrize("form_set", [FormSet.EIC, FormSet.EICR])
def test_no_inspection_item_is_without_an_entry(form_set: FormSet) -> None:
    for item in all_items(form_set):
        keys = topics_of(Place(section="inspection", item=item.number), form_set)
        assert entry_for(keys), item.number


def test_no_entry_explains_what_is_not_there() -> None:
    items = {
        key
        for form_set in (FormSet.EIC, FormSet.EICR)
        for item in all_items(form_set)
        for key in topics_of(Place(item=item.number), form_set)
    }
    sections = {key.rpartition(".")[0] for key in items}
    known = {*every_box(), *items, *sections, *OWNERS}
    assert [key for key in entries() if not key.startswith(("screen.", "question.")) and key not in known] == []


@pytest.mark.parametrize(
    "entry", sorted(set(entries().values()), key=lambda entry: entry.at), ids=lambda entry: entry.at[0]
)
def test_an_entry_says_what_why_and_how_and_names_its_rule(entry: CoachEntry) -> None:
    assert all((entry.what, entry.why, entry.how))
    for text in filter(None, (entry.what, entry.why, entry.how, entry.caution)):
        assert text.strip().endswith(".")
    assert entry.source.standard
    assert entry.source.table
    assert entry.source.trust.value in {"published", "memory", "common practice"}


@pytest.mark.parametrize(
    "key", ["client.name", "firm.name", "work.completed_on", "signatories", "supply.ze_by", "screen.issue"]
)
def test_the_sign_of_danger_is_kept_for_danger_to_people(key: str) -> None:
    assert entries()[key].caution == ""


@pytest.mark.parametrize("key", ["circuit.zs", "circuit.rcd_time", "supply.polarity", "board.ipf"])
def test_what_is_measured_live_warns_of_it_and_defers(key: str) -> None:
    caution = entries()[key].caution
    assert caution.startswith("Live test")
    assert "standard" in caution
    assert "local rules" in caution


@pytest.mark.parametrize("key", ["circuit.r1_r2", "circuit.ir_earth", "circuit.ring_r1", "circuit.polarity"])
def test_what_is_measured_dead_asks_for_isolation_first(key: str) -> None:
    assert "prove dead" in entries()[key].caution


def test_an_entry_that_says_less_is_refused() -> None:
    with pytest.raises(KeyError, match="how"):
        entries_in('[source]\nstandard = "x"\ntrust = "memory"\n[[entry]]\nat = ["a.b"]\nwhat = "w"\nwhy = "w"\n')


def test_an_unknown_place_has_no_entry() -> None:
    assert entry_for(topics_of(None, None)) is None
    assert entry_for(topics_of(Place(snag="s1"), FormSet.EIC)) is None
    assert entry_for(("nothing.at.all",)) is None


def test_every_question_of_the_interview_has_a_text_of_its_own_and_no_text_is_of_no_question() -> None:
    asked = {f"question.{each.id}" for each in (*questions(), *further_questions())}
    told = {key for key in entries() if key.startswith("question.")}
    assert asked == told
    assert len({entries()[key] for key in told}) == len(asked)
    assert all(entries()[key].at == (key,) for key in told)
