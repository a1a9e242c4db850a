"""Sound jobs stay sound when every reading strays as readings of a careful tester do."""

import random
from collections import Counter
from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from pydantic import BaseModel

from domain.checks import findings_of
from domain.job.box import BoxKind, boxes_of
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Reading
from tests.domain.checks.installations import INSTALLATIONS, job_of

SIGMA = 0.05
"""Of each reading, independently: about what two instruments differ by on a loop (common practice)."""
DRAWS = 4
"""Of each of the sound jobs, some eighty in all; the seed makes them the same every time."""
ONE_IN = 20


def asked(job: Job) -> set[tuple[str, str, str]]:
    holds: list[Finding] = [each for each in findings_of(job) if each.severity is not Severity.NOTE]
    return {(each.check, each.case, each.place.model_dump_json()) for each in holds}


def strayed(owner: BaseModel, chance: random.Random) -> dict[str, Any]:
    return dict(_strayed(owner, chance))


def _strayed(owner: BaseModel, chance: random.Random) -> Iterator[tuple[str, Reading]]:
    for name, box in boxes_of(type(owner)).items():
        held = getattr(owner, name)
        if getattr(owner, f"{name}_by", "") == "enquiry":
            continue
        if box.kind is not BoxKind.READING or held.figure is None or held.figure <= 0:
            continue
        step = Decimal(1).scaleb(int(held.figure.as_tuple().exponent))
        read = (held.figure * Decimal(chance.gauss(1, SIGMA))).quantize(step)
        yield name, Reading.of(f"{max(read, step):f}")


def noisy(job: Job, chance: random.Random) -> Job:
    boards = tuple(
        board.model_copy(
            update=strayed(board, chance)
            | {"circuits": tuple(each.model_copy(update=strayed(each, chance)) for each in board.circuits)}
        )
        for board in job.boards
    )
    sections = {
        name: section.model_copy(update=strayed(section, chance))
        for name, section in (("supply", job.supply), ("earthing", job.earthing), ("main_switch", job.main_switch))
    }
    return job.model_copy(update={"boards": boards} | sections)


def draws() -> Iterator[tuple[str, set[tuple[str, str, str]]]]:
    """What each draw of each sound job is asked that the job itself is not."""
    chance = random.Random(20261130)
    for case in INSTALLATIONS.values():
        job = job_of(case)
        before = asked(job)
        for _ in range(DRAWS):
            yield case["name"], asked(noisy(job, chance)) - before


def test_noise_of_five_per_cent_asks_something_new_in_less_than_one_draw_of_twenty() -> None:
    told = list(draws())
    new = [(name, more) for name, more in told if more]
    assert len(told) >= 80
    assert len(new) * ONE_IN < len(told), Counter((name, check, case) for name, more in new for check, case, _ in more)
