"""Sequences of commands at random on a real log: none leaves a paper that the gate would not have let pass."""

import tempfile
from collections.abc import Iterator
from pathlib import Path

from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st

from storage.sqlite_job_log import SqliteJobLog
from tests.domain.gate.test_gate_holds import STARTS
from tests.storage.memory_log import MemoryJobLog
from tests.storage.played import played


def sequences(folder: Path, counts: list[int]) -> Iterator[str]:
    """So many sequences, each on a log of its own and on one in memory that it is held against."""
    done = papers = 0

    @seed(7671)
    @settings(
        max_examples=counts[0],
        deadline=None,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(data=st.data(), start=st.sampled_from(STARTS))
    def play(data: st.DataObject, start: object) -> None:
        nonlocal done, papers
        with tempfile.TemporaryDirectory(dir=folder) as home:
            log = SqliteJobLog.open(Path(home) / "log")
            papers += played(data, start, log, MemoryJobLog())
            log.close()
        done += 1

    play()
    yield (
        f"- {done:,} sequences of commands at random, {papers:,} papers issued by them: every one as the gate lets pass, "
        "and the log the same as one in memory"
    )
