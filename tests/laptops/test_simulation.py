"""The protocol between an office and its laptops, held by an invented town where everything that can go wrong does."""

from collections import Counter

import pytest

from tests.laptops.invariants import broken
from tests.laptops.machine import Machine
from tests.laptops.simulation import Town

STEPS = 250


@pytest.mark.parametrize("seed", range(20))
def test_nothing_is_lost_numbered_twice_or_issued_twice_untold_and_all_agree_in_the_end(seed: int) -> None:
    town = Town(seed)
    town.run(STEPS)
    town.heal()

    assert broken(town) == []
    assert town.happened["edits"] > 20


def test_what_can_go_wrong_did_in_these_towns() -> None:
    happened = Counter[str]()
    for seed in range(6):
        town = Town(seed)
        town.run(STEPS)
        happened += town.happened

    for what in (
        *("bundles cut", "bundles repeated", "bundles dropped", "bundles: crash", "bundles: gap"),
        *("laptops put back", "office put back", "laptops lost", "papers"),
    ):
        assert happened[what], what


def test_without_the_stamp_outside_the_log_a_copy_put_back_loses_work(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Machine, "has_stamp", False)
    found = []
    for seed in range(8):
        town = Town(seed)
        for _ in range(3):
            town.run(80)
            for laptop in town.laptops[:2]:
                laptop.backups = laptop.backups or [laptop.backup()]
                town.put_back(laptop)
        town.heal()
        found += broken(town)

    assert found
