"""Looks at everything the log keeps and says in plain sentences what it found."""

from collections.abc import Callable, Generator, Iterable, Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from domain.log.chain import NO_RECORD
from domain.log.job_log import JobLogError
from domain.log.upkeep import Concern, Condition, CopyProof, LogFault, Unproven
from storage.driver import sqlite3
from storage.errors import DamagedError
from storage.log_file import FILE_NAME, LogFile
from storage.opening import open_as_it_is
from storage.sqlite_job_log import SqliteJobLog
from storage.upkeep.derived import faults_of_devices, faults_of_hands, faults_of_registers
from storage.upkeep.job_history import REBUILD as _DO_ANEW
from storage.upkeep.job_history import faults_of_histories
from storage.upkeep.jobs_sound import faults_of_index, faults_of_trails, mend_derived
from storage.upkeep.key_upkeep import faults_of_key
from storage.upkeep.ledger_sound import faults_of_ledger
from storage.upkeep.leftovers import clear, faults_of_leftovers, leftovers
from storage.upkeep.paper_records import faults_of_paper_records
from storage.upkeep.records import faults_of_numbers, faults_of_papers, faults_of_records, proof_of
from storage.upkeep.sharing import faults_of_access
from storage.upkeep.taking_on import take_on, taken_on
from storage.upkeep.whole_file import GO_BACK, faults_of_file, faults_of_layout, faults_of_witness

_Seen = LogFault | Unproven
_Look = Callable[[LogFile], Iterable[_Seen]]
_IN_ONE_VIEW: tuple[_Look, ...] = (
    faults_of_file,
    faults_of_layout,
    faults_of_witness,
    faults_of_ledger,
    faults_of_records,
    faults_of_numbers,
    faults_of_devices,
    faults_of_papers,
    faults_of_paper_records,
    faults_of_trails,
    faults_of_histories,
    faults_of_hands,
    faults_of_registers,
    faults_of_key,
    taken_on,
)
_DERIVED = {Concern.SEARCH, Concern.LINES}
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
            seen = _looked(file)
            if mend and (done := [*_mended(file, seen, at)]):
                mended += done
                seen = _looked(file)
            proof = _proof(file)
    except DamagedError:
        seen, proof = [], _proof(None)
    faults = [each for each in seen if isinstance(each, LogFault)]
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
    )


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


def _looked(file: LogFile) -> list[_Seen]:
    with file.reading():
        seen = [each for look in _IN_ONE_VIEW for each in _found_by(look, file)]
    return [*seen, *_found_by(faults_of_index, file)]


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
