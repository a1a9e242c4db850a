"""Who may use the files of the log: looked at, and opened to a group."""

import grp
import os
import stat
from collections.abc import Iterator
from pathlib import Path

from domain.log.job_log import JobLogError
from domain.log.upkeep import Concern, LogFault
from storage.access import PRIVATE, SHARED, is_shared, make_file, make_folder
from storage.half_typed_files import HALF_TYPED
from storage.issued_papers import KEPT, UNFINISHED
from storage.keys.key_file import KEY_NAME
from storage.log_file import FILE_NAME
from storage.opening import COPIES
from storage.turn import LOCK_NAME
from storage.upkeep.proved_before import PROVED
from storage.witness import WITNESS

PACKS = "packs"
_FOLDERS = (KEPT, UNFINISHED, PACKS, COPIES, HALF_TYPED)
_TOLD_MAX = 3


def faults_of_access(home: Path) -> Iterator[LogFault]:
    """Folders and files that are open to more people than the log is, or closed to some it is open to."""
    shared = is_shared(home)
    modes = SHARED if shared else PRIVATE
    if not shared and stat.S_IMODE(home.stat().st_mode) & 0o077:
        yield LogFault(
            about=Concern.ACCESS,
            says=f"Others on this computer can look into {home}.",
            do=f"Keep it to yourself with `chmod 700 {home}`, or share it with a group: `ohmfolio tend --share GROUP`.",
        )
    open_too_wide = [path for path in _used(home) if path.stat().st_mode & 0o777 & ~modes.folder]
    if open_too_wide:
        says = f"Open to people the log is not open to: {_told(open_too_wide)}."
        yield LogFault(about=Concern.ACCESS, says=says, do=_set_anew(home, shared=shared))
    if shared and (closed := [path for path in _used(home) if not _is_open_to_group(path, home)]):
        says = f"Closed to the group that shares the log: {_told(closed)}."
        yield LogFault(about=Concern.ACCESS, says=says, do=_set_anew(home, shared=True))


def share(home: Path, group: str) -> None:
    """Open the log to a group, and to nobody else; what is made in it later is the group's too."""
    try:
        number = grp.getgrnam(group).gr_gid
    except (KeyError, ValueError):
        raise JobLogError(f"There is no group {group!r} on this computer.") from None
    if not (home / FILE_NAME).exists():
        raise JobLogError(f"There is no job log in {home}.")
    try:
        _open_up(home, number, SHARED.folder)
        for name in _FOLDERS:
            make_folder(home / name)
        if not (home / LOCK_NAME).exists():
            os.close(make_file(home / LOCK_NAME))
        for path in _used(home):
            _open_up(path, number, SHARED.folder if path.is_dir() else SHARED.file)
    except PermissionError as trouble:
        raise JobLogError(
            f"{trouble.filename} cannot be given to the group {group}: it takes its owner, who must be in that group."
        ) from trouble
    except OSError as trouble:
        raise JobLogError(f"{trouble.filename}: {trouble.strerror}.") from trouble


def _open_up(path: Path, group: int, mode: int) -> None:
    if path.stat().st_gid != group:
        os.chown(path, -1, group)
    if stat.S_IMODE(path.stat().st_mode) != mode:
        path.chmod(mode)


def _used(home: Path) -> Iterator[Path]:
    names = (FILE_NAME, f"{FILE_NAME}-wal", f"{FILE_NAME}-shm", LOCK_NAME, WITNESS, KEY_NAME, PROVED, *_FOLDERS)
    yield from (path for path in (home / name for name in names) if path.exists())
    for folder in (KEPT, UNFINISHED):
        if (home / folder).is_dir():
            yield from sorted((home / folder).iterdir())


def _is_open_to_group(path: Path, home: Path) -> bool:
    status = path.stat()
    asked = SHARED.folder if path.is_dir() else SHARED.file
    return status.st_gid == home.stat().st_gid and stat.S_IMODE(status.st_mode) & asked == asked


def _set_anew(home: Path, *, shared: bool) -> str:
    if not shared:
        return f"Keep the log to yourself: `chmod -R go= {home}`."
    try:
        group = grp.getgrgid(home.stat().st_gid).gr_name
    except KeyError:
        group = "GROUP"
    return f"Let the owner of those set it anew: `ohmfolio tend --share {group}`."


def _told(paths: list[Path]) -> str:
    more = f" and {len(paths) - _TOLD_MAX} more" if len(paths) > _TOLD_MAX else ""
    return f"{', '.join(map(str, paths[:_TOLD_MAX]))}{more}"
