"""The first file of a laptop: a copy of the log of the office, made for it alone; and the log that begins with it."""

from __future__ import annotations

from contextlib import closing
from datetime import datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from domain.laptops.holding import Station
from domain.log.job_log import JobLogError, Query
from storage.log_file import FILE_NAME
from storage.moving.folder_place import FolderPlace
from storage.moving.moving import carry
from storage.sqlite_job_log import SqliteJobLog
from storage.stamp import begin_witness_anew
from storage.upkeep.backing_up import back_up
from storage.upkeep.restoring import restore

if TYPE_CHECKING:
    from storage.moving.server_place import ServerPlace


def write_first(home: Path, to: Path) -> None:
    """Write the copy that a laptop enrolled a moment ago begins with."""
    back_up(home, to)


def write_first_of(office: ServerPlace, to: Path, *, at: datetime) -> None:
    """The same, of an office whose log is on a server: what it holds at this moment, as a laptop keeps it."""
    if to.exists():
        raise JobLogError(f"{to} exists already and is not written over. Give another name.")
    if not to.parent.is_dir():
        raise JobLogError(f"There is no folder {to.parent}.")
    with TemporaryDirectory(dir=to.parent, prefix=".first-file-") as folder:
        laptop = FolderPlace(Path(folder))
        with office.as_of_now() as old, laptop.filled("", at) as new:
            carry(old, new, "the first file")
        laptop.ready()
        back_up(Path(folder), to)


def join(home: Path, first: Path, *, who: str, at: datetime) -> Station:
    """Begin the log in a folder as that of the laptop for which a file was made; a log in which nothing was done gives way."""
    if (home / FILE_NAME).exists():
        with closing(SqliteJobLog.open(home)) as log:
            if log.find(Query(limit=1)) or log.numbering().given:
                raise JobLogError(
                    f"There is a job log in {home} already, with jobs in it. A laptop begins its log with that file: name "
                    "another folder with OHMFOLIO_HOME. Nothing has been changed."
                )
    joined: list[Station] = []

    def be_the_laptop(home: Path) -> None:
        with closing(SqliteJobLog.open_plainly(home)) as log:
            assert log.laptops is not None
            joined.append(log.laptops.join(at=at))
        begin_witness_anew(home)

    restore(home, first, at=at, settled=be_the_laptop)
    with closing(SqliteJobLog.open(home)) as log:
        log.replace_lost_seal_key(who=who, at=at)
    return joined[0]
