"""A command in a process of its own that is killed at one of its dealings with the log."""

import os
import signal
import sys
from pathlib import Path
from types import FrameType
from typing import Any

from tests.storage.children import ended, forked
from tui.__main__ import main


def dealings_of(home: Path) -> int:
    """How many dealings with the log the command had that came to its end there."""
    return int(home.with_suffix(".dealings").read_text())


def ended_at(dealing: int, typed: list[str], home: Path) -> int:
    """Run a command and kill it by signal 9 before its dealing of that number, every second one just done; its exit code."""

    def work() -> None:
        os.environ["OHMFOLIO_HOME"] = str(home)
        sys.argv = ["ohmfolio", *typed]
        quiet = os.open(os.devnull, os.O_WRONLY)
        os.dup2(quiet, 1)
        os.dup2(quiet, 2)
        met = 0

        def watch(_: FrameType, event: str, called: Any) -> None:
            nonlocal met
            if event in {"c_call", "c_return"} and getattr(called, "__name__", "") in {"execute", "pwrite", "flock"}:
                met += 1
                if met > dealing:
                    os.kill(os.getpid(), signal.SIGKILL)

        sys.setprofile(watch)
        code = main()
        sys.setprofile(None)
        home.with_suffix(".dealings").write_text(str(met))
        os._exit(code)

    return ended(forked(work))
