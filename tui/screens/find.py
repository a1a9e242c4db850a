"""Finding a job: words and filters, with what matches shown as it is typed."""

from collections.abc import Mapping
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.reactive import var

from domain.log.job_log import Found, FoundJob, JobLogError, Query
from domain.log.put_right.remedial_status import can_be_put_right
from domain.log.ready_lists import ready_lists
from tui.keys import bindings, key_name
from tui.routes import ToPutRight
from tui.screens.find_text import LISTS, choices_of, count_said, filters_said, found_by, is_filtered
from tui.screens.page import Page
from tui.services import where_drafts_are
from tui.widgets.entry_lines import SearchLine
from tui.widgets.job_rows import row_for
from tui.widgets.pick_list import FollowedList
from tui.widgets.text_page import TextPage


class FindScreen(Page):
    """One line to type, the jobs that match under it."""

    EXPLAINS: ClassVar[str] = (
        "Type what you remember of a job, in any order: client, address, half a postcode, telephone, reference, number,"
        " work, circuits, who tested or signed, and when: March, last spring, 2025, three weeks ago. The last word may be"
        " unfinished, and each word may have one error; where no job holds all of it, what holds most comes first, and"
        " the line below the list says by what each was found and what it lacks. Among the words may stand form:EICR, state:draft, outcome:unsatisfactory, snags:open, remedial:open, due:60d or due:01/03/2027,"
        " year:2026, engineer:NAME, client:NAME, place:NAME, postcode:WQ7, no:NUMBER, aside:yes for drafts laid aside, and hand:LOGIN for who"
        ' changed it, as its trail names people. Several words go in quotes: client:"Hester Quill". Up and Down choose a'
        " job while you type; Esc from a job opened here comes back to this list as it was left."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(
        *(
            "open-found",
            "find-form",
            "find-state",
            "find-snags",
            "find-outcome",
            "find-year",
            "find-list",
            "find-put-right",
            "back",
            "palette",
            "leave",
            "help",
        ),
        *("row-up", "row-down", "rows-up", "rows-down"),
    )
    DEFAULT_CSS = """
    FindScreen > SearchLine, FindScreen > TextPage { height: auto; padding: 0 1; }
    FindScreen > FollowedList { height: 1fr; }
    FindScreen > #by { height: 4; border-top: solid ansi_default; }
    """

    listed: var[str] = var("all")
    """Which of the ready lists is shown."""
    query_now: var[Query] = var(Query())
    """What is looked for."""

    def __init__(self, words: str = "") -> None:
        super().__init__()
        self.set_reactive(FindScreen.query_now, Query(words=words))
        self._jobs: tuple[FoundJob, ...] = ()
        self._where: Mapping[str, str] = {}
        self._last = Found()
        self._is_away = False

    def compose_page(self) -> ComposeResult:
        yield SearchLine("Find", self.query_now.words)
        yield TextPage(id="filters")
        yield FollowedList(lines_a_row=3)
        yield TextPage(id="by")

    def on_mount(self) -> None:
        """Everything matches until something is typed."""
        self.query_one(SearchLine).focus()
        self.search()

    @on(SearchLine.Changed)
    def on_words(self) -> None:
        """Look again for what is typed now."""
        self.query_now = self.query_now.model_copy(update={"words": self.query_one(SearchLine).words})

    def watch_query_now(self) -> None:
        if self.is_mounted:
            self.search()

    def watch_listed(self) -> None:
        if self.is_mounted:
            self.search()

    def search(self) -> None:
        """Show what is found, the first page of it."""
        self.query_one("#filters", TextPage).show(filters_said(self.query_now, self.listed))
        self._jobs = ()
        self._fetch(self._asked)
        if self._jobs:
            self.query_one(FollowedList).go_to(self._jobs[0].line.number)

    def show_again(self) -> None:
        """List as many as before, as they are now; the cursor stays on its job."""
        seen, self._jobs = len(self._jobs), ()
        self._fetch(self._asked.model_copy(update={"limit": max(seen, Query().limit)}))

    def action_narrow(self, name: str) -> None:
        """The next choice of a filter."""
        choices = choices_of(name, self.ohmfolio.services.now().year)
        after = choices[(choices.index(getattr(self.query_now, name)) + 1) % len(choices)]
        self.query_now = self.query_now.model_copy(update={name: after})

    def action_next_list(self) -> None:
        """The next of the ready lists."""
        names = list(LISTS)
        self.listed = names[(names.index(self.listed) + 1) % len(names)]

    def action_move(self, by: int) -> None:
        """One job up or down."""
        self.query_one(FollowedList).action_move(by)

    def action_page(self, by: int) -> None:
        """One window of jobs up or down."""
        self.query_one(FollowedList).action_page(by)

    def action_open_found(self) -> None:
        """Open the job under the cursor."""
        if row := self.query_one(FollowedList).at:
            self._is_away = True
            self.ohmfolio.open_job(row.id)

    def action_put_right(self) -> None:
        """Show how far the report under the cursor has been put right."""
        row = self.query_one(FollowedList).at
        try:
            report = self.ohmfolio.services.log.load(row.id) if row else None
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        if report and can_be_put_right(report):
            self._is_away = True
            self.ohmfolio.go(ToPutRight(report))
        else:
            self.say("Only an issued report with a C1, C2 or FI is put right")

    def on_screen_resume(self) -> None:
        """The job that was opened may have changed meanwhile."""
        super().on_screen_resume()
        if self._is_away:
            self._is_away = False
            self.show_again()

    def action_back(self) -> None:
        """Back to where it was opened."""
        self.ohmfolio.pop_screen()

    @on(FollowedList.Moved)
    def on_row_reached(self, event: FollowedList.Moved) -> None:
        """Say by what it was found; more is fetched when the cursor comes to the last one."""
        at = next((job for job in self._jobs if event.row and job.line.number == event.row.id), None)
        self.query_one("#by", TextPage).show(found_by(at) if at else ())
        if at and self._last.has_more and at is self._jobs[-1]:
            self._fetch(self._asked.model_copy(update={"before": at.line.number}))

    @property
    def _asked(self) -> Query:
        services = self.ohmfolio.services
        today = services.now().date()
        return self.query_now.model_copy(update={"on": today, **ready_lists(services.who, today)[self.listed]})

    @property
    def _nothing_found(self) -> str:
        if self.query_now.words.strip():
            return "No job matches; fewer words find more"
        if is_filtered(self.query_now):
            return "No job is like that; the keys above choose otherwise"
        if self.listed != "all":
            return f"No job is in this list: {LISTS[self.listed]}. {key_name('find-list')} goes on to the next"
        return "The log holds no job yet"

    def _fetch(self, query: Query) -> None:
        try:
            self._last = self.ohmfolio.services.log.search(query)
            where = where_drafts_are(self.ohmfolio.services, (job.line for job in self._last.jobs))
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        self._jobs, self._where = (*self._jobs, *self._last.jobs), {**self._where, **where}
        rows = self.query_one(FollowedList)
        rows.empty = self._nothing_found
        goes_by_due = self.listed == "due"
        rows.show(
            row_for(job.line, job.line.due if goes_by_due else None, self._where.get(job.line.number, ""))
            for job in self._jobs
        )
        self.say(count_said(len(self._jobs), self._last))
