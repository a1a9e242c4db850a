"""Loads what opening a job takes while the person looks at the first screen, and stands back while they type."""

import gc
import sys
import time
from collections.abc import Callable
from contextlib import suppress
from importlib import import_module
from threading import Thread

from domain.log.job_log import JobLog, Query

PIECES = (
    *(
        "domain.job.people",
        "domain.job.circuit_details",
        "domain.job.board",
        "domain.job.instrument",
        "domain.job.work",
    ),
    *("domain.inspection.checklist", "domain.job.signatories", "domain.job.job", "domain.editing.commands"),
    *("domain.register.entries", "domain.figures.limits.device", "domain.figures.limits.earth_fault"),
    *(
        "domain.figures.formulas.loop",
        "domain.checks",
        "domain.gate.assessment",
        "domain.log.use_cases.drafting",
        "tui.widgets.entry_lines",
    ),
    *("domain.coach.danger", "tui.screens.dialogs", "domain.log.last_time.comparing", "tui.screens.job_screen"),
    *("tui.widgets.schedule_grid", "tui.screens.schedule", "tui.screens.details", "tui.screens.results"),
    *("tui.screens.circuits", "tui.screens.inspection", "domain.duties.duty", "domain.duties.owing"),
    *("domain.duties.of_job", "domain.sheets", "domain.log.put_right.remedial_status", "domain.gate.proof"),
    *("tui.screens.paper_maker", "tui.screens.put_right", "tui.screens.issue", "tui.screens.raised"),
    *("tui.screens.review", "tui.screens.last_time", "tui.screens.trail", "tui.screens.issued"),
)
"""Small ones, each before those that need it: a key waits for one of them at most. The last bring the other steps."""
_SHARE = 0.0005
"""Seconds after which a key gets its turn while a piece is loaded."""
_LOOK_AGAIN = 0.02
_PAINTED_BY_THEN = 0.2
"""Seconds for the last of the first screen, and for whoever knows already what to press."""


def load_ahead(log: JobLog, who: str, hands_rest: Callable[[], bool]) -> Thread:
    """Begin, and return at once. Whoever needs a piece sooner loads it as if nothing had been begun.

    What is loaded by now, and what will be, stays: it is kept from being looked through for waste again and again, which
    takes as long as a key may.
    """
    gc.freeze()
    gc.enable()
    loading = Thread(target=_load, args=(log, who, hands_rest), daemon=True)
    loading.start()
    return loading


def _load(log: JobLog, who: str, hands_rest: Callable[[], bool]) -> None:
    time.sleep(_PAINTED_BY_THEN)
    usual = sys.getswitchinterval()
    sys.setswitchinterval(_SHARE)
    try:
        # What goes wrong here goes wrong again, and is told, when somebody asks for it; a thread would write on the screen.
        with suppress(Exception):
            _wait_for(hands_rest)
            _read_rules()
            for piece in PIECES:
                _wait_for(hands_rest)
                import_module(piece)
            _wait_for(hands_rest)
            _look_into_last(log, who)
            _wait_for(hands_rest)
            _read_guidance()
    finally:
        sys.setswitchinterval(usual)
        gc.freeze()


def _wait_for(hands_rest: Callable[[], bool]) -> None:
    while not hands_rest():
        time.sleep(_LOOK_AGAIN)


def _read_rules() -> None:
    """The first answer is what somebody gives next."""
    from domain.forms.choice.rule import rules

    rules()


def _look_into_last(log: JobLog, who: str) -> None:
    """Read the job that stands first and judge it once, so that what reads and judges is ready."""
    from domain.gate.assessment import assess

    number = log.last_opened(who=who) or next((line.number for line in log.find(Query(limit=1))), "")
    job = log.load(number) if number else None
    if job:
        assess(job, log.people_named(job.signers))


def _read_guidance() -> None:
    """Make ready what stands beside an observation while it is typed."""
    from domain.inspection.codes.likeness import guidance_for

    guidance_for("ready")
