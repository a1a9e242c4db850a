"""What a circuit feeds is taken from its box; its description is gone by only while the box is empty."""

import pytest

from domain.checks.shared.uses import use_of
from domain.job.circuit import USE_BOXES, Circuit
from domain.job.circuit_use import FEEDS, RUNS
from domain.job.job import fingerprint
from tests.builders import complete_certificate


def test_the_box_goes_before_the_words_of_the_description() -> None:
    said = use_of(Circuit(description="Sockets, lounge", feeds="lighting"))
    assert (said.lights, said.sockets, said.is_guess) == (True, False, False)


def test_several_uses_stand_together() -> None:
    said = use_of(Circuit(description="Annexe", feeds="socket-outlets and lighting"))
    assert (said.lights, said.sockets) == (True, True)


def test_a_ring_that_is_said_to_feed_heaters_feeds_no_sockets() -> None:
    assert not use_of(Circuit(shape="ring", description="Store", feeds="space heating")).sockets
    assert use_of(Circuit(shape="ring", description="Store")).sockets


@pytest.mark.parametrize(
    ("runs", "known"), [("bathroom", "bath"), ("outdoors", "outdoors"), ("wall under 50 mm", "concealed")]
)
def test_where_it_runs_is_known_whatever_it_feeds(runs: str, known: str) -> None:
    assert getattr(use_of(Circuit(feeds="other", runs=runs)), known)
    assert not getattr(use_of(Circuit(feeds="other", runs="none of these")), known)


def test_answers_of_one_box_are_told_apart_when_several_stand_together() -> None:
    for choices in (FEEDS, RUNS):
        assert not any(" and " in choice or "+" in choice or "&" in choice for choice in choices)


def test_a_box_that_a_later_version_adds_lifts_no_signature() -> None:
    job = complete_certificate()
    held = job.model_dump(mode="json")
    for board in held["boards"]:
        for circuit in board["circuits"]:
            for name in USE_BOXES:
                del circuit[name]
    assert fingerprint(type(job).model_validate(held)) == fingerprint(job)
