"""How long the checks take; nothing fails on it. `pytest tests/benchmarks --benchmark-enable` prints the figures.

Aimed at, as medians: 10 ms over 40 circuits, 120 ms over 400, 5 ms after one reading on 40.
"""

from itertools import count
from typing import Any

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from domain.checks import findings_of
from domain.editing.commands import Enter
from domain.editing.reducer import apply
from domain.gate.assessment import assess
from domain.job.job import Job
from domain.place import Place
from tests.domain.checks.jobs import RCD_30, RING, SOUND_RADIAL, job

ON_A_BOARD = 40
LIGHTS = {"live_csa": "1.5", "cpc_csa": "1.0", "rating": "6", "r1_r2": "0.60", "zs": "0.92", "length": "20"}
KINDS: tuple[dict[str, Any], ...] = (
    {},
    RING | {"length": "54"},
    RCD_30 | {"length": "18"},
    LIGHTS | {"description": "Lights"},
)


def job_of(circuits: int) -> Job:
    """A job of boards of 40 circuits, the first at the origin and the others fed from it."""
    rows = [SOUND_RADIAL | KINDS[at % len(KINDS)] for at in range(ON_A_BOARD)]
    more = [
        {
            "id": f"b{number}",
            "designation": f"DB{number}",
            "supplied_from": "DB1",
            "phases": "1",
            "zs": "0.35",
            "ipf": "0.7",
            "circuits": [row | {"id": f"b{number}c{at}", "number": str(at)} for at, row in enumerate(rows, start=1)],
        }
        for number in range(2, circuits // ON_A_BOARD + 1)
    ]
    return job(
        *({key: held for key, held in row.items() if key not in {"id", "number"}} for row in rows), more_boards=more
    )


@pytest.mark.parametrize("circuits", [40, 400])
def test_all_checks_over_a_job(benchmark: BenchmarkFixture, circuits: int) -> None:
    whole = job_of(circuits)
    seen = count()

    def again() -> tuple[Any, ...]:
        return findings_of(whole.model_copy(update={"next_id": 1000 + next(seen)}))

    assert isinstance(benchmark(again), tuple)


def one_reading(whole: Job, turn: int) -> Job:
    board = whole.boards[0]
    place = Place(section="boards", board=board.id, circuit=board.circuits[5].id, box="zs")
    after = apply(whole, Enter(place=place, text=f"0.{60 + turn % 30}"))
    assert isinstance(after, Job)
    return after


def test_checks_after_one_reading_on_40_circuits(benchmark: BenchmarkFixture) -> None:
    whole, turns = job_of(40), count()
    assert isinstance(benchmark(lambda: findings_of(one_reading(whole, next(turns)))), tuple)


def test_the_whole_standing_after_one_reading_on_40_circuits(benchmark: BenchmarkFixture) -> None:
    whole, turns = job_of(40), count()
    assert benchmark(lambda: assess(one_reading(whole, next(turns))))
