"""How long a pack takes of the processor, how big it is and how much memory it needs, at several sizes. Measured, not judged.

python -m tests.storage.paper.bench_packs [A TREE OF AN EARLIER COMMIT]

The two are measured in turn, so that what else the machine does weighs on both. Processor time, since the clock tells more of
the other programs than of this one. Every pack is of another job: the engine gives back at once what it has set before.
"""

import json
import os
import subprocess
import sys
import time
from pathlib import Path
from threading import Event, Thread

from domain.job.job import Job
from tests.builders import complete_certificate

ROOT = Path(__file__).parents[3]
SIZES = (20, 120, 400)
_TURNS = 3
_TIMED = """
import json, resource, sys
sys.path.insert(0, ".")
from storage.pdf import bind_draft
from tests.storage.paper.bench_packs import job_of

def used():
    both = (resource.getrusage(resource.RUSAGE_SELF), resource.getrusage(resource.RUSAGE_CHILDREN))
    return sum(each.ru_utime + each.ru_stime for each in both)

bind_draft(job_of(3))
for circuits in json.loads(sys.argv[1]):
    jobs = [job_of(circuits + turn) for turn in range(int(sys.argv[2]))]
    times, sizes, before = [], [], used()
    for job in jobs:
        bound = bind_draft(job)
        times.append(used() - before)
        before = used()
        sizes.append((bound.pages, len(bound.pdf) / 1024))
    print(json.dumps([circuits, *sizes[0], min(times)]), flush=True)
"""
"""Packs made in a program that runs, in whichever tree it is started; the processes it waits for are counted."""


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


def timed_in(tree: Path) -> list[tuple[int, int, float, float]]:
    """Circuits, pages, KiB and seconds of the processor, of each size."""
    ran = subprocess.run(
        [sys.executable, "-c", _TIMED, json.dumps(SIZES), str(_TURNS)],
        cwd=tree,
        capture_output=True,
        check=True,
        text=True,
    )
    return [tuple(json.loads(line)) for line in ran.stdout.splitlines() if line.startswith("[")]


def peaks_of(circuits: int) -> tuple[int, ...]:
    """MiB that each process held at most, of those that make one pack for the screens."""
    from storage.pdf_worker import PdfWorker

    worker, over, peaks = PdfWorker(), Event(), dict[int, int]()
    watch = Thread(target=_watch, args=(peaks, over))
    watch.start()
    try:
        worker.bind_draft(job_of(circuits))
    finally:
        over.set()
        watch.join()
        worker.close()
    # A process that is only just starting is none that made this one.
    return tuple(sorted(peak for peak in peaks.values() if peak > 30))


def _watch(peaks: dict[int, int], over: Event) -> None:
    while not over.is_set():
        for process in _below(os.getpid()):
            status = Path(f"/proc/{process}/status")
            try:
                told = next(line for line in status.read_text().splitlines() if line.startswith("VmHWM:"))
            except (OSError, StopIteration):
                continue
            peaks[process] = max(peaks.get(process, 0), int(told.split()[1]) // 1024)
        time.sleep(0.01)


def _below(process: int) -> list[int]:
    try:
        threads = list(Path(f"/proc/{process}/task").iterdir())
        own = [int(each) for thread in threads for each in (thread / "children").read_text().split()]
    except OSError:
        return []
    return [*own, *(each for child in own for each in _below(child))]


def main(*earlier: str) -> None:
    """Print a table of this tree, and of an earlier one where it is named."""
    trees = [ROOT, *(Path(each).resolve() for each in earlier)]
    for tree in trees:
        sys.stdout.write(f"{'this tree' if tree == ROOT else tree}\n")
        for circuits, pages, kib, seconds in timed_in(tree):
            sys.stdout.write(f"  {circuits} circuits: {pages} pages, {kib:.0f} KiB, {seconds:.2f} s of the processor\n")
            sys.stdout.flush()
    for circuits in SIZES:
        sys.stdout.write(f"{circuits} circuits: peak of each process {peaks_of(circuits)} MiB\n")


if __name__ == "__main__":
    main(*sys.argv[1:])
