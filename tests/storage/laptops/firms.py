"""An office and its laptops on real logs, for tests of what they tell each other."""

import shutil
from collections.abc import Iterator
from contextlib import closing
from datetime import datetime, timedelta
from pathlib import Path

from domain.laptops.bundle import TakenIn
from domain.laptops.operation import Act, Operation
from domain.log.job_log import JobLog
from domain.log.laptops import Laptops
from domain.log.stored_log import StoredLog
from storage.keys.key_file import KEY_NAME
from storage.log_file import FILE_NAME
from storage.moving.folder_place import FolderPlace
from storage.moving.moving import carry
from storage.moving.server_place import ServerPlace
from storage.postgres.postgres_job_log import PostgresJobLog
from storage.postgres.postgres_upkeep import PostgresUpkeep
from storage.postgres.server_address import ServerAddress
from storage.sqlite_job_log import SqliteJobLog
from storage.stamp import begin_witness_anew
from storage.upkeep.sqlite_upkeep import SqliteUpkeep
from storage.witness import WITNESS
from tests.builders import AT
from tests.storage.database_server import put_back, saved
from tests.storage.issuing import LATER, WHO


class SmallFirm:
    """An office with a log of its own, and laptops whose logs begin as copies of it."""

    def __init__(self, folder: Path, address: ServerAddress | None = None) -> None:
        """`address` is where the office keeps its log, where that is a server."""
        self.folder = folder
        self.address = address
        self.now = AT
        self.logs: dict[str, StoredLog] = {"A": self._opened("A")}

    def _opened(self, letters: str) -> StoredLog:
        if self.address and letters == "A":
            return PostgresJobLog.open(self.address, self.folder / "A")
        return SqliteJobLog.open(self.folder / letters)

    @property
    def office(self) -> StoredLog:
        return self.logs["A"]

    def buy(self, letters: str, person: str = "") -> StoredLog:
        """A laptop, joined without the file that is proved elsewhere."""
        self.firm(self.office, begun=True).enrol(letters, device=f"{letters.lower()}00", person=person, at=self.now)
        if self.address:
            laptop = FolderPlace(self.folder / letters)
            with ServerPlace(self.address).as_of_now() as old, laptop.filled("", self.now) as new:
                carry(old, new, letters)
            laptop.ready()
        else:
            self.office.close()
            ignored = shutil.ignore_patterns(KEY_NAME, WITNESS)
            shutil.copytree(self.folder / "A", self.folder / letters, ignore=ignored)
            self.logs["A"] = SqliteJobLog.open(self.folder / "A")
        with closing(SqliteJobLog.open_plainly(self.folder / letters)) as log:
            self.firm(log, begun=True).join(at=self.now)
        begin_witness_anew(self.folder / letters)
        self.logs[letters] = SqliteJobLog.open(self.folder / letters)
        self.logs[letters].replace_lost_seal_key(who=WHO, at=self.now)
        return self.logs[letters]

    def firm(self, log: JobLog, *, begun: bool = False) -> Laptops:
        laptops = log.laptops if begun else log.firm
        assert laptops is not None
        return laptops

    def hand(self, sender: JobLog, to: JobLog) -> TakenIn:
        """One bundle, from the one to the other."""
        theirs, ours = self.firm(to).own, self.firm(sender)
        assert theirs is not None
        papers: dict[str, bytes] = {}

        def told() -> Iterator[Operation]:
            for operation in made.operations:
                if operation.act is Act.ISSUE:
                    papers[operation.job] = ours.paper_of(operation)
                yield operation

        made = ours.bundle_for(theirs.device)
        bundle = made._replace(operations=told())
        return self.firm(to).take_in(bundle, lambda number: papers.get(number, b""), at=self.now)

    def meet(self, letters: str) -> tuple[TakenIn, ...]:
        """The laptop, the office, and the laptop again."""
        laptop = self.logs[letters]
        return self.hand(laptop, self.office), self.hand(self.office, laptop), self.hand(laptop, self.office)

    def lend(self, number: str, letters: str) -> None:
        self.firm(self.office).take_out(number, to=letters, at=self.now)
        self.meet(letters)

    def pass_days(self, days: int) -> datetime:
        self.now += timedelta(days=days)
        return self.now

    def save(self, letters: str) -> Path | dict[str, bytes]:
        """A copy of a log, as any program may make one of a folder, or whoever looks after a server."""
        if self.address and letters == "A":
            return saved(self.address)
        self.logs[letters].close()
        kept = self.folder / f"saved-{letters}"
        shutil.copytree(self.folder / letters, kept)
        self.logs[letters] = SqliteJobLog.open(self.folder / letters)
        return kept

    def put_back(self, letters: str, kept: Path | dict[str, bytes]) -> StoredLog:
        """The whole log as it was once."""
        self.logs[letters].close()
        if isinstance(kept, dict):
            assert self.address
            put_back(self.address, kept)
        else:
            shutil.rmtree(self.folder / letters)
            shutil.copytree(kept, self.folder / letters)
            assert (self.folder / letters / FILE_NAME).exists()
        self.logs[letters] = self._opened(letters)
        return self.logs[letters]

    def tended(self, letters: str) -> list[str]:
        """What is wrong with a log, which is closed for it."""
        self.logs[letters].close()
        server = self.address if letters == "A" else None
        upkeep = PostgresUpkeep(server) if server else SqliteUpkeep(self.folder / letters)
        return [fault.says for fault in upkeep.tend(at=LATER).faults]

    def close(self) -> None:
        for log in self.logs.values():
            log.close()
