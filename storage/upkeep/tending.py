"""Looks at everything the log keeps and says in plain sentences what it found."""

from collections.abc import Callable, Generator, Iterable
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from domain.log.chain import NO_RECORD
from domain.log.job_log import JobLogError
from domain.log.upkeep import Concern, Condition, CopyProof, LogFault
from storage.driver import sqlite3
from storage.errors import DamagedError
from storage.log_file import FILE_NAME, LogFile
from storage.sqlite_job_log import SqliteJobLog
from storage.upkeep.jobs_sound import faults_of_index, faults_of_jobs, mend_search
from storage.upkeep.key_upkeep import faults_of_key
from storage.upkeep.leftovers import clear, faults_of_leftovers, leftovers
from storage.upkeep.records import faults_of_numbers, faults_of_papers, faults_of_records, proof_of
from storage.upkeep.sharing import faults_of_access
from storage.upkeep.whole_file import GO_BACK, faults_of_file, faults_of_layout

_Look = Callable[[LogFile], Iterable[LogFault]]
_IN_ONE_VIEW: tuple[_Look, ...] = (
    faults_of_file,
    faults_of_layout,
    faults_of_records,
    faults_of_numbers,
    faults_of_papers,
    faults_of_jobs,
    faults_of_key,
)
_SAFE_WITHOUT_LOCK = (3, 51, 3)


def tend(home: Path, *, at: datetime, mend: bool) -> Condition:
    """Everything that is wrong with the log in a folder, and with `mend` no longer what could be made anew."""
    if not (home / FILE_NAME).exists():
        raise JobLogError(f"There is no job log in {home}.")
    mended: list[str] = []
    if mend and (left := leftovers(home, at)):
        mended.append(clear(left))
    unfit = _trouble_in_opening(home)
    try:
        with _looking_into(home) as file:
            faults = _looked(file)
            if mend and any(fault.about is Concern.SEARCH for fault in faults):
                mended.append(mend_search(file))
                faults = _looked(file)
            proof = _proof(file)
    except DamagedError:
        faults, proof = [], _proof(None)
    if unfit and not faults:
        faults = [LogFault(about=Concern.FILE, says=unfit, do=GO_BACK)]
    around = (*faults_of_access(home), *faults_of_leftovers(home, at))
    return Condition(home=str(home), proof=proof, keeper=_keeper(), faults=(*faults, *around), mended=tuple(mended))


def _trouble_in_opening(home: Path) -> str:
    """Why the log cannot be used, where it is damaged; opening it also ends what a killed program had begun."""
    try:
        SqliteJobLog.open(home).close()
    except DamagedError as trouble:
        return str(trouble)
    return ""


@contextmanager
def _looking_into(home: Path) -> Generator[LogFile]:
    file = LogFile.open(home, as_it_is=True)
    try:
        yield file
    finally:
        file.close()


def _looked(file: LogFile) -> list[LogFault]:
    with file.reading():
        faults = [fault for look in _IN_ONE_VIEW for fault in _found_by(look, file)]
    return [*faults, *_found_by(faults_of_index, file)]


def _found_by(look: _Look, file: LogFile) -> list[LogFault]:
    found: list[LogFault] = []
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
