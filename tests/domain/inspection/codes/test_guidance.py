"""Guidance on codes is found by the words of an observation, names its source, and chooses nothing."""

import pytest

from domain.edition import Edition
from domain.forms.form_set import FormSet
from domain.inspection.checklist import items_for
from domain.inspection.codes.guidance import MOST, guidance, guidance_for
from domain.inspection.observation import Code

FOUND = [
    ("Exposed live parts at a broken socket", "Live parts that can be touched"),
    ("No RCD for sockets likely to feed equipment outdoors", "No RCD for sockets that may feed equipment outdoors"),
    ("RCD absent on sockets, first floor", "No RCD for sockets that do not feed equipment outdoors"),
    ("No cpc on lighting circuit, Class II fittings", "Lighting circuit without a cpc, Class II fittings"),
    ("Plastic consumer unit in the hall", "Consumer unit of plastic in a home"),
    ("No main bonding to the gas", "Earthing conductor or main bonding loose, missing"),
    ("Zs exceeds its maximum on circuit 4", "Zs above the limit"),
    ("Ring circuit open on the line conductor", "Ring circuit that is not complete"),
    ("RCD did not trip on test", "RCD does not trip, or too slowly"),
    ("CUT-OUT DAMAGED", "Service cut-out, meter or cable damaged"),
    ("no rcd sockets", "No RCD for sockets that do not feed equipment outdoors"),
    ("no rcd for outside sockets", "No RCD for sockets that may feed equipment outdoors"),
    ("plastic consumer unit under stairs", "Plastic consumer unit under the stairs"),
    ("CU plastic", "Consumer unit of plastic"),
    ("missing blanks", "A breaker or fuse carrier missing"),
    ("borrowed neutral", "Neutrals of several circuits"),
    ("no main bonding gas", "Earthing conductor or main bonding"),
    ("cracked socket", "Damaged accessory"),
    ("no earth lighting metal switch", "Lighting circuit without a cpc, metal"),
    ("no cpc to lights class 2", "Lighting circuit without a cpc, Class II"),
    ("reversed polarity", "Polarity reversed at a socket"),
    ("reversed polarity at the origin", "Polarity reversed at the origin"),
    ("neutral fused", "Fuse or switch in the neutral"),
    ("exposed live", "Live parts that can be touched"),
    ("lead sheath", "Old lead-sheathed cable"),
    ("rubber cable", "Old rubber-insulated cable"),
    ("rewirable fuses", "Rewirable fuses"),
    ("no AFDD", "No arc fault detection"),
    ("no SPD", "No surge protection"),
    ("diagram missing", "Circuits not identified"),
    ("supplementary bonding bathroom", "Supplementary bonding missing"),
    ("mixed bulbs ip zone 1", "Equipment in a bathroom of too low an IP"),
    ("no RCD labels", "RCD test notice missing"),
    ("fuseboard hole in top", "Openings in the top"),
    ("smoke alarms missing", "Smoke alarms"),
    ("socket near sink", "Socket near a sink"),
    ("nail in fuse", "Fuse wire or foil wrong"),
]


@pytest.mark.parametrize(("observation", "about"), FOUND)
def test_an_observation_finds_the_guidance_on_its_like_first(observation: str, about: str) -> None:
    assert guidance_for(observation)[0].about.startswith(about)


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
    everything = " ".join(observation for observation, _ in FOUND)
    assert len(guidance_for(everything)) == MOST
    assert all(each.says and each.source.cited for each in guidance())


def test_every_item_named_is_on_the_checklist_of_a_report() -> None:
    items = {item.number for item in items_for(FormSet.EICR, Edition.A2)}
    tops = {number.partition(".")[0] for number in items}
    assert {item for each in guidance() for item in each.items if item not in items and item not in tops} == set()


def test_every_code_has_its_meaning_and_some_guidance() -> None:
    named = {code for each in guidance() for code in each.commonly}
    assert named == set(Code)
    assert all(code.meaning for code in Code)
