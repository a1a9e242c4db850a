"""How long a pack takes, how big it is and how much memory it needs, at several sizes. Measured, not judged.

pytest -n 0 -s --benchmark-enable tests/storage/paper/bench_packs.py
"""

import resource
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from domain.job.job import Job
from storage.pdf import bind_draft
from tests.builders import complete_certificate

ROOT = Path(__file__).parents[3]
SIZES = (20, 120, 400)
_PROCESSES = 2
"""Each a pack."""


def job_of(circuits: int) -> Job:
    """A certificate with so many circuits on boards of no more than 60."""
    job = complete_certificate(sign=False)
    board = job.boards[0]
    like = board.circuits[-1]
    ways = [
        like.model_copy(update={"id": f"c{1000 + at}", "number": str(at), "description": f"Way {at} of the hall"})
        for at in range(1, circuits + 1)
    ]
    boards = tuple(
        board.model_copy(update={"id": f"b{first}", "designation": f"DB{first}", "circuits": tuple(ways[first:][:60])})
        for first in range(0, circuits, 60)
    )
    return job.model_copy(update={"boards": boards})


@pytest.mark.parametrize("circuits", SIZES)
def test_a_pack_is_made(benchmark: Any, circuits: int):
    job = job_of(circuits)
    bound = benchmark.pedantic(bind_draft, args=(job,), rounds=5, warmup_rounds=1)
    benchmark.extra_info |= {"pages": bound.pages, "KiB": len(bound.pdf) // 1024}
    sys.stdout.write(f"\n{circuits} circuits: {bound.pages} pages, {len(bound.pdf) // 1024} KiB ")


@pytest.mark.parametrize("circuits", SIZES)
def test_a_process_that_makes_one_pack(benchmark: Any, circuits: int):
    """From nothing, the interpreter and every import included; the peak of its memory beside it."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    told = benchmark.pedantic(_in_a_process, args=(circuits,), rounds=_PROCESSES)
    since = resource.getrusage(resource.RUSAGE_CHILDREN)
    worked = (since.ru_utime + since.ru_stime - used.ru_utime - used.ru_stime) / _PROCESSES
    benchmark.extra_info |= {"peak MiB": told, "processor s": round(worked, 2)}
    sys.stdout.write(f"\n{circuits} circuits: peak {told} MiB, {worked:.2f} s of the processor ")


def _in_a_process(circuits: int) -> int:
    code = "import sys; from tests.storage.paper.bench_packs import peak_of; sys.stdout.write(str(peak_of(int(sys.argv[1]))))"
    ran = subprocess.run([sys.executable, "-c", code, str(circuits)], cwd=ROOT, capture_output=True, check=True)
    return int(ran.stdout)


def peak_of(circuits: int) -> int:
    """Make one pack, and say the most memory this process has held, in MiB."""
    bind_draft(job_of(circuits))
    # The peak that resource tells counts what this process was a copy of before it began.
    told = next(line for line in Path("/proc/self/status").read_text().splitlines() if line.startswith("VmHWM:"))
    return int(told.split()[1]) // 1024
