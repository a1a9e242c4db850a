"""Where the screens and commands are wired to the storage; the only place where the two meet."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import nullcontext
from dataclasses import replace
from datetime import UTC, datetime
from functools import cache, partial
from io import TextIOWrapper
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias

from domain.civil_time import in_civil_time
from domain.log.job_log import JobLogError
from tui.commands.command import Environment, GivenDocuments, aside
from tui.commands.running import run
from tui.configuration import configuration
from tui.first_paint import FirstPaint
from tui.journal import Journal
from tui.log_place import LogPlace
from tui.services import RunningCommand, Services
from tui.setting_keys import AFTER_ISSUE, HOME, JOURNAL, LOG, TIMESTAMP
from tui.user_name import account_name
from tui.waiting import Waiting

if TYPE_CHECKING:
    from domain.coach.summary import Summary
    from domain.coach.visit_sheet import Visit
    from domain.duties.mail_draft import MailDraft
    from domain.gate.assessment import Pack
    from domain.gate.issued_paper import IssuedPaper
    from domain.gate.proof import Proof
    from domain.job.job import Job
    from domain.job.logo import Logo
    from domain.job.picture import Image
    from domain.log.due_list import DueLine
    from domain.log.job_log import BoundPaper, JobLog
    from domain.log.put_right.letter import Letter
    from domain.log.upkeep import FolderUpkeep, MovedLog, Upkeep
    from domain.sheets.board_chart import BoardPapers
    from storage.laptops.firm import FirmFiles
    from storage.postgres.server_address import ServerAddress

Record: TypeAlias = "Pack | Job | Summary | Visit | Letter | BoardPapers | Logo | str | None"


def run_command(typed: list[str], painted: FirstPaint | None = None) -> int:
    """Do what was typed after `ohmfolio`, with what is on the screen already; the exit code."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")
    return _run_as("", typed, painted)


def _run_as(who: str, typed: list[str], painted: FirstPaint | None = None) -> int:
    """As somebody whom a shared account names; "" for who runs this, by the account or, at a server, by the role there."""
    environment = Environment(
        configuration=configuration,
        place=partial(_place, painted),
        has_log=_has_log,
        services=partial(_services, who=who, waiting=Waiting(aside)),
        upkeep=_upkeep,
        folder_upkeep=_folder_upkeep,
        move=_move,
        firm=partial(_firm, who),
        screens=partial(_screens, painted, who),
        left=_left,
        proof_of=_proof_of,
        documents=_documents,
        journal=partial(_journal, who),
        run_as=_run_as,
    )
    return run(typed, environment)


def _place(painted: FirstPaint | None) -> LogPlace:
    with painted or nullcontext():
        return configuration().place


def _has_log(place: LogPlace) -> bool:
    if place.server:
        from storage.postgres.postgres_job_log import has_log_at

        return has_log_at(_address(place))
    from storage.opening import has_log_in

    return has_log_in(place.home)


def _log(place: LogPlace, waiting: Callable[[str], None] | None) -> tuple[JobLog, str]:
    """The log, and who is there."""
    if place.server:
        address = _address(place)
        from storage.postgres.postgres_job_log import PostgresJobLog

        log = PostgresJobLog.open(address, place.home)
        return log, log.role
    from storage.proving_later import proved_as_issued
    from storage.sqlite_job_log import SqliteJobLog

    return proved_as_issued(SqliteJobLog.open(place.home, waiting), place.home), account_name()


def _address(place: LogPlace) -> ServerAddress:
    from storage.postgres.server_address import address_at

    return address_at(place.server)


@cache
def _journal(who: str) -> Journal:
    return Journal(configuration()[JOURNAL].value, who or account_name())


def _services(place: LogPlace, *, who: str = "", waiting: Waiting) -> Services:
    from storage.files import write_new
    from storage.half_typed_files import HalfTypedFiles
    from storage.pades.signing import PadesSigning

    with _journal(who).opening(place):
        log, there = _log(place, waiting)
    return Services(
        log=log,
        who=who or there,
        now=lambda: in_civil_time(datetime.now(UTC)),
        bind=partial(_bound, "bind"),
        bind_draft=partial(_bound, "bind_draft"),
        bind_summary=partial(_bound, "bind_summary"),
        bind_visit=partial(_bound, "bind_visit"),
        bind_letter=partial(_bound, "bind_letter"),
        bind_charts=partial(_bound, "bind_charts"),
        proof_of=_proof_of,
        hand_out=_hand_out,
        write_new=write_new,
        due_files=_due_files,
        mail_file=_mail_file,
        signing=PadesSigning(configuration()[TIMESTAMP].value),
        half_typed=HalfTypedFiles(place.home, who or there),
        made_small=_made_small,
        begin_command=partial(_begin_command, place, who),
        made_logo=_made_logo,
        packs=place.home / "packs",
        pictures=configuration().pictures,
        doing_now=_doing_now,
        after_issue=configuration()[AFTER_ISSUE].value,
        journal=_journal(who),
        waiting=waiting,
    )


def _upkeep(place: LogPlace) -> Upkeep:
    if place.server:
        from storage.postgres.postgres_upkeep import PostgresUpkeep

        return PostgresUpkeep(_address(place))
    return _folder_upkeep(place)


def _folder_upkeep(place: LogPlace) -> FolderUpkeep:
    from storage.upkeep.sqlite_upkeep import SqliteUpkeep

    if place.server:
        raise JobLogError(
            f"The job log is on a server ({place}), and is copied there: pg_dump, or an archive of its write-ahead log."
        )
    return SqliteUpkeep(place.home)


def _firm(who: str, place: LogPlace) -> FirmFiles:
    from storage.laptops.firm import FirmFiles

    return FirmFiles(place.home, place.server, who or account_name())


def _bound(what: str, *of: Record) -> BoundPaper:
    """A paper made in this process, by the function of that name."""
    from storage import pdf

    return _said_plainly(getattr(pdf, what), *of)


def _said_plainly(bind: Callable[..., BoundPaper], *of: Record) -> BoundPaper:
    from storage.paper.paper_error import PaperError

    try:
        return bind(*of)
    except PaperError as error:
        raise JobLogError(str(error)) from error


def _doing_now() -> str:
    from storage.paper.progress import doing_now

    return doing_now()


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


def _made_logo(content: bytes, says: str) -> Logo:
    from storage.logos import made_logo

    return made_logo(content, says)


def _proof_of(pdf: bytes, log: JobLog | None, *, firm: tuple[str, ...] = ()) -> Proof:
    from storage.verifying import proof_of

    return proof_of(pdf, log, firm=firm, authorities=configuration().authorities)


def _documents() -> GivenDocuments:
    from storage import given_documents

    return given_documents


def _move(place: LogPlace, to: LogPlace, *, at: datetime) -> MovedLog:
    from storage.keys.key_file import KeyFile
    from storage.moving.ends import end_at
    from storage.moving.moving import move

    moved = move(end_at(place.home, place.server), end_at(to.home, to.server), place=str(to), at=at)
    KeyFile(to.home).take_along(KeyFile(place.home))
    return moved


def _screens(painted: FirstPaint | None, who: str, place: LogPlace, *, practises: bool = False) -> int:
    from storage.pdf_worker import PdfWorker
    from tui.run_app import open_screens
    from tui.tasks import OPEN_AGAIN

    worker, configured = PdfWorker(), configuration()
    if configured.is_stock and painted:
        painted.take_back()
        painted = None
    with painted or nullcontext():
        began_in = "" if _has_log(place) else str(place)  # asked before the log is opened, and for no command
        services = replace(
            _services(place, who=who, waiting=Waiting()),
            began_in=began_in,
            bind=partial(_said_plainly, worker.bind),
            bind_draft=partial(_said_plainly, worker.bind_draft),
            bind_summary=partial(_said_plainly, worker.bind_summary),
            bind_visit=partial(_said_plainly, worker.bind_visit),
            bind_letter=partial(_said_plainly, worker.bind_letter),
            ready_paper=worker.open,
            doing_now=worker.doing_now,
        )
    try:
        code = open_screens(services, configured, practises=practises, found=painted.found if painted else None)
    finally:
        worker.close()
    return _screens(None, who, place) if code == OPEN_AGAIN else code


def _left(place: LogPlace) -> None:
    from storage.child_process import start
    from storage.upkeep.backing_up import is_due

    if not place.server and configuration().copies and is_due(place.home):
        start("tui.wiring:do_command", "backup", settings={HOME.variable: str(place.home)}, detached=True)


def _begin_command(place: LogPlace, who: str, typed: Sequence[str], given: str) -> RunningCommand:
    from storage.child_process import ListenedProcess

    if who:
        raise PermissionError(1, "who comes through an account that several people share leaves this to its keeper")
    settings = {HOME.variable: str(place.home), LOG.variable: place.server}
    return ListenedProcess("tui.wiring:do_command", *typed, settings=settings, given=given)


def do_command(*typed: str) -> None:
    """Do what might have been typed after `ohmfolio`, as a process of its own."""
    sys.exit(run_command(list(typed)))
