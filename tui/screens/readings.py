"""Every reading of one circuit then and now, with the trend of the one under the cursor."""

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType

from domain.job.job import Job
from domain.job.place_in_words import box_at
from domain.log.last_time.comparing import ReadingTrend
from domain.log.last_time.history import History
from domain.log.last_time.trend import trend_of
from tui import theme
from tui.keys import bindings
from tui.screens.last_time_text import about_change, owner, reading_rows, trend
from tui.screens.page import Page
from tui.widgets.pick_list import PickList
from tui.widgets.text_page import Paragraph, TextPage


class ReadingsScreen(Page):
    """A row a reading; under them the chart over all visits."""

    EXPLAINS: ClassVar[str] = (
        "Every reading of one circuit, board or page, then and now, with the difference. Under the list the reading"
        " under the cursor over all visits, the oldest first: a bar from nought, > at its end where the range of the"
        " instrument was passed. On visits other than the newest, circuits are matched as their own page shows them."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings("back", "palette", "leave", "help")
    DEFAULT_CSS = """
    ReadingsScreen > #head { height: 1; padding: 0 1; }
    ReadingsScreen > PickList { height: 1fr; }
    ReadingsScreen > #about { height: 8; padding: 0 1; border-top: solid ansi_default; }
    """

    def __init__(self, job: Job, history: History, changes: tuple[ReadingTrend, ...]) -> None:
        super().__init__()
        self.job = job
        self._history = history
        self._changes = changes

    def compose_page(self) -> ComposeResult:
        yield TextPage(id="head")
        yield PickList(empty="No reading was taken here, then or now.")
        yield TextPage(id="about")

    def on_mount(self) -> None:
        """List the readings."""
        if self._changes:
            words = owner(self.job, self._changes[0].place)
            self.query_one("#head", TextPage).show([Paragraph(words, theme.HEAD)])
            self.query_one(PickList).show(reading_rows(self.job, self._changes))
        self.query_one(PickList).focus()
        self.show_keys()
        self.show_one()

    @on(PickList.Moved)
    def show_one(self) -> None:
        """The question, if there is one, and the trend."""
        row = self.query_one(PickList).at
        if row is None or not self._changes:
            return
        change = self._changes[int(row.id)]
        points = trend_of(self._history, self.job, change.place)
        box = box_at(self.job, change.place)
        told = about_change(self.job, change, points) if change.asks else trend(points, box.unit if box else "")
        self.query_one("#about", TextPage).show(told)

    def action_back(self) -> None:
        """Back to the visit."""
        self.ohmfolio.pop_screen()
