"""Where the screens and commands are wired to the storage; the only place where the two meet."""

from __future__ import annotations

import getpass
import sys
from collections.abc import Callable
from contextlib import nullcontext
from dataclasses import replace
from datetime import UTC, datetime
from functools import partial
from io import TextIOWrapper
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from domain.civil_time import in_civil_time
from domain.log.job_log import JobLogError
from domain.value import LINE_MAX, cleaned
from tui.commands.command import Environment
from tui.commands.running import run
from tui.configuration import HOME, configuration
from tui.first_paint import FirstPaint
from tui.services import Services

if TYPE_CHECKING:
    from domain.coach.summary import Summary
    from domain.gate.assessment import Pack
    from domain.gate.issued_paper import IssuedPaper
    from domain.gate.proof import Proof
    from domain.job.job import Job
    from domain.job.picture import Image
    from domain.log.job_log import BoundPaper, JobLog
    from domain.log.put_right.letter import Letter
    from domain.log.upkeep import FolderUpkeep

Record = TypeVar("Record", "Pack", "Job", "Summary", "Letter")


def run_command(typed: list[str], painted: FirstPaint | None = None) -> int:
    """Do what was typed after `ohmfolio`, with what is on the screen already; the exit code."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")
    wiring = Environment(
        configuration=configuration,
        home=partial(_home, painted),
        has_log=_has_log,
        desk=_desk,
        upkeep=_upkeep,
        screens=partial(_screens, painted),
        left=_left,
        proof_of=_proof_of,
    )
    return run(typed, wiring)


def _home(painted: FirstPaint | None) -> Path:
    with painted or nullcontext():
        return configuration().home


def _has_log(home: Path) -> bool:
    from storage.log_file import FILE_NAME

    return (home / FILE_NAME).exists()


def _desk(home: Path) -> Services:
    from storage.files import write_new
    from storage.sqlite_job_log import SqliteJobLog

    return Services(
        log=SqliteJobLog.open(home),
        who=_who(),
        now=lambda: in_civil_time(datetime.now(UTC)),
        bind=_bind,
        bind_draft=_bind_draft,
        bind_summary=_bind_summary,
        bind_letter=_bind_letter,
        proof_of=_proof_of,
        hand_out=_hand_out,
        write_new=write_new,
        made_small=_made_small,
        packs=home / "packs",
        pictures=configuration().pictures,
    )


def _upkeep(home: Path) -> FolderUpkeep:
    from storage.upkeep.sqlite_upkeep import SqliteUpkeep

    return SqliteUpkeep(home)


def _who() -> str:
    try:
        return cleaned(getpass.getuser())[:LINE_MAX] or "unnamed"
    except (OSError, KeyError):
        return "unnamed"


def _bind(pack: Pack) -> BoundPaper:
    from storage.pdf import bind

    return _said_plainly(bind, pack)


def _bind_draft(job: Job) -> BoundPaper:
    from storage.pdf import bind_draft

    return _said_plainly(bind_draft, job)


def _bind_summary(summary: Summary) -> BoundPaper:
    from storage.pdf import bind_summary

    return _said_plainly(bind_summary, summary)


def _bind_letter(letter: Letter) -> BoundPaper:
    from storage.pdf import bind_letter

    return _said_plainly(bind_letter, letter)


def _said_plainly(bind: Callable[[Record], BoundPaper], record: Record) -> BoundPaper:
    from storage.paper.paper_error import PaperError

    try:
        return bind(record)
    except PaperError as error:
        raise JobLogError(str(error)) from error


def _hand_out(issued: IssuedPaper, pdf: bytes, folder: Path) -> tuple[Path, ...]:
    from storage.packs import hand_out

    return hand_out(issued, pdf, folder)


def _made_small(content: bytes) -> Image:
    from storage.pictures import made_small

    return made_small(content)


def _proof_of(pdf: bytes, log: JobLog | None) -> Proof:
    from storage.verifying import proof_of

    return proof_of(pdf, log)


def _screens(painted: FirstPaint | None, home: Path, *, practises: bool = False) -> int:
    from storage.pdf_worker import Bindery
    from tui.run_app import open_screens

    bindery = Bindery()
    configured = configuration()
    if configured.is_stock and painted:
        painted.take_back()
        painted = None
    with painted or nullcontext():
        desk = replace(
            _desk(home),
            bind=partial(_said_plainly, bindery.bind),
            bind_draft=partial(_said_plainly, bindery.bind_draft),
            bind_summary=partial(_said_plainly, bindery.bind_summary),
            bind_letter=partial(_said_plainly, bindery.bind_letter),
            ready_paper=bindery.open,
        )
    try:
        return open_screens(desk, configured, practises=practises, found=painted.found if painted else None)
    finally:
        bindery.close()


def _left(home: Path) -> None:
    from storage.child_process import start
    from storage.upkeep.backing_up import is_due

    if configuration().copies and is_due(home):
        # In a process of its own, so that nobody waits for it.
        start("tui.wiring:back_up", settings={HOME.variable: str(home)}, detached=True)


def back_up() -> None:
    """Make the copy of the day, in a process that nobody listens to."""
    sys.exit(run_command(["backup"]))
