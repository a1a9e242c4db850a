"""Where the screens and commands are wired to the storage; the only place where the two meet."""

from __future__ import annotations

import os
import pwd
import sys
from collections.abc import Callable, Iterable, Mapping
from contextlib import nullcontext
from dataclasses import replace
from datetime import UTC, datetime
from functools import cache, partial
from io import TextIOWrapper
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from domain.civil_time import in_civil_time
from domain.log.job_log import JobLogError
from domain.value import LINE_MAX, cleaned
from tui.commands.command import Environment, aside
from tui.commands.running import run
from tui.configuration import AUTHORITIES, HOME, JOURNAL, TIMESTAMP, ConfigurationError, configuration
from tui.first_paint import FirstPaint
from tui.journal import Journal
from tui.log_place import LogPlace
from tui.services import Services

if TYPE_CHECKING:
    from domain.coach.summary import Summary
    from domain.coach.visit_sheet import Visit
    from domain.duties.mail_draft import MailDraft
    from domain.gate.assessment import Pack
    from domain.gate.issued_paper import IssuedPaper
    from domain.gate.proof import Proof
    from domain.job.job import Job
    from domain.job.picture import Image
    from domain.log.due_list import DueLine
    from domain.log.job_log import BoundPaper, JobLog
    from domain.log.put_right.letter import Letter
    from domain.log.upkeep import FolderUpkeep, MovedLog, Upkeep
    from domain.sheets.board_chart import BoardPapers

Record = TypeVar("Record", "Pack", "Job", "Summary", "Visit", "Letter", "BoardPapers")


def run_command(typed: list[str], painted: FirstPaint | None = None) -> int:
    """Do what was typed after `ohmfolio`, with what is on the screen already; the exit code."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")
    wiring = Environment(
        configuration=configuration,
        place=partial(_place, painted),
        has_log=_has_log,
        desk=partial(_desk, waiting=aside),
        upkeep=_upkeep,
        folder_upkeep=_folder_upkeep,
        move=_move,
        screens=partial(_screens, painted),
        left=_left,
        proof_of=_proof_of,
        journal=_journal,
    )
    return run(typed, wiring)


def _place(painted: FirstPaint | None) -> LogPlace:
    with painted or nullcontext():
        return configuration().place


def _has_log(place: LogPlace) -> bool:
    if place.server:
        from storage.postgres.server_address import address_at

        address = address_at(place.server)
        from storage.postgres.postgres_job_log import has_log_at

        return has_log_at(address)
    from storage.log_file import FILE_NAME

    return (place.home / FILE_NAME).exists()


def _log(place: LogPlace, waiting: Callable[[str], None] | None) -> JobLog:
    if place.server:
        from storage.postgres.server_address import address_at

        address = address_at(place.server)
        from storage.postgres.postgres_job_log import PostgresJobLog

        return PostgresJobLog.open(address, place.home)
    from storage.sqlite_job_log import SqliteJobLog

    return SqliteJobLog.open(place.home, waiting)


@cache
def _journal() -> Journal:
    return Journal(configuration()[JOURNAL].value, _who())


def _opened(place: LogPlace, waiting: Callable[[str], None] | None) -> JobLog:
    with _journal().opening(place):
        return _log(place, waiting)


def _desk(place: LogPlace, waiting: Callable[[str], None] | None = None) -> Services:
    from storage.files import write_new
    from storage.half_typed_files import HalfTypedFiles
    from storage.pades.signing import PadesSigning

    began_in = "" if _has_log(place) else str(place)
    return Services(
        log=_opened(place, waiting),
        who=_who(),
        now=lambda: in_civil_time(datetime.now(UTC)),
        bind=_bind,
        bind_draft=_bind_draft,
        bind_summary=_bind_summary,
        bind_visit=_bind_visit,
        bind_letter=_bind_letter,
        bind_charts=_bind_charts,
        proof_of=_proof_of,
        hand_out=_hand_out,
        write_new=write_new,
        due_files=_due_files,
        mail_file=_mail_file,
        signing=PadesSigning(configuration()[TIMESTAMP].value),
        half_typed=HalfTypedFiles(place.home, _who()),
        made_small=_made_small,
        packs=place.home / "packs",
        pictures=configuration().pictures,
        began_in=began_in,
        journal=_journal(),
    )


def _upkeep(place: LogPlace) -> Upkeep:
    if place.server:
        from storage.postgres.server_address import address_at

        address = address_at(place.server)
        from storage.postgres.postgres_upkeep import PostgresUpkeep

        return PostgresUpkeep(address)
    return _folder_upkeep(place)


def _folder_upkeep(place: LogPlace) -> FolderUpkeep:
    from storage.upkeep.sqlite_upkeep import SqliteUpkeep

    if place.server:
        raise JobLogError(
            f"The job log is on a server ({place}), and is copied there: pg_dump, or an archive of its write-ahead log."
        )
    return SqliteUpkeep(place.home)


def _who() -> str:
    """By the system's own account of who runs this; what a person may set in their environment counts for nothing."""
    try:
        return cleaned(pwd.getpwuid(os.getuid()).pw_name)[:LINE_MAX] or f"uid {os.getuid()}"
    except KeyError:
        return f"uid {os.getuid()}"


def _bind(pack: Pack) -> BoundPaper:
    from storage.pdf import bind

    return _said_plainly(bind, pack)


def _bind_draft(job: Job) -> BoundPaper:
    from storage.pdf import bind_draft

    return _said_plainly(bind_draft, job)


def _bind_summary(summary: Summary) -> BoundPaper:
    from storage.pdf import bind_summary

    return _said_plainly(bind_summary, summary)


def _bind_visit(visit: Visit) -> BoundPaper:
    from storage.pdf import bind_visit

    return _said_plainly(bind_visit, visit)


def _bind_letter(letter: Letter) -> BoundPaper:
    from storage.pdf import bind_letter

    return _said_plainly(bind_letter, letter)


def _bind_charts(papers: BoardPapers, sheet: str) -> BoundPaper:
    from storage.pdf import bind_charts

    return _said_plainly(partial(bind_charts, sheet=sheet), papers)


def _said_plainly(bind: Callable[[Record], BoundPaper], record: Record) -> BoundPaper:
    from storage.paper.paper_error import PaperError

    try:
        return bind(record)
    except PaperError as error:
        raise JobLogError(str(error)) from error


def _hand_out(issued: IssuedPaper, pdf: bytes, folder: Path) -> tuple[Path, ...]:
    from storage.packs import hand_out

    return hand_out(issued, pdf, folder)


def _due_files(lines: Iterable[DueLine], at: datetime) -> Mapping[str, bytes]:
    from storage.shapes.due_files import due_files

    return due_files(lines, at)


def _mail_file(draft: MailDraft, attached: Mapping[str, bytes]) -> bytes:
    from storage.shapes.mail_file import mail_file

    return mail_file(draft, attached)


def _made_small(content: bytes) -> Image:
    from storage.pictures import made_small

    return made_small(content)


def _proof_of(pdf: bytes, log: JobLog | None, *, firm: tuple[str, ...] = ()) -> Proof:
    from storage.verifying import proof_of

    return proof_of(pdf, log, firm=firm, authorities=_authorities())


def _authorities() -> bytes:
    """The certificates that signatures behind papers may go back to, in PEM."""
    if not (named := configuration()[AUTHORITIES].value):
        return b""
    try:
        return Path(named).expanduser().read_bytes()
    except OSError as error:
        raise ConfigurationError(f"{AUTHORITIES.variable}: {named} cannot be read: {error.strerror or error}") from None


def _move(place: LogPlace, to: LogPlace, *, at: datetime) -> MovedLog:
    from storage.keys.key_file import KeyFile
    from storage.moving.ends import end_at
    from storage.moving.moving import move

    moved = move(end_at(place.home, place.server), end_at(to.home, to.server), place=str(to), at=at)
    KeyFile(to.home).take_along(KeyFile(place.home))
    return moved


def _screens(painted: FirstPaint | None, place: LogPlace, *, practises: bool = False) -> int:
    from storage.pdf_worker import Bindery
    from tui.run_app import open_screens

    bindery = Bindery()
    configured = configuration()
    if configured.is_stock and painted:
        painted.take_back()
        painted = None
    with painted or nullcontext():
        desk = replace(
            _desk(place),
            bind=partial(_said_plainly, bindery.bind),
            bind_draft=partial(_said_plainly, bindery.bind_draft),
            bind_summary=partial(_said_plainly, bindery.bind_summary),
            bind_visit=partial(_said_plainly, bindery.bind_visit),
            bind_letter=partial(_said_plainly, bindery.bind_letter),
            ready_paper=bindery.open,
        )
    try:
        return open_screens(desk, configured, practises=practises, found=painted.found if painted else None)
    finally:
        bindery.close()


def _left(place: LogPlace) -> None:
    from storage.child_process import start
    from storage.upkeep.backing_up import is_due

    if not place.server and configuration().copies and is_due(place.home):
        # In a process of its own, so that nobody waits for it.
        start("tui.wiring:back_up", settings={HOME.variable: str(place.home)}, detached=True)


def back_up() -> None:
    """Make the copy of the day, in a process that nobody listens to."""
    sys.exit(run_command(["backup"]))
