"""Processes of the program for tests that part from one with all loaded, so that none loads it anew."""

import gc
import multiprocessing
import os
import sys
from collections.abc import Callable
from pathlib import Path

from tests import nursery
from tests.nursery import as_fresh, end_with
from tui.commands.registry import SUMMARIES
from tui.preload import PIECES

_LOADED_ONCE = (
    *("tui.wiring", "tui.commands.registry", "storage.sqlite_job_log", "storage.jobs", "storage.registers"),
    *("storage.packs", "storage.pdf", "storage.verifying", "storage.upkeep.sqlite_upkeep", "domain.gate.assessment"),
    *("domain.sheets", "domain.job.exchange", "domain.figures.asked", "pymupdf", "markdown_pdf", "sqlite_utils"),
    *("tui.run_app", *PIECES),
    *(f"tui.commands.{name.replace('-', '_')}" for name in SUMMARIES),
    *("click.shell_completion", "domain.log.ready_lists", "domain.log.searching", "storage.pades.signing"),
    *("storage.pdf_worker", "storage.paper.examining", "storage.paper.read_back", "typst"),
    *("cryptography.hazmat.primitives.asymmetric.ed25519", "tests.warmed"),
)
"""What most commands and the screens load when they need it; here before any begins."""
PARTING = multiprocessing.get_context("forkserver")
PARTING.set_forkserver_preload([*_LOADED_ONCE, "tests.tui.terminal", "tests.tui.commands.command_line"])
"""Processes part from a server without threads: one that parts from the tests' own may never end."""


def run(
    main: Callable[[], int], typed: list[str], environment: dict[str, str], folder: str, streams: tuple[int, int, int]
) -> None:
    """The program from its first line to its exit code, as a fresh process would find itself; this process ends with it."""
    gc.freeze()  # what all share is looked through by nobody, and stays shared
    nursery.use()
    as_fresh(environment, folder, streams)
    sys.argv = ["ohmfolio", *typed]
    end_with(main)


def opened(path: Path | str, flags: int) -> int:
    """A file by its number."""
    return os.open(path, flags | os.O_CLOEXEC, 0o600)
