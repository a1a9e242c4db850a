"""Trouble with disks and files, as plain sentences."""

import errno
from collections.abc import Mapping
from pathlib import Path

from domain.log.job_log import JobLogError, NotWritableError
from storage.driver import sqlite3

INSTALL = "In the folder of this program's source: pip install '.[{extra}]', or pipx install --force '.[{extra}]'."
"""How what is left out of a plain installation comes in; the package for Debian and the container have all of it."""
_DISK_FULL = "The disk is full: make room. This was not saved; nothing saved before is lost."
_NOT_WRITTEN = "The disk did not take it. This was not saved; nothing saved before is lost."
_READ_ONLY = (
    "The folder {home} is read-only, so nothing is saved; nothing saved before is lost. "
    "Have it made writable, or restore a copy elsewhere: OHMFOLIO_HOME names the folder."
)
_NO_ACCESS = "The job log in {home} cannot be opened for writing. Look at who may read and write that folder."
_DAMAGED = (
    "The job log in {home} is damaged. Nothing has been changed; ohmfolio tend says what is wrong, "
    "ohmfolio restore goes back to a copy."
)
_BUSY = "Another program holds the job log in {home}. Close it and try again."
_NO_SEARCH = "This Python's SQLite has no full-text search, which the job log needs. Use another Python."
_UNREADABLE = "That holds bytes that are no text. This was not saved; type it anew."
_OTHER = "The job log in {home} could not do it. This was not saved; nothing saved before is lost."

_BY_RESULT = {
    "SQLITE_FULL": _DISK_FULL,
    "SQLITE_READONLY": _READ_ONLY,
    "SQLITE_IOERR": _NOT_WRITTEN,
    "SQLITE_CANTOPEN": _NO_ACCESS,
    "SQLITE_PERM": _NO_ACCESS,
    "SQLITE_AUTH": _NO_ACCESS,
    "SQLITE_CORRUPT": _DAMAGED,
    "SQLITE_NOTADB": _DAMAGED,
    "SQLITE_BUSY": _BUSY,
    "SQLITE_LOCKED": _BUSY,
}
_BY_NUMBER = {
    errno.ENOSPC: _DISK_FULL,
    errno.EDQUOT: _DISK_FULL,
    errno.EFBIG: _NOT_WRITTEN,
    errno.EIO: _NOT_WRITTEN,
    errno.EROFS: _READ_ONLY,
    errno.EACCES: _NO_ACCESS,
    errno.EPERM: _NO_ACCESS,
    errno.ENOENT: _NO_ACCESS,
    errno.EEXIST: _NO_ACCESS,
    errno.ELOOP: _NO_ACCESS,
    errno.ENAMETOOLONG: _NO_ACCESS,
    errno.ENOTDIR: _NO_ACCESS,
    errno.EISDIR: _NO_ACCESS,
}


class DamagedError(JobLogError):
    """The log, or something in it, is not as this program wrote it."""


def as_job_log_error(trouble: Exception, home: Path) -> JobLogError:
    """What a driver or the system raised, as the person should read it."""
    sentence = _sentence_for(trouble)
    return _KINDS.get(sentence, JobLogError)(sentence.format(home=home))


def damaged(what: str) -> JobLogError:
    """Something in the log is not as it was written."""
    return DamagedError(f"{what} is damaged in the job log. Nothing has been changed; go back to a copy of the log.")


def not_issued_here(number: str) -> JobLogError:
    """A record stands among the issued ones that this program did not put there, or not so."""
    return DamagedError(
        f"{number} stands in the log as issued, but not as this program issued it: another program put it there or altered "
        "it. Nothing has been changed; ohmfolio tend says more."
    )


_KINDS: Mapping[str, type[JobLogError]] = {
    _DAMAGED: DamagedError,
    **dict.fromkeys((_DISK_FULL, _NOT_WRITTEN, _READ_ONLY, _NO_ACCESS), NotWritableError),
}


def _sentence_for(trouble: Exception) -> str:
    if isinstance(trouble, OSError):
        return _BY_NUMBER.get(trouble.errno or 0, _OTHER)
    if isinstance(trouble, sqlite3.Error):
        if "no such module" in str(trouble):
            return _NO_SEARCH
        # Extended results add to the primary one: SQLITE_IOERR_WRITE.
        result = "_".join(getattr(trouble, "sqlite_errorname", "").split("_")[:2])
        return _BY_RESULT.get(result, _OTHER)
    return _UNREADABLE if isinstance(trouble, UnicodeError) else _OTHER
