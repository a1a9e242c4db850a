"""All jobs of a log looked at, but for those that an earlier look proved."""

from collections.abc import Callable, Iterator
from datetime import datetime
from functools import partial
from pathlib import Path

from domain.log.upkeep import Concern, LogFault, Unproven
from storage.duties import are_by_rules_of_today
from storage.log_file import LogFile
from storage.upkeep.histories_at_once import looks_at_once
from storage.upkeep.job_history import REBUILD, looks_at, numbers_since
from storage.upkeep.job_history import told as named
from storage.upkeep.proved_before import ProvedBefore


def faults_of_histories(
    file: LogFile,
    path: Path,
    proved: ProvedBefore,
    told: Callable[[int, int], None],
    *,
    since: datetime | None = None,
) -> Iterator[LogFault | Unproven]:
    """Everything that is wrong with jobs, their trails and their lines, but of those that were proved and are unchanged.

    `path` is the file that the log is in. `told` hears how many jobs of how many are done; `since` passes over those not
    touched after it.
    """
    numbers = [each for each in numbers_since(file, since) if each not in proved.unchanged]
    if not are_by_rules_of_today(file):
        yield Unproven(
            says="the days on which something is due were counted by other rules than this program has; they are counted "
            "anew when they are asked for."
        )
    astray: list[str] = []
    for done, look in enumerate(looks_at_once(path, numbers, partial(looks_at, file)), 1):
        yield from look.found
        if look.is_astray:
            astray.append(look.number)
        elif not look.found:
            proved.proved(look.number, look.mark)
        told(done, len(numbers))
    if astray:
        says = f"{named(astray)} cannot be found by the words they hold."
        yield LogFault(about=Concern.SEARCH, says=says, do=REBUILD)
