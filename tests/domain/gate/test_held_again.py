"""An issued record held against the gate again: what keeps it from having passed, by this program and by an earlier one."""

from typing import Any

import pytest

from domain.gate.held_again import HeldAgain, held_again
from domain.job.job import Job
from domain.register.entries import Person
from tests.builders import INSPECTOR
from tests.domain.gate.changed import changed, sound

OURS = "Ohmfolio 9"
SNAG = {"id": "s9", "what": "Grommet missing", "raised_by": INSPECTOR, "raised_on": "2026-03-02"}
IN_TRAINING = (Person(name=INSPECTOR),)
MAY_NOT = (
    f"Signed for design, but {INSPECTOR} is in training and signs nothing yet; the register of people can be changed"
)
FAILS = {"typed": {"b1.c2.ir_live": "0.40"}}


def record(papers: str = "certificate", set_by: str = "", **change: Any) -> Job:
    stamp = {"at": "2026-03-02T16:30:00Z", "by": INSPECTOR, "set_by": set_by}
    return changed(sound(papers), change | {"signed": {"document": change.get("after", {}) | {"issued": stamp}}})


@pytest.mark.parametrize("set_by", [OURS, "Ohmfolio 1", ""])
def test_a_record_that_the_gate_lets_through_could_have_passed(set_by: str) -> None:
    assert held_again(record(set_by=set_by), (), OURS) == HeldAgain()


def test_a_record_that_says_nowhere_that_it_was_issued_cannot_have_passed() -> None:
    assert held_again(sound("certificate"), (), OURS) == HeldAgain(why="it says nowhere that it was issued.")


def test_a_record_of_this_very_program_is_held_against_every_rule() -> None:
    assert held_again(record(set_by=OURS, **FAILS), (), OURS).why.startswith(
        "DB1, circuit 1 Kitchen sockets, Insulation"
    )
    assert held_again(record(set_by=OURS, sign=False), (), OURS) == HeldAgain(why="Not signed yet: design")


@pytest.mark.parametrize(
    ("change", "people", "why"),
    [
        ({"sign": False}, (), "it is not signed."),
        ({"document": {"snags": [SNAG]}}, (), "a snag is open."),
        ({}, IN_TRAINING, MAY_NOT),
        (FAILS, IN_TRAINING, MAY_NOT),
    ],
)
def test_of_an_earlier_version_only_what_every_gate_asked_for_counts(
    change: dict[str, Any], people: tuple[Person, ...], why: str
) -> None:
    assert held_again(record(set_by="Ohmfolio 1", **change), people, OURS) == HeldAgain(why=why)


@pytest.mark.parametrize(("set_by", "named"), [("Ohmfolio 1", "Ohmfolio 1"), ("", "Another version")])
def test_a_rule_that_may_be_newer_than_the_record_proves_nothing(set_by: str, named: str) -> None:
    told = held_again(record(set_by=set_by, **FAILS), (), OURS)
    assert told.why == ""
    assert told.unproven.startswith(
        f"{named} issued it; this one would say: DB1, circuit 1 Kitchen sockets, Insulation"
    )


def test_a_snag_on_a_report_never_kept_it_from_being_issued() -> None:
    told = held_again(record("report", "Ohmfolio 1", document={"snags": [SNAG]}, **FAILS), (), OURS)
    assert told.why == ""
