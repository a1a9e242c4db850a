"""Programs killed at any moment, and terminals hung up: what they acknowledged must be there."""

import random
import tempfile
from collections.abc import Iterator
from pathlib import Path

from tests.storage.test_nothing_is_lost import (
    acknowledged_until_hung_up,
    acknowledged_until_killed,
    assert_kept,
    begin_jobs,
)

_ROUNDS_A_LOG = 50


def killed(folder: Path, counts: list[int]) -> Iterator[str]:
    """So many kills, then so many hang-ups."""
    kills, hang_ups = (*counts, 0)[:2]
    chance = random.Random(7671)
    acknowledged = sum(_on_one_log(folder, rounds, chance, hangs_up=False) for rounds in _shared_out(kills))
    yield f"- {kills:,} programs killed by signal 9: {acknowledged:,} edits acknowledged, 0 lost, every file whole"
    acknowledged = sum(_on_one_log(folder, rounds, chance, hangs_up=True) for rounds in _shared_out(hang_ups))
    yield f"- {hang_ups:,} terminals hung up: {acknowledged:,} edits acknowledged, 0 lost, every file whole"


def _on_one_log(folder: Path, rounds: int, chance: random.Random, *, hangs_up: bool) -> int:
    with tempfile.TemporaryDirectory(dir=folder) as home:
        begin_jobs(Path(home))
        acknowledged: list[str] = []
        for turn in range(rounds):
            until = acknowledged_until_hung_up if hangs_up else acknowledged_until_killed
            acknowledged += until(Path(home), f"w{turn}", chance.randint(1, 30))
        assert_kept(Path(home), acknowledged)
    return len(acknowledged)


def _shared_out(rounds: int) -> list[int]:
    whole, rest = divmod(rounds, _ROUNDS_A_LOG)
    return [_ROUNDS_A_LOG] * whole + [rest] * bool(rest)
