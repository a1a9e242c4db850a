"""Looks at everything the log keeps and says in plain sentences what it found."""

from collections.abc import Callable, Generator, Iterable, Iterator
from contextlib import closing, contextmanager, suppress
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import NamedTuple

from domain.log.chain import NO_RECORD
from domain.log.job_log import JobLogError
from domain.log.upkeep import Concern, Condition, CopyProof, LogFault, Unproven
from storage.driver import sqlite3
from storage.errors import DamagedError
from storage.log_file import FILE_NAME, LogFile
from storage.opening import must_not_have_lost_its_log, open_as_it_is
from storage.sqlite_job_log import SqliteJobLog
from storage.trails import fold_all
from storage.upkeep.derived import faults_of_registers, faults_of_what_was_kept
from storage.upkeep.histories import faults_of_histories
from storage.upkeep.job_history import REBUILD as _DO_ANEW
from storage.upkeep.jobs_sound import faults_of_index, faults_of_trails, faults_of_words, mend_derived
from storage.upkeep.key_upkeep import faults_of_key
from storage.upkeep.laptops_sound import faults_of_laptops
from storage.upkeep.leftovers import clear, faults_of_leftovers, leftovers
from storage.upkeep.paper_records import faults_of_paper_records
from storage.upkeep.proved_before import ProvedBefore
from storage.upkeep.records import faults_of_numbers, faults_of_papers, faults_of_records, proof_of
from storage.upkeep.sharing import faults_of_access
from storage.upkeep.taking_on import take_on, taken_on
from storage.upkeep.whole_file import (
    GO_BACK,
    faults_of_file,
    faults_of_layout,
    faults_of_tasks,
    faults_of_witness,
    kept_unwitnessed,
)

_Seen = LogFault | Unproven
_Look = Callable[[LogFile], Iterable[_Seen]]
_EVERY_TIME: tuple[_Look, ...] = (
    faults_of_file,
    faults_of_layout,
    faults_of_witness,
    faults_of_what_was_kept,
    faults_of_records,
    faults_of_numbers,
    faults_of_papers,
    faults_of_trails,
    faults_of_registers,
    faults_of_key,
    faults_of_laptops,
    faults_of_tasks,
    taken_on,
    kept_unwitnessed,
)
_DERIVED = {Concern.SEARCH, Concern.LINES}
_SAFE_WITHOUT_LOCK = (3, 51, 3)


class HowFar(NamedTuple):
    """What of a log is looked at."""

    mend: bool = False
    anew: bool = False
    """Jobs that an earlier run proved are looked at again."""
    since: datetime | None = None
    """Only the jobs touched since."""


def tend(home: Path, asked: HowFar, *, at: datetime, told: Callable[[int, int], None]) -> Condition:
    """Everything that is wrong with the log in a folder, and with `mend` no longer what could be made anew."""
    mend = asked.mend
    must_not_have_lost_its_log(home)
    if not (home / FILE_NAME).exists():
        raise JobLogError(f"There is no job log in {home}.")
    mended: list[str] = []
    if mend and (left := leftovers(home, at)):
        mended.append(clear(left))
    unfit = _trouble_in_opening(home)
    try:
        with _looking_into(home) as file:
            seen, passed_over = _looked(file, asked, told)
            if mend and (done := [*_mended(file, seen, at)]):
                mended += done
                seen, passed_over = _looked(file, asked, told)
            proof = _proof(file)
    except DamagedError:
        seen, passed_over, proof = [], 0, _proof(None)
    faults = [each for each in seen if isinstance(each, LogFault)]
    folded = 0 if faults or unfit else _folded(home)
    unproven = tuple(each for each in seen if isinstance(each, Unproven))
    if unfit and not faults:
        faults = [LogFault(about=Concern.FILE, says=unfit, do=GO_BACK)]
    around = (*faults_of_access(home), *faults_of_leftovers(home, at))
    return Condition(
        home=str(home),
        proof=proof,
        keeper=_keeper(),
        faults=(*faults, *around),
        mended=tuple(mended),
        unproven=unproven,
        proved_before=passed_over,
        folded=folded,
        since=asked.since,
    )


def _folded(home: Path) -> int:
    """Fold the trails of papers that an earlier layout issued, now that they were found whole; how many."""
    with _looking_into(home) as file, suppress(JobLogError):
        # Who only reads may look as well.
        return fold_all(file)
    return 0


def _trouble_in_opening(home: Path) -> str:
    """Why the log cannot be used, where it is damaged; opening it also ends what a killed program had begun."""
    try:
        SqliteJobLog.open(home).close()
    except DamagedError as trouble:
        return str(trouble)
    return ""


@contextmanager
def _looking_into(home: Path) -> Generator[LogFile]:
    file = open_as_it_is(home)
    try:
        yield file
    finally:
        file.close()


def _looked(file: LogFile, asked: HowFar, told: Callable[[int, int], None]) -> tuple[list[_Seen], int]:
    """What was found, and how many jobs are as an earlier run proved them."""
    with file.reading():
        seen = [each for look in _EVERY_TIME for each in _found_by(look, file)]
        # What is to be mended is held against everything.
        proved = ProvedBefore.beside(file, trusted=not (asked.anew or asked.mend))
        with closing(proved):
            papers = _found_by(partial(faults_of_paper_records, proved=proved.unchanged), file)
            proved.withhold(number for each in papers for number in _jobs_of(each))
            jobs = _found_by(
                partial(faults_of_histories, path=file.home / FILE_NAME, proved=proved, told=told, since=asked.since),
                file,
            )
    words = [*_found_by(faults_of_words, file), *_found_by(faults_of_index, file)]
    return [*seen, *papers, *jobs, *words], len(proved.unchanged)


def _jobs_of(seen: _Seen) -> tuple[str, ...]:
    return seen.jobs if isinstance(seen, LogFault) else (seen.job,)


def _mended(file: LogFile, seen: list[_Seen], at: datetime) -> Iterator[str]:
    """Make anew what follows from the rest, and take on what cannot be proved any more; never where a fault is in the way."""
    faults = [each for each in seen if isinstance(each, LogFault)]
    about = {fault.about for fault in faults}
    registers = _DO_ANEW in {fault.do for fault in faults if fault.about is Concern.REGISTERS}
    if about & _DERIVED or registers:
        # What register entries are found by is made from their versions, so those must be sound.
        sound = not any(fault.about is Concern.REGISTERS and fault.do != _DO_ANEW for fault in faults)
        unproven = {number for fault in faults for number in fault.jobs}
        yield mend_derived(file, unproven, registers=registers and sound)
    if unwitnessed := [fault for fault in faults if fault.about is Concern.LEDGER]:
        if in_the_way := [fault for fault in faults if fault.about not in {*_DERIVED, Concern.LEDGER}]:
            yield f"Nothing was taken on, for this is in the way: {in_the_way[0].says}"
        else:
            yield take_on(file, unwitnessed, at)


def _found_by(look: _Look, file: LogFile) -> list[_Seen]:
    found: list[_Seen] = []
    try:
        found.extend(look(file))
    except JobLogError:
        says = "Parts of the log cannot be read at all."
        found.append(LogFault(about=Concern.FILE, says=says, do=GO_BACK))
    return found


def _proof(file: LogFile | None) -> CopyProof:
    try:
        if file:
            return proof_of(file)
    except JobLogError:
        pass
    return CopyProof(jobs=0, issued=0, head=NO_RECORD.hex())


def _keeper() -> str:
    guarded = "" if sqlite3.sqlite_version_info >= _SAFE_WITHOUT_LOCK else ", whose writers the lock file keeps apart"
    return f"SQLite {sqlite3.sqlite_version}{guarded}"
