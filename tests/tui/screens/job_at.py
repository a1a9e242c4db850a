"""One step of a job on a real log, at 80 by 24, for tests that press keys."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import replace
from pathlib import Path

from textual import events
from textual.pilot import Pilot

from domain.job.job import Job
from domain.log.job_log import JobLog
from domain.place import Place
from tests.builders import AT, INSPECTOR
from tests.tui.screens.services import services_in
from tests.tui.screens.shown import lines_of, text_of
from tui.app import OhmfolioApp
from tui.job_page import JobPage
from tui.router import screen_for
from tui.routes import ToJob
from tui.screens.job_screen import JobScreen
from tui.widgets.box_panel import BoxPanel


class AtStep:
    """A person at the keyboard, with the log in sight."""

    def __init__(self, pilot: Pilot[None], app: OhmfolioApp, log: JobLog, number: str) -> None:
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
        """The lines below the work area."""
        panel = self.screen.query_one(BoxPanel).region
        return "\n".join(line.rstrip() for line in lines_of(self.app)[panel.y : panel.bottom])

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
        await self._worked_through()

    async def type(self, text: str, *after: str) -> None:
        """Type a text letter by letter, all at once as a line that stalled delivers it; then press keys."""
        for letter in text:
            self.app.post_message(events.Key("space" if letter == " " else letter, letter))
        await self._worked_through()
        await self.press(*after)

    async def _worked_through(self) -> None:
        """Wait until no key waits for its turn any more, and what came of the last one is shown."""
        await self.pilot.pause()
        while self.app.type_ahead.is_working:
            await self.pilot.pause()


def step_on(app: OhmfolioApp) -> JobPage | None:
    """The step of a job that is on the screen, if one is."""
    return app.screen.step if isinstance(app.screen, JobScreen) else None


@asynccontextmanager
async def at_step(
    step: JobPage,
    job: Job,
    home: Path,
    *,
    place: Place | None = None,
    size: tuple[int, int] = (80, 24),
    log: JobLog | None = None,
) -> AsyncIterator[AtStep]:
    """The step of a job just created in a log of its own, or in one that is given."""
    services = services_in(home)
    if log:
        services.log.close()
        services = replace(services, log=log)
    number = services.log.create(job, who=INSPECTOR, at=AT).number
    app = OhmfolioApp(services, screen_for)
    async with app.run_test(size=size) as pilot:
        await app.push_screen(screen_for(ToJob(number, step, place), services))
        await pilot.pause()
        yield AtStep(pilot, app, services.log, number)
    services.log.close()
