"""Many jobs looked at by as many processes as there are cores, each a share of them in a look of its own at the file."""

import gc
import json
import os
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from functools import partial
from itertools import chain
from pathlib import Path
from typing import Any

from domain.log.upkeep import LogFault, Unproven
from storage.child_process import BeyondLimitsError, ProcessLimits, asked
from storage.log_file import LogFile
from storage.reading_alone import connected_to_read
from storage.upkeep.job_history import JobLook, looks_at
from storage.upkeep.proved_before import marks_of

_FEWEST = 1000
"""Jobs from which on others are started for it: each takes as long to start as a hundred jobs to look at."""
_SHARE = 500
_LIMITS = ProcessLimits(memory=2048, seconds=600, written=64)


def looks_at_once(path: Path, numbers: list[str], alone: Callable[[list[str]], Iterator[JobLook]]) -> Iterator[JobLook]:
    """A look at each of these jobs of a log's file, in their order; those of few jobs are taken `alone`, in this process."""
    cores = len(os.sched_getaffinity(0))
    if len(numbers) < _FEWEST or cores < 2:
        yield from alone(numbers)
        return
    pool = ThreadPoolExecutor(cores)
    try:
        shares = [numbers[first : first + _SHARE] for first in range(0, len(numbers), _SHARE)]
        for share, looked in zip(shares, pool.map(partial(_looked_apart, path), shares), strict=True):
            yield from alone(share) if looked is None else looked
    finally:
        pool.shutdown(cancel_futures=True)


def _looked_apart(path: Path, numbers: list[str]) -> list[JobLook] | None:
    """None where the process came to nothing: then they are looked at here."""
    request = json.dumps([str(path), numbers]).encode()
    try:
        return [_look_from(held) for held in json.loads(asked(f"{__name__}:look", request, _LIMITS))]
    except (BeyondLimitsError, OSError):
        return None


def look(request: bytes) -> bytes:
    """A look at each of these jobs, in JSON; called in a process of its own."""
    path, numbers = json.loads(request)
    # They are many values and few circles, and the process ends with them.
    gc.disable()
    with closing(connected_to_read(Path(path))) as connection:
        file = LogFile(Path(path).parent, connection)
        with file.reading():
            marks = marks_of(file, numbers)
            return json.dumps(
                [_as_held(each, marks.get(each.number, b"")) for each in looks_at(file, numbers)]
            ).encode()


def _as_held(seen: JobLook, mark: bytes) -> list[Any]:
    faults = [each.model_dump(mode="json") for each in seen.found if isinstance(each, LogFault)]
    unproven = [each.model_dump(mode="json") for each in seen.found if not isinstance(each, LogFault)]
    return [seen.number, faults, unproven, seen.is_astray, mark.hex()]


def _look_from(held: list[Any]) -> JobLook:
    number, faults, unproven, is_astray, mark = held
    found = chain(map(LogFault.model_validate, faults), map(Unproven.model_validate, unproven))
    return JobLook(number, tuple(found), is_astray, bytes.fromhex(mark))
