"""The trail of a job: who changed what, and when."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType

from domain.civil_time import short_moment
from domain.log.job_log import JobLogError, TrailLine
from tui import theme
from tui.keys import bindings
from tui.screens.page import Page
from tui.widgets.pick_list import ListCell, ListRow, PickList


class TrailScreen(Page):
    """Every edit, the newest first. Hands a place back to the step it was opened over."""

    EXPLAINS: ClassVar[str] = (
        "Everything that was done to this job, the newest first: when, by whom, what, and what stood there before."
        " It is only read; nothing in it can be changed. Undo takes back what you did last, and stands here as well."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings("trail-visit", "back", "palette", "leave", "help")
    DEFAULT_CSS = "TrailScreen > PickList { height: 1fr; }"

    def __init__(self, number: str) -> None:
        super().__init__()
        self.number = number
        self._lines: dict[str, TrailLine] = {}

    def compose_page(self) -> ComposeResult:
        yield PickList(lines_a_row=3, empty="Nothing has been done yet")

    def on_mount(self) -> None:
        """Read it from the log."""
        try:
            lines = self.ohmfolio.services.log.trail(self.number)
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        self._lines = {str(line.version): line for line in reversed(lines)}
        rows = self.query_one(PickList)
        rows.show(_row(line) for line in self._lines.values())
        rows.focus()
        self.show_keys()
        self.say(f"{self.number}: {len(lines)} edit{'' if len(lines) == 1 else 's'}")

    def action_visit_edit(self) -> None:
        """Go to the place of the edit under the cursor."""
        row = self.query_one(PickList).at
        place = self._lines[row.id].place if row else None
        if place is None:
            self.say("It is not about one box of the forms")
            return
        self.action_back()
        self.ohmfolio.visit(place)

    def action_back(self) -> None:
        """Back to the job."""
        self.ohmfolio.pop_screen()


def _row(line: TrailLine) -> ListRow:
    when = short_moment(line.at)
    return ListRow(
        str(line.version),
        (ListCell(when, theme.QUIET, 20), ListCell(line.who, theme.HEAD, 14), ListCell(line.what, theme.PLAIN)),
    )
