"""Guidance on codes is found by the words of an observation, names its source, and chooses nothing.

What inspectors type, and which guidance stands beside it then, is in `tests/cases/codes*.toml`, with where each is told.
"""

import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from domain.edition import Edition
from domain.forms.form_set import FormSet
from domain.inspection.checklist import items_for
from domain.inspection.codes.guidance import guidance
from domain.inspection.codes.likeness import MOST, guidance_for
from domain.inspection.observation import Code
from domain.source import Trust

CASES = Path(__file__).parents[3] / "cases"
KEPT_ASIDE_FOUND = 97
"""Of a hundred, at the least."""


def _described(name: str) -> Iterator[tuple[str, str, tuple[Code, ...]]]:
    """What is typed, what the guidance it must find is about, and the codes that guidance names."""
    told = tomllib.loads((CASES / f"{name}.toml").read_text("utf-8"))
    for kind in told["kind"]:
        assert kind["source"] in told["source"], kind["about"]
        for typed in kind["typed"]:
            yield typed, kind["about"], tuple(Code(code) for code in kind["codes"])


def _not_found(name: str) -> list[str]:
    """What is typed and does not find its guidance, with its codes, among those shown."""
    return [
        typed
        for typed, about, codes in _described(name)
        if not any((each.about, each.commonly) == (about, codes) for each in guidance_for(typed))
    ]


def test_what_inspectors_type_finds_its_guidance_among_the_three_shown() -> None:
    assert len(list(_described("codes"))) > 200
    assert _not_found("codes") == []


def test_what_the_search_was_not_tuned_to_is_found_nearly_as_often() -> None:
    missed, of = _not_found("codes_kept_aside"), len(list(_described("codes_kept_aside")))
    assert 100 * (of - len(missed)) >= KEPT_ASIDE_FOUND * of, missed


def test_the_words_of_a_title_find_its_guidance_first_and_in_any_order() -> None:
    assert [each.about for each in guidance() if guidance_for(each.about)[0] is not each] == []
    turned = {each.about: " ".join(reversed(each.about.split())) for each in guidance()}
    assert [each.about for each in guidance() if each not in guidance_for(turned[each.about])] == []


@pytest.mark.parametrize(
    ("typed", "about"),
    [
        ("MCB too big for the cable", "Device rated higher than its cable can carry"),
        ("rcd doesn't trip", "RCD does not trip, or too slowly"),
        ("class I", "Circuit without a cpc, with Class I equipment"),
        ("cracked sockets", "Damaged accessory or enclosure"),
        ("crakced socket", "Damaged accessory or enclosure"),
        ("borrowed nuetral", "Neutrals of several circuits shared or borrowed"),
        ("no R.C.D. label", "RCD test notice missing"),
        ("1.5mm² on 32A MCB", "Device rated higher than its cable can carry"),
        ("CUT-OUT DAMAGED", "Service cut-out, meter or cable damaged"),
        ("nail in fuse", "Fuse wire or foil wrong, or a nail in its place"),
        ("fuseboard hole in top", "Openings in the top of a board larger than IP4X"),
        ("mixed bulbs ip zone 1", "Equipment in a bathroom of too low an IP for its zone"),
    ],
)
def test_the_words_of_the_trade_are_seen_through(typed: str, about: str) -> None:
    assert about in [each.about for each in guidance_for(typed)]


def test_a_word_is_found_before_it_is_typed_to_its_end() -> None:
    assert guidance_for("borrowed neut")[0].about == "Neutrals of several circuits shared or borrowed"
    assert guidance_for("asbes")[0].about == "Asbestos in a fuse carrier or board"


def test_a_hundred_kinds_of_observation_have_guidance() -> None:
    assert len({each.about for each in guidance()}) == len(guidance()) > 100


def test_a_short_word_is_not_found_inside_a_longer_one() -> None:
    assert "No RCD" not in guidance_for("notice about the rcd")[0].about


def test_an_item_helps_where_the_words_say_nothing() -> None:
    assert guidance_for("see photograph") == ()
    assert all("4.4" in each.items for each in guidance_for("see photograph", ("4.4",)))
    assert guidance_for("see photograph", ("4.4",))


@pytest.mark.parametrize(
    ("item", "codes"),
    [("5.12a", {Code.C3}), ("5.12b", {Code.C2}), ("5.12c", {Code.C3}), ("5.12d", {Code.C3}), ("5.12e", {Code.C3})],
)
def test_an_rcd_missing_is_c2_by_its_item_only_for_equipment_outdoors(item: str, codes: set[Code]) -> None:
    # Common practice: sockets indoors, cables in walls and luminaires are C3; a socket written of as outdoors is C2.
    assert set(guidance_for("", (item,))[0].commonly) == codes
    assert guidance_for("no RCD for a socket outdoors", (item,))[0].commonly == (Code.C2,)


def test_a_few_are_shown_and_every_one_names_a_source() -> None:
    everything = "no rcd socket outside, no main bonding, cracked socket, plastic board, borrowed neutral"
    assert len(guidance_for(everything)) == MOST
    assert all(each.says and each.source.cited for each in guidance())


def test_every_entry_of_the_guide_names_its_issue() -> None:
    entries = [each for each in guidance() if "Best Practice Guide 4" in each.source.standard]
    assert entries
    assert [each.about for each in entries if "Issue" not in each.source.table] == []
    assert {each.source.trust for each in guidance()} == set(Trust)


def test_an_entry_that_names_fi_is_contested_since_the_guide_dropped_its_examples() -> None:
    entries = [each for each in guidance() if Code.FI in each.commonly]
    assert entries
    assert all(each.is_contested and "Issue 7" in each.told for each in entries)


def test_codes_of_the_years_before_condition_reports_are_explained_and_never_turned_into_todays() -> None:
    old = guidance_for("code 2 on an old report")[0]
    assert old.commonly == ()
    assert "an old 2 is no C2" in old.says


def test_every_item_named_is_on_the_checklist_of_a_report() -> None:
    items = {item.number for item in items_for(FormSet.EICR, Edition.A2)}
    tops = {number.partition(".")[0] for number in items}
    assert {item for each in guidance() for item in each.items if item not in items and item not in tops} == set()


def test_every_code_has_its_meaning_and_some_guidance() -> None:
    named = {code for each in guidance() for code in each.commonly}
    assert named == set(Code)
    assert all(code.meaning for code in Code)
