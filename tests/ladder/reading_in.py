"""`read-in` killed at each of its dealings with the log: all readings are there, or none."""

import signal
import tempfile
from collections.abc import Iterator
from pathlib import Path

from tests.tui.commands.test_read_in_killed import begun_for_reading_in, killed_in_reading_in


def read_in_killed(folder: Path, counts: list[int]) -> Iterator[str]:
    """Kill it at each dealing with the log, up to so many."""
    with tempfile.TemporaryDirectory(dir=folder) as place:
        made = begun_for_reading_in(Path(place) / "made" / "log")
        _, whole = killed_in_reading_in(made, Path(place) / "whole", 1_000_000)
        _, before = killed_in_reading_in(made, Path(place) / "none", 0)
        killed = all_there = 0
        for dealing in range(counts[0]):
            code, stands = killed_in_reading_in(made, Path(place) / str(dealing), dealing)
            assert stands in {whole, before}, (dealing, stands)
            if code != -signal.SIGKILL:
                break
            killed, all_there = killed + 1, all_there + (stands == whole)
    yield f"- read-in killed at {killed:,} dealings with the log: {all_there:,} times all was there, else nothing of it; never a part"
