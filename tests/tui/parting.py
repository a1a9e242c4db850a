"""Processes of the program for tests that part from one with all loaded, so that none loads it anew."""

import gc
import multiprocessing
import os
import sys
import tempfile
import traceback
from collections.abc import Callable
from pathlib import Path

from tui.preload import PIECES

_LOADED_ONCE = (
    *("tui.wiring", "tui.commands.registry", "storage.sqlite_job_log", "storage.jobs", "storage.registers"),
    *("storage.packs", "storage.pdf", "storage.verifying", "storage.upkeep.sqlite_upkeep", "domain.gate.assessment"),
    *("domain.sheets", "domain.job.exchange", "domain.figures.asked", "pymupdf", "markdown_pdf", "sqlite_utils"),
    *("tui.run_app", *PIECES),
)
"""What most commands and the screens load when they need it; here before any begins."""
PARTING = multiprocessing.get_context("forkserver")
PARTING.set_forkserver_preload([*_LOADED_ONCE, "tests.tui.terminal", "tests.tui.commands.command_line"])
"""Processes part from a server without threads: one that parts from the tests' own may never end."""
_NAMES = (("stdin", "r"), ("stdout", "w"), ("stderr", "w"))


def run(
    main: Callable[[], int], typed: list[str], environment: dict[str, str], folder: str, streams: tuple[int, int, int]
) -> None:
    """The program from its first line to its exit code, as a fresh process would find itself; this process ends with it."""
    gc.freeze()  # what all share is looked through by nobody, and stays shared
    os.chdir(folder)
    for at, stream in enumerate(streams):
        os.dup2(stream, at)
    for stream in {*streams}:
        os.close(stream)
    for at, (name, mode) in enumerate(_NAMES):
        line = 1 if os.isatty(at) else -1
        stream = open(at, mode, buffering=line, encoding="utf-8", closefd=False)  # noqa: SIM115
        setattr(sys, name, stream)
        setattr(sys, f"__{name}__", stream)
    os.environ.clear()
    os.environ.update(environment)
    sys.argv = ["ohmfolio", *typed]
    tempfile.tempdir = None  # found anew: a fresh process asks its environment
    try:
        code = main()
    except SystemExit as ended:
        code = ended.code if isinstance(ended.code, int) else int(ended.code is not None)
    except BaseException:  # noqa: BLE001  # the interpreter itself would print it, and end with 1
        traceback.print_exc()
        code = 1
    sys.stdout.flush()
    sys.stderr.flush()
    os._exit(code)


def opened(path: Path | str, flags: int) -> int:
    """A file by its number."""
    return os.open(path, flags | os.O_CLOEXEC, 0o600)
