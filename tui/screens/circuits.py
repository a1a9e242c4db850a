"""The schedule of circuit details."""

from domain.job.circuit import DETAIL_BOXES
from tui.job_page import JobPage
from tui.screens.schedule_kind import ScheduleKind

CIRCUITS = ScheduleKind(
    page=JobPage.CIRCUITS,
    boxes=DETAIL_BOXES,
    description_width=22,
    explains=(
        "What each circuit is made of: its conductors, its protective device and its RCD. Type into the box under the "
        "cursor. Enter keeps the text and goes on, across the circuit or down the column as the head of the schedule "
        "says; Tab goes right, Escape gives the old text back. Number and description stay in sight. A dot marks "
        "what is still to be filled in, a cross what cannot stand; N/A in weak print is not needed on that circuit. "
        "A new circuit takes its details from the one above it, less points and length, and never its readings."
    ),
)
"""What each circuit is made of."""
