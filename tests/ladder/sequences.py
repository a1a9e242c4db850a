"""Sequences of commands at random on a real log: none leaves a paper that the gate would not have let pass."""

import tempfile
from collections.abc import Iterator
from pathlib import Path

from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st

from domain.job.job import Job
from tests.domain.gate.test_gate_holds import STARTS
from tests.storage.begun import begun_log
from tests.storage.memory_log import MemoryJobLog
from tests.storage.played import played

_IN_A_ROUND = 50
_ROUND = settings(deadline=None, database=None, phases=[Phase.generate], suppress_health_check=list(HealthCheck))


def sequences(folder: Path, counts: list[int]) -> Iterator[str]:
    """So many sequences, each on a log of its own and on one in memory that it is held against; a line for each round."""
    done = papers = 0

    def play(data: st.DataObject, start: Job) -> None:
        nonlocal done, papers
        with tempfile.TemporaryDirectory(dir=folder) as home:
            log = begun_log(Path(home) / "log")
            papers += played(data, start, log, MemoryJobLog())
            log.close()
        done += 1

    while done < counts[0]:
        many = min(_IN_A_ROUND, counts[0] - done)
        seed(7671 + done)(
            settings(_ROUND, max_examples=many)(given(data=st.data(), start=st.sampled_from(STARTS))(play))
        )()
        yield f"- {done:,} sequences, {papers:,} papers issued by them, none that may not be"
    yield (
        f"- {done:,} sequences of commands at random, {papers:,} papers issued by them: every one as the gate lets pass, "
        "and the log the same as one in memory"
    )
