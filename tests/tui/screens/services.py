"""Services for tests: a real log in a folder of the test's own, and a clock that stands still."""

from collections.abc import Sequence
from functools import partial
from pathlib import Path

from domain.coach.summary import Summary
from domain.coach.visit_sheet import Visit
from domain.gate.assessment import Pack
from domain.job.job import Job
from domain.job.logo import Logo
from domain.log.job_log import BoundPaper
from domain.log.put_right.letter import Letter
from domain.sheets.board_chart import BoardPapers
from storage.child_process import ListenedProcess
from storage.files import write_new
from storage.half_typed_files import HalfTypedFiles
from storage.logos import made_logo
from storage.packs import hand_out
from storage.pades.signing import PadesSigning
from storage.pictures import made_small
from storage.shapes.due_files import due_files
from storage.shapes.mail_file import mail_file
from storage.verifying import proof_of
from tests.builders import AT, INSPECTOR
from tests.storage.begun import begun_log
from tui.app import OhmfolioApp
from tui.router import screen_for
from tui.services import Services
from tui.waiting import Waiting


def services_in(home: Path) -> Services:
    """Everything real but the paper, which is one line of text."""
    waiting = Waiting()
    return Services(
        log=begun_log(home / "log", waiting),
        waiting=waiting,
        who=INSPECTOR,
        now=lambda: AT,
        bind=_bound,
        bind_draft=_bound_draft,
        bind_summary=_bound_summary,
        proof_of=proof_of,
        hand_out=hand_out,
        signing=PadesSigning(),
        bind_visit=_bound_visit,
        bind_letter=_bound_letter,
        bind_charts=_bound_charts,
        write_new=write_new,
        due_files=due_files,
        mail_file=mail_file,
        half_typed=HalfTypedFiles(home / "log", INSPECTOR),
        begin_command=partial(begin_command, home / "log"),
        packs=home / "packs",
        made_small=made_small,
        made_logo=made_logo,
        pictures=home / "camera",
    )


def app_in(home: Path, *jobs: Job) -> OhmfolioApp:
    """The program on a log with these jobs in it, the last one the newest."""
    services = services_in(home)
    for job in jobs:
        services.log.create(job, who=INSPECTOR, at=AT)
    return OhmfolioApp(services, screen_for)


def begin_command(home: Path, typed: Sequence[str], given: str) -> ListenedProcess:
    """A command on the log of a folder, in a process of its own."""
    settings = {"OHMFOLIO_HOME": str(home), "OHMFOLIO_COPIES": "2"}
    return ListenedProcess("tui.wiring:do_command", *typed, settings=settings, given=given)


def _bound(pack: Pack) -> BoundPaper:
    return BoundPaper(pdf=f"pack {pack.job.number}".encode(), pages=7)


def _bound_summary(summary: Summary) -> BoundPaper:
    return BoundPaper(pdf=f"summary of {summary.who}".encode(), pages=1)


def _bound_visit(visit: Visit) -> BoundPaper:
    return BoundPaper(pdf=f"visit sheet of {visit.job.number}".encode(), pages=1)


def _bound_charts(papers: BoardPapers, sheet: str) -> BoundPaper:
    return BoundPaper(pdf=f"charts of {papers.number} on {sheet}".encode(), pages=1)


def _bound_letter(letter: Letter) -> BoundPaper:
    return BoundPaper(pdf=f"letter on {letter.put_right.report.number}".encode(), pages=1)


def _bound_draft(job: Job, logo: Logo | None = None) -> BoundPaper:
    beside = f", {logo.says}" if logo else ""
    return BoundPaper(pdf=f"DRAFT {job.number}{beside}".encode(), pages=6)
