"""One step of a job on a real log, at 80 by 24, for tests that press keys."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import UTC, datetime
from pathlib import Path

from textual import events
from textual.pilot import Pilot

from domain.gate import Pack
from domain.job import Job
from domain.job_log import Bound
from domain.place import Place
from storage.sqlite_job_log import SqliteJobLog
from tests.tui.screens.shown import lines_of, text_of
from tui.app import OhmfolioApp
from tui.desk import Desk
from tui.screens.job_screen import JobScreen
from tui.theme import THEME

NOW = datetime(2026, 3, 2, 14, 5, tzinfo=UTC)


class StepApp(OhmfolioApp):
    """The program, opened on one step of one job."""

    def __init__(self, desk: Desk, step: type[JobScreen], number: str, place: Place | None) -> None:
        super().__init__(desk)
        self._first = step, number, place

    def on_mount(self, event: events.Mount) -> None:
        event.prevent_default()
        self.register_theme(THEME)
        self.theme = THEME.name
        step, number, place = self._first
        self.push_screen(step(number, place))


class AtStep:
    """A person at the keyboard, with the log in sight."""

    def __init__(self, pilot: Pilot[None], app: StepApp, log: SqliteJobLog, number: str) -> None:
        self.pilot = pilot
        self.app = app
        self.log = log
        self.number = number

    @property
    def job(self) -> Job:
        """The job as the log holds it."""
        loaded = self.log.load(self.number)
        assert loaded is not None
        return loaded

    @property
    def screen(self) -> JobScreen:
        assert isinstance(self.app.screen, JobScreen)
        return self.app.screen

    @property
    def text(self) -> str:
        return text_of(self.app)

    @property
    def panel(self) -> str:
        """The four lines below the work area."""
        return "\n".join(line.rstrip() for line in lines_of(self.app)[18:22])

    @property
    def said(self) -> str:
        """The line above the keys."""
        return lines_of(self.app)[22].strip()

    def line_with(self, text: str) -> str:
        """The first line of the screen that shows a text."""
        return next(line for line in lines_of(self.app) if text in line)

    @property
    def box(self) -> str:
        """The name of the box the cursor is on."""
        place = self.screen.where()
        return place.box if place else ""

    async def press(self, *keys: str) -> None:
        await self.pilot.press(*keys)
        await self.pilot.pause()

    async def type(self, text: str, *after: str) -> None:
        """Type a text letter by letter, all at once as a line that stalled delivers it; then press keys."""
        for letter in text:
            self.app.post_message(events.Key("space" if letter == " " else letter, letter))
        await self.pilot.pause()
        await self.press(*after)


@asynccontextmanager
async def at_step(
    step: type[JobScreen], job: Job, home: Path, *, place: Place | None = None, size: tuple[int, int] = (80, 24)
) -> AsyncIterator[AtStep]:
    """The step of a job just created in a log of its own."""
    log = SqliteJobLog.open(home)
    number = log.create(job, who="Tamsin Orchard", at=NOW).number
    desk = Desk(
        log=log,
        who="Tamsin Orchard",
        now=lambda: NOW,
        bind=_no_paper,
        bind_draft=_no_paper,
        write_new=_no_file,
        packs=home,
    )
    app = StepApp(desk, step, number, place)
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        yield AtStep(pilot, app, log, number)
    log.close()


def _no_paper(_: Pack | Job) -> Bound:
    raise AssertionError("no paper is bound on this step")


def _no_file(_: Path, __: bytes) -> None:
    raise AssertionError("no file is written on this step")
