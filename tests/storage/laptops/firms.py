"""An office and its laptops on real logs, for tests of what they tell each other."""

import shutil
from collections.abc import Iterator
from contextlib import closing
from datetime import datetime, timedelta
from pathlib import Path

from domain.laptops.bundle import TakenIn
from domain.log.job_log import JobLog
from domain.log.laptops import Laptops
from storage.keys.key_file import KEY_NAME
from storage.log_file import FILE_NAME
from storage.sqlite_job_log import SqliteJobLog
from storage.witness import WITNESS
from tests.builders import AT
from tests.storage.issuing import WHO


class SmallFirm:
    """An office with a log of its own, and laptops whose logs begin as copies of it."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.now = AT
        self.logs: dict[str, SqliteJobLog] = {"A": SqliteJobLog.open(folder / "A")}

    @property
    def office(self) -> SqliteJobLog:
        return self.logs["A"]

    def buy(self, letters: str, person: str = "") -> SqliteJobLog:
        """A laptop, joined without the file that is proved elsewhere."""
        self.firm(self.office, begun=True).enrol(letters, device=f"{letters.lower()}00", person=person, at=self.now)
        self.office.close()
        shutil.copytree(self.folder / "A", self.folder / letters, ignore=shutil.ignore_patterns(KEY_NAME, WITNESS))
        self.logs["A"] = SqliteJobLog.open(self.folder / "A")
        with closing(SqliteJobLog.open_plainly(self.folder / letters)) as log:
            self.firm(log, begun=True).join(at=self.now)
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
        papers: list[str] = []

        def told() -> Iterator[object]:
            for operation in made.operations:
                papers.append(operation.job)
                yield operation

        made = ours.bundle_for(theirs.device)
        return self.firm(to).take_in(made._replace(operations=told()), sender.paper, at=self.now)

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

    def save(self, letters: str) -> Path:
        """A copy of a log's file, as any program may make one."""
        self.logs[letters].close()
        saved = self.folder / f"saved-{letters}"
        shutil.copytree(self.folder / letters, saved)
        self.logs[letters] = SqliteJobLog.open(self.folder / letters)
        return saved

    def put_back(self, letters: str, saved: Path) -> SqliteJobLog:
        """The whole folder as it was once."""
        self.logs[letters].close()
        shutil.rmtree(self.folder / letters)
        shutil.copytree(saved, self.folder / letters)
        assert (self.folder / letters / FILE_NAME).exists()
        self.logs[letters] = SqliteJobLog.open(self.folder / letters)
        return self.logs[letters]

    def close(self) -> None:
        for log in self.logs.values():
            log.close()
