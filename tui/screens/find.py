"""Finding a job: words and filters, with what matches shown as it is typed."""

from typing import Any, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.reactive import var

from domain.forms.form_set import FormSet
from domain.log.job_log import JobLine, JobLogError, Query, State
from domain.log.put_right.remedial_status import can_be_put_right
from domain.log.ready_lists import SOON, ready_lists
from tui import theme
from tui.keys import bindings, key_name
from tui.routes import ToPutRight
from tui.screens.page import Page
from tui.widgets.entry_lines import SearchLine
from tui.widgets.job_rows import row_for
from tui.widgets.pick_list import FollowedList
from tui.widgets.text_page import Paragraph, TextPage

_FILTERS: dict[str, tuple[Any, ...]] = {
    "form_set": (None, *FormSet),
    "state": (None, *State),
    "open_snags": (None, True, False),
}


_LISTS = {
    "all": "all jobs",
    "yours": "yours",
    "snagged": "with open snags",
    "ready": "ready to issue",
    "due": f"due within {SOON.days} days",
    "unsatisfactory": "C1, C2 or FI to be put right",
}


class FindScreen(Page):
    """One line to type, the jobs that match under it."""

    EXPLAINS: ClassVar[str] = (
        "Type any words of a job: its client, address, postcode, number, firm, work, circuits or who tested and"
        " signed, in any order; the last word may be unfinished, and one letter of a word may be wrong. Among them may"
        " stand form:EICR, state:draft, outcome:unsatisfactory, snags:open, remedial:open, due:60d or due:01/03/2027,"
        " year:2026, engineer:NAME, client:NAME, place:NAME, postcode:WQ7, no:NUMBER, and hand:LOGIN for who"
        ' changed it, as its trail names people. Several words go in quotes: client:"Hester Quill". Up and Down choose a'
        " job while you type; Esc from a job opened here comes back to this list as it was left."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(
        *(
            "open-found",
            "find-form",
            "find-state",
            "find-snags",
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
    FindScreen > FollowedList { height: 1fr; margin-top: 1; }
    """

    listed: var[str] = var("all")
    """Which of the ready lists is shown."""
    query_now: var[Query] = var(Query())
    """What is looked for."""

    def __init__(self, words: str = "") -> None:
        super().__init__()
        self.set_reactive(FindScreen.query_now, Query(words=words))
        self._found: tuple[JobLine, ...] = ()
        self._shown_for = Query()
        self._more = False
        self._is_away = False

    def compose_page(self) -> ComposeResult:
        yield SearchLine("Find", self.query_now.words)
        yield TextPage()
        yield FollowedList(lines_a_row=2)

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
        """Show what matches, the first page of it; where nothing does, what one other letter finds."""
        filters = "   ".join(_shown(name, self.query_now) for name in _FILTERS)
        self.query_one(TextPage).show(
            [Paragraph(f"{filters}   {key_name('find-list')} list: {_LISTS[self.listed]}", theme.QUIET)]
        )
        self._found = ()
        self._fetch(self._asked)
        if not self._found:
            self._fetch_nearly()
        if self._found:
            self.query_one(FollowedList).go_to(self._found[0].number)

    def show_again(self) -> None:
        """List as many as before, as they are now; the cursor stays on its job."""
        seen, self._found = len(self._found), ()
        self._fetch(self._shown_for.model_copy(update={"before": "", "limit": max(seen, Query().limit)}))

    def action_narrow(self, name: str) -> None:
        """The next choice of a filter."""
        choices = _FILTERS[name]
        after = choices[(choices.index(getattr(self.query_now, name)) + 1) % len(choices)]
        self.query_now = self.query_now.model_copy(update={name: after})

    def action_next_list(self) -> None:
        """The next of the ready lists."""
        names = list(_LISTS)
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
            report = self.ohmfolio.desk.log.load(row.id) if row else None
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
        """More is fetched when the cursor comes to the last one."""
        if self._more and self._found and event.row and event.row.id == self._found[-1].number:
            self._fetch(self._shown_for.model_copy(update={"before": self._found[-1].number}))

    @property
    def _asked(self) -> Query:
        desk = self.ohmfolio.desk
        today = desk.now().date()
        return self.query_now.model_copy(update={"on": today, **ready_lists(desk.who, today)[self.listed]})

    @property
    def _nothing_found(self) -> str:
        if self.query_now.words.strip():
            return "No job matches; fewer words find more"
        if any(getattr(self.query_now, name) is not None for name in _FILTERS):
            return "No job is like that; the keys above choose otherwise"
        if self.listed != "all":
            return f"No job is in this list: {_LISTS[self.listed]}. {key_name('find-list')} goes on to the next"
        return "The log holds no job yet"

    def _fetch_nearly(self) -> None:
        try:
            better = self.ohmfolio.desk.log.corrected(self._asked)
        except JobLogError:
            return
        if better:
            self._fetch(better)
        if better and self._found:
            meant = " ".join(filter(None, (better.words, better.client, better.place)))
            self.say(f"Nothing holds that as typed; shown is what holds: {meant}")

    def _fetch(self, query: Query) -> None:
        try:
            found = self.ohmfolio.desk.log.find(query)
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        self._shown_for, self._more = query, len(found) == query.limit
        self._found = (*self._found, *found)
        rows = self.query_one(FollowedList)
        rows.empty = self._nothing_found
        rows.show([row_for(line) for line in self._found])
        self.say(f"{len(self._found)}{' or more' if self._more else ''} found" if self._found else "")


def _shown(name: str, query: Query) -> str:
    label, key = {
        "form_set": ("papers", "find-form"),
        "state": ("state", "find-state"),
        "open_snags": ("open snags", "find-snags"),
    }[name]
    value = getattr(query, name)
    said = {None: "any", True: "some", False: "none"}.get(value, value)
    return f"{key} {label}: {said}"
