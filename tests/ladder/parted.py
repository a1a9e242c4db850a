"""The program's own processes, parted from one that has all loaded: thousands of strangers' files in the time of hundreds.

What a process may take it is still bound to, and it still ends with its one file; only the interpreter is not begun anew.
That each begins isolated, in the root folder and with a clean environment, is tested in `tests/storage/test_child_process.py`.
"""

import os
import subprocess
import sys
import time
import traceback
from collections.abc import Mapping
from pathlib import Path
from typing import IO, Any

from storage import child_process
from tests.tui.commands import command_line
from tests.tui.commands.command_line import Said

_A_WHILE = 0.002


class PartedProcess:
    """As much of `subprocess.Popen` as who asks a process needs."""

    def __init__(self, pid: int) -> None:
        self._pid, self._code = pid, None

    def poll(self) -> int | None:
        """Its exit code; None while it runs."""
        if self._code is None:
            ended, status = os.waitpid(self._pid, os.WNOHANG)
            self._code = os.waitstatus_to_exitcode(status) if ended else None
        return self._code

    def wait(self, timeout: float | None = None) -> int:
        """Its exit code, once it has ended."""
        until = None if timeout is None else time.monotonic() + timeout
        while (code := self.poll()) is None:
            if until is not None and time.monotonic() > until:
                raise subprocess.TimeoutExpired(str(self._pid), timeout or 0)
            time.sleep(_A_WHILE)
        return code

    def kill(self) -> None:
        """End it."""
        os.kill(self._pid, 9)


def part_from_here() -> None:
    """Have processes that this one asks part from it from now on."""
    child_process.start = _start


def ohmfolio_parted(*typed: str | Path, home: Path) -> Said:
    """The command as typed, whose processes part from it."""
    return command_line.ohmfolio(*typed, home=home, run_by=_run)


def _run(*given: Any) -> None:
    part_from_here()
    command_line.run_here(*given)


def _start(
    begin: str,
    *arguments: str,
    limits: child_process.ProcessLimits = child_process.UNLIMITED,
    settings: Mapping[str, str] | None = None,
    stdin: int | IO[bytes] = subprocess.DEVNULL,
    stdout: int | IO[bytes] = subprocess.DEVNULL,
    **_: object,
) -> PartedProcess:
    sys.stdout.flush()
    if pid := os.fork():
        return PartedProcess(pid)
    try:
        for at, stream in enumerate((stdin, stdout, subprocess.DEVNULL)):
            nothing = stream == subprocess.DEVNULL
            file = os.open(os.devnull, os.O_RDWR) if nothing else stream if isinstance(stream, int) else stream.fileno()
            os.dup2(file, at)
        os.chdir("/")
        os.environ.update(settings or {})
        sys.stdin = open(0, encoding="utf-8", closefd=False)  # noqa: SIM115
        child_process.enter(begin, *limits, *arguments)
    except BaseException:  # noqa: BLE001  # whatever it is, this process ends here
        traceback.print_exc()
        os._exit(1)
    os._exit(0)
