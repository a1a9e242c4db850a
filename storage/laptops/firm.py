"""What the commands ask of files and lines between an office and its laptops, for the log of one folder."""

from datetime import datetime
from pathlib import Path
from typing import IO

from domain.laptops.bundle import Exchanged
from domain.laptops.standing import Station
from domain.log.job_log import JobLog
from storage.laptops.joining import join, write_first
from storage.laptops.meeting import Meeting


class FirmFiles:
    """Fulfils `tui.commands.command.FirmWork`."""

    def __init__(self, home: Path, who: str) -> None:
        self._home, self._who = home, who

    def write_first(self, to: Path) -> None:
        """Write the file that a laptop begins with, right after it was enrolled."""
        write_first(self._home, to)

    def join(self, first: Path, *, at: datetime) -> Station:
        """Begin the log of a laptop with such a file."""
        return join(self._home, first, who=self._who, at=at)

    def in_folder(self, log: JobLog, folder: Path, *, at: datetime, trust: str = "") -> list[Exchanged]:
        """Exchange by a folder that both sides see."""
        return Meeting(self._home, log, trust=trust).in_folder(folder, at=at)

    def by_line(
        self, log: JobLog, incoming: IO[bytes], outgoing: IO[bytes], *, at: datetime, calls: bool, trust: str = ""
    ) -> list[Exchanged]:
        """Exchange over a line, as the one who calls or the one who answers."""
        return Meeting(self._home, log, trust=trust).by_line(incoming, outgoing, at=at, calls=calls)
