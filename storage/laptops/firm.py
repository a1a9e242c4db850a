"""What the commands ask of files and lines between an office and its laptops."""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import IO

from domain.laptops.bundle import Exchanged
from domain.laptops.holding import Station
from domain.log.job_log import JobLog, JobLogError
from storage.laptops.joining import join, write_first, write_first_of
from storage.laptops.meeting import Meeting
from storage.moving.ends import server_at
from storage.stamp import Stamp, begin_witness_anew


class FirmFiles:
    """Fulfils `tui.commands.command.FirmWork`, for a log in a folder, or on a server with the key in a folder."""

    def __init__(self, home: Path, server: str, who: str) -> None:
        self._home, self._server, self._who = home, server, who

    def write_first(self, to: Path, *, at: datetime) -> None:
        """Write the file that a laptop begins with, right after it was enrolled."""
        if self._server:
            write_first_of(server_at(self._server), to, at=at)
        else:
            write_first(self._home, to)

    def join(self, first: Path, *, at: datetime) -> Station:
        """Begin the log of a laptop with such a file."""
        if self._server:
            raise JobLogError(
                "The log of a laptop lies in a folder, so that it is there where no server is; the setting log names a server. "
                "Take that out on the laptop, then join."
            )
        return join(self._home, first, who=self._who, at=at)

    def in_folder(self, log: JobLog, folder: Path, *, at: datetime, trust: str = "") -> list[Exchanged]:
        """Exchange by a folder that both sides see."""
        return self._meeting(log, trust).in_folder(folder, at=at)

    def by_line(
        self, log: JobLog, incoming: IO[bytes], outgoing: IO[bytes], *, at: datetime, calls: bool, trust: str = ""
    ) -> list[Exchanged]:
        """Exchange over a line, as the one who calls or the one who answers."""
        return self._meeting(log, trust).by_line(incoming, outgoing, at=at, calls=calls)

    def _meeting(self, log: JobLog, trust: str) -> Meeting:
        stamp = Stamp.of_server(self._server) if self._server else Stamp.of_folder(self._home)
        renamed: Callable[[], object] = int if self._server else lambda: begin_witness_anew(self._home)
        return Meeting(self._home, log, stamp, renamed=renamed, trust=trust)
