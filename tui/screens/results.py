"""The schedule of test results."""

from typing import ClassVar

from domain.circuit import RESULT_BOXES
from tui.screens.table_screen import TableScreen
from tui.steps import Step


class ResultsScreen(TableScreen):
    """What was measured on each circuit."""

    STEP = Step.RESULTS
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
