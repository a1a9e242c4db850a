"""A line for whoever looks after the computer: openings, refusals, issues and copies, to the system's log or a file."""

from __future__ import annotations

import os
import time
from collections.abc import Generator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Final

from domain.log.job_log import JobLogError
from domain.value import LINE_MAX
from tui.configuration import ConfigurationError
from tui.setting_keys import JOURNAL, SYSLOG
from tui.terminal.safe_text import safe_text

if TYPE_CHECKING:
    from logging import Handler, LogRecord

SOCKET: Final = Path("/dev/log")
"""Where a system listens for lines of its log."""


class Journal:
    """Takes lines, each with the process, who runs it and, in a file, the time in UTC. Nothing that stands in a job is in them."""

    def __init__(self, where: str = "", who: str = "") -> None:
        """To `syslog`, to the file of that path, or nowhere for ""; ConfigurationError where that cannot be."""
        self._handler = _handler(where, who) if where else None

    def note(self, happened: str) -> None:
        """That something was done."""
        self._write("INFO", happened)

    def warn(self, happened: str) -> None:
        """That something was refused, or is not as it should be."""
        self._write("WARNING", happened)

    @contextmanager
    def opening(self, place: object) -> Generator[None]:
        """That a log is opened, or why it was not."""
        try:
            yield
        except JobLogError as error:
            self.warn(f"not opened: {error}")
            raise
        self.note(f"opened {place}")

    def _write(self, level: str, happened: str) -> None:
        if self._handler is None:
            return
        import logging

        said = safe_text(happened)[:LINE_MAX]
        self._handler.handle(
            logging.makeLogRecord({"msg": said, "levelno": getattr(logging, level), "levelname": level})
        )


def _handler(where: str, who: str) -> Handler:
    # Loaded where somebody asked for it; a start waits for nothing.
    from logging import Formatter
    from logging.handlers import SysLogHandler, WatchedFileHandler

    named = f"ohmfolio[{os.getpid()}]: {safe_text(who)}: ".replace("%", "%%")
    try:
        if where == SYSLOG:
            if not SOCKET.is_socket():
                raise ConfigurationError(
                    f"{JOURNAL.variable}: no system's log listens at {SOCKET}; name a file instead"
                )
            handler: Handler = SysLogHandler(str(SOCKET), SysLogHandler.LOG_AUTH)
            handler.setFormatter(Formatter(f"{named}%(message)s"))
        else:
            file = Path(where).expanduser()
            file.touch(0o640)
            handler = WatchedFileHandler(file, encoding="utf-8", errors="backslashreplace")
            dated = Formatter(f"%(asctime)sZ {named}%(message)s", datefmt="%Y-%m-%dT%H:%M:%S")
            dated.converter = time.gmtime
            handler.setFormatter(dated)
    except OSError as error:
        raise ConfigurationError(f"{JOURNAL.variable}: {where} cannot be used: {error.strerror or error}") from None
    handler.handleError = _passed_over
    return handler


def _passed_over(record: LogRecord) -> None:
    """A line that cannot be written keeps nobody from work, nor does it spoil a screen."""
    del record
