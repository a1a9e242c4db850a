"""The schedule of test results."""

from typing import ClassVar

from domain.dates import written
from domain.job.circuit import RESULT_BOXES
from domain.log.job_log import JobLogError
from domain.log.last_time.history import LastTime, last_time
from domain.place import Place
from tui.job_page import JobPage
from tui.screens.schedule import TableScreen
from tui.widgets.box_view import BoxView
from tui.widgets.open_entry import OpenEntry


class ResultsScreen(TableScreen):
    """What was measured on each circuit."""

    STEP = JobPage.RESULTS
    BOXES = RESULT_BOXES
    DESCRIPTION_WIDTH = 15
    EXPLAINS: ClassVar[str] = (
        "What was measured on each circuit, in the order of testing. Type a reading as the instrument shows it: 0.35, "
        ">999 when over range, Y or N for a tick, N/A, and on reports LIM or N/V. It is kept as typed, checked at once, "
        "and marked with a cross where it is over its limit; the lines below say the limit and its source. Enter goes "
        "on across the circuit or down the column, as the head of the schedule says. Readings are never copied. "
        "Isolate, lock off and prove dead, on a tester proved before and after, before any dead test. Dead tests come "
        "first. Live tests are for competent persons only, on a supply they have made sure of. The current edition of "
        "BS 7671, the safe isolation procedure of your firm and the instrument's own manual come before this program."
    )

    def __init__(self, number: str, place: Place | None = None) -> None:
        super().__init__(number, place)
        self._before: LastTime | None = None

    def on_screen_resume(self) -> None:
        """On coming, and on coming back: circuits may have been matched otherwise meanwhile."""
        self._remember()
        super().on_screen_resume()
        self._speak()

    def asides(self, view: BoxView | None, entry: OpenEntry | None) -> tuple[str, ...]:
        figures = super().asides(view, entry)
        return (*figures[:-1], *self._last_time(view), *figures[-1:])

    def _last_time(self, view: BoxView | None) -> tuple[str, ...]:
        if view is None or self.job is None or self._before is None:
            return ()
        reading = self._before.reading(self.job, view.place)
        visit = self._before.visit
        when = written(visit.on) if visit.on else visit.number
        return (f"Last time, {when}: {reading.shown} {view.box.unit}".rstrip(),) if reading else ()

    def _remember(self) -> None:
        log = self.ohmfolio.desk.log
        try:
            job = log.load(self.number)
            self._before = last_time(log, job) if job else None
        except JobLogError:
            self._before = None
