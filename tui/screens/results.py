"""The schedule of test results."""

from domain.dates import written
from domain.job.circuit import RESULT_BOXES
from domain.log.job_log import JobLogError
from domain.log.last_time.history import LastTime, last_time
from tui.job_page import JobPage
from tui.screens.job_session import JobSession
from tui.screens.schedule_kind import ScheduleKind
from tui.widgets.box_view import BoxView


class LastReadings:
    """What was read at the same address the last time."""

    def __init__(self, session: JobSession) -> None:
        self._session = session
        self._before: LastTime | None = None

    def look_up(self) -> None:
        """Read it anew: circuits may have been matched otherwise meanwhile."""
        log = self._session.services.log
        try:
            job = log.load(self._session.number)
            self._before = last_time(log, job) if job else None
        except JobLogError:
            self._before = None

    def lines(self, view: BoxView) -> tuple[str, ...]:
        """The reading of a box then, with its day."""
        if self._session.job is None or self._before is None:
            return ()
        reading = self._before.reading(self._session.job, view.place)
        visit = self._before.visit
        when = written(visit.on) if visit.on else visit.number
        return (f"Last time, {when}: {reading.shown} {view.box.unit}".rstrip(),) if reading else ()


RESULTS = ScheduleKind(
    page=JobPage.RESULTS,
    boxes=RESULT_BOXES,
    description_width=15,
    explains=(
        "What was measured on each circuit, in the order of testing. Type a reading as the instrument shows it: 0.35, "
        ">999 when over range, Y or N for a tick, N/A, and on reports LIM or N/V. It is kept as typed, checked at once, "
        "and marked with a cross where it is over its limit; the lines below say the limit and its source. Enter goes "
        "on across the circuit or down the column, as the head of the schedule says. Readings are never copied. "
        "Isolate, lock off and prove dead, on a tester proved before and after, before any dead test. Dead tests come "
        "first. Live tests are for competent persons only, on a supply they have made sure of. The current edition of "
        "BS 7671, the safe isolation procedure of your firm and the instrument's own manual come before this program."
    ),
    remembered=LastReadings,
)
"""What was measured on each circuit."""
