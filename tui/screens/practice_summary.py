"""How somebody's practice stands, on one page, and that page as a PDF."""

from datetime import date
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType

from domain.coach.case import cases
from domain.coach.kept import answers_of
from domain.coach.summary import Summary, summary_of
from domain.coach.summary_text import summary_text
from domain.log.job_log import JobLogError
from tui.keys import bindings, key_name
from tui.screens.dialogs import LineScreen
from tui.screens.page import Page
from tui.screens.paper_maker import PaperMaker
from tui.screens.paper_making import summary_page
from tui.widgets.text_page import Paragraph, ReadingPage


class PracticeSummaryScreen(Page):
    """The page to read, as it is printed."""

    EXPLAINS: ClassVar[str] = (
        "What was answered, by kind and by day, what goes wrong, and what to practise next."
        f" {key_name('summary-print')} makes it one page of"
        " PDF for a supervisor. It tells of practice with cases; it is not an assessment of competence."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings("summary-print", "back", "palette", "leave", "help")
    DEFAULT_CSS = "PracticeSummaryScreen > ReadingPage { height: 1fr; padding: 0 1; }"

    def __init__(self, who: str) -> None:
        super().__init__()
        self.who = who
        self._papers = PaperMaker(self, self.say)

    @property
    def topics(self) -> tuple[str, ...]:
        """The same as of the practice."""
        return ("screen.practice",)

    def compose_page(self) -> ComposeResult:
        yield ReadingPage()

    def on_mount(self) -> None:
        """Show the page."""
        try:
            text = summary_text(self._summary)
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        self.query_one(ReadingPage).show(Paragraph(line) for line in text.splitlines())
        self.query_one(ReadingPage).focus()

    def action_print(self) -> None:
        """Ask for a folder, and make the page."""
        folder = str(self.ohmfolio.services.packs)
        self.ask(LineScreen("Folder for the summary", folder, "One page of PDF."), self._make)

    def action_back(self) -> None:
        """Back to the practice."""
        self.ohmfolio.pop_screen()

    @property
    def _today(self) -> date:
        return self.ohmfolio.services.now().date()

    @property
    def _summary(self) -> Summary:
        services = self.ohmfolio.services
        return summary_of(self.who, answers_of(services.log, self.who, services.now()), cases(), self._today)

    def _make(self, folder: str) -> None:
        if self._papers.is_making:
            return
        services, summary = self.ohmfolio.services, self._summary
        self._papers.make(folder, lambda path: summary_page(summary, path, services), "the page")
