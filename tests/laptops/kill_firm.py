"""The firm whose programs are killed: two laptops in folders, and an office in a folder or on a server that may be killed too."""

import os
import signal
import time
from collections.abc import Callable, Iterator
from contextlib import closing, suppress
from pathlib import Path
from typing import TypeVar

import psycopg

from domain.log.job_log import JobLog, JobLogError, Query
from domain.log.stored_log import StoredLog
from storage.laptops.firm import FirmFiles
from storage.postgres.postgres_job_log import PostgresJobLog
from storage.postgres.postgres_upkeep import PostgresUpkeep
from storage.postgres.server_address import ServerAddress
from storage.sqlite_job_log import SqliteJobLog
from storage.upkeep.sqlite_upkeep import SqliteUpkeep
from tests.builders import AT
from tests.storage.database_server import DatabaseServer
from tests.storage.issuing import LATER, WHO
from tests.storage.laptops.firms import SmallFirm

Answer = TypeVar("Answer")
OFFICE = "A"
LAPTOPS = ("HE", "MR")
STATIONS = (OFFICE, *LAPTOPS)
_LINES = "SELECT pid FROM pg_stat_activity WHERE application_name = 'ohmfolio' ORDER BY random()"
_PAUSE = 0.05
_MEETINGS = 12


class KillFirm:
    """Where its logs are, and how each is opened, met with and looked after."""

    def __init__(self, folder: Path, server: DatabaseServer | None = None) -> None:
        """Begun here, each laptop with a log of its own."""
        self.folder, self.server = folder, server
        self.address: ServerAddress | None = server.address("postgres", "killed") if server else None
        self.shared = folder / "shared"
        self.shared.mkdir(parents=True)
        firm = SmallFirm(folder, self.address)
        firm.office.begin_seal_key(who=WHO, at=AT)
        for letters in LAPTOPS:
            firm.buy(letters)
        firm.close()

    def open(self, letters: str) -> StoredLog:
        """The log of a station, as its program opens it."""
        if self.address and letters == OFFICE:
            return PostgresJobLog.open(self.address, self.folder / letters)
        return SqliteJobLog.open(self.folder / letters)

    def meet(self, letters: str, log: JobLog, at=LATER) -> int:
        """By the folder; how many operations were new here."""
        server = str(self.address) if self.address and letters == OFFICE else ""
        met = FirmFiles(self.folder / letters, server, WHO).in_folder(log, self.shared, at=at)
        return sum(each.new for each in met)

    def meet_until_nothing_is_new(self) -> None:
        """Everybody, in turn."""
        for _ in range(_MEETINGS):
            new = 0
            for letters in (*LAPTOPS, OFFICE, *LAPTOPS):
                with closing(self.open(letters)) as log:
                    new += self.meet(letters, log)
            if not new:
                return

    def tended(self, letters: str) -> list[str]:
        """What is wrong with a log."""
        on_server = self.address if letters == OFFICE else None
        upkeep = PostgresUpkeep(on_server) if on_server else SqliteUpkeep(self.folder / letters)
        return [fault.says for fault in upkeep.tend(at=LATER).faults]

    def kill_a_line(self) -> None:
        """Kill the process of the server that answers a program; the server then ends all lines, and recovers."""
        assert self.address
        with psycopg.connect(self.address.url, autocommit=True) as connection:
            found = connection.execute(_LINES).fetchone()
        if found:
            with suppress(ProcessLookupError):
                os.kill(found[0], signal.SIGKILL)
            self._wait_for_the_server()

    def kill_the_server(self) -> None:
        """With all its processes; then start it again."""
        assert self.server
        self.server.kill()
        self.server.start()

    def _wait_for_the_server(self) -> None:
        assert self.address
        while True:
            with suppress(psycopg.OperationalError), psycopg.connect(self.address.url):
                return
            time.sleep(_PAUSE)


def every(log: JobLog) -> Iterator[str]:
    """The numbers of all jobs."""
    before = ""
    while found := log.find(Query(limit=200, before=before)):
        yield from (each.number for each in found)
        before = found[-1].number


def until_kept(ask: Callable[[], Answer], told: Callable[[JobLogError], object]) -> Answer:
    """Ask until it is answered, always under one name; `told` hears each time that it was not."""
    while True:
        try:
            return ask()
        except JobLogError as trouble:
            told(trouble)
            time.sleep(_PAUSE)
