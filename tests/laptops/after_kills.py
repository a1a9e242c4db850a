"""What must be so once programs of a firm were killed and everybody has met: nothing acknowledged lost, nothing twice, all whole."""

from collections import Counter
from collections.abc import Iterator
from contextlib import closing
from typing import NamedTuple

from domain.job.job import Job
from domain.log.job_log import JobLog
from tests.laptops.kill_firm import LAPTOPS, OFFICE, STATIONS, KillFirm, every

Kept = list[tuple[str, ...]]


class _Held(NamedTuple):
    """What a log holds of each job."""

    jobs: dict[str, Job | None]
    trails: dict[str, list[str]]


def broken(firm: KillFirm, kept: Kept) -> list[str]:
    """What was acknowledged and is not at the office, numbers and papers given twice, logs that differ or are not whole."""
    begun = Counter(number for act, number, *_ in kept if act == "begin")
    wrong = [f"number twice: {number}" for number, times in begun.items() if times > 1]
    with closing(firm.open(OFFICE)) as office:
        held = _held(office)
        wrong += [said for each in kept for said in _missing(office, held, *each)]
    wrong += [f"issued twice: {number}" for number, what in held.trails.items() if what.count("Issued") > 1]
    for letters in LAPTOPS:
        with closing(firm.open(letters)) as laptop:
            wrong += [f"{letters} {said}" for said in _unlike(held, _held(laptop))]
    return wrong + [f"{letters}: {fault}" for letters in STATIONS for fault in firm.tended(letters)]


def _held(log: JobLog) -> _Held:
    numbers = list(every(log))
    trails = {number: [line.what for line in log.trail(number)] for number in numbers}
    return _Held({number: log.load(number) for number in numbers}, trails)


def _missing(office: JobLog, held: _Held, act: str, number: str, told: str = "") -> Iterator[str]:
    if number not in held.trails:
        yield f"job lost: {number}"
    elif act == "edit":
        # What it stood in the place of is named behind it by the next.
        times = sum(f": {told}" in what for what in held.trails[number])
        if times != 1:
            yield f"edit {'twice' if times else 'lost'}: {number} {told}"
    elif act == "issue":
        paper = office.issued(number)
        if paper is None or paper.sha256 != told:
            yield f"paper lost, or another: {number}"


def _unlike(held: _Held, there: _Held) -> Iterator[str]:
    for number in sorted({*held.jobs, *there.jobs}):
        if number not in held.jobs or held.jobs[number] != there.jobs.get(number):
            yield f"has {number} otherwise"
        elif held.trails[number] != there.trails[number]:
            yield f"tells {number} otherwise"
