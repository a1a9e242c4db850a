"""The visit sheet of a job, to read on site, and as one page of PDF."""

from collections.abc import Iterator
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType

from domain.coach.visit_sheet import DEFERS, Visit, visit_parts
from domain.job.job import Job
from tui import theme
from tui.keys import bindings, key_name
from tui.screens.dialogs import LineScreen
from tui.screens.page import Page
from tui.screens.paper_maker import PaperMaker
from tui.screens.paper_making import visit_sheet_of
from tui.widgets.text_page import Paragraph, ReadingPage

_LABELS = 16


class VisitSheetScreen(Page):
    """Isolation points, what stays on, what can hurt, the order of tests, instruments, what was agreed."""

    EXPLAINS: ClassVar[str] = (
        "What to have in hand on site, drawn from the job as it stands: where it is isolated, what must not be switched off"
        " without asking, what can hurt here, the order of tests, the instruments, and what was agreed."
        f" {key_name('visit-print')} makes it one page of PDF. It repeats what the job tells; on site look for yourself."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings("visit-print", "back", "palette", "leave", "help")
    DEFAULT_CSS = "VisitSheetScreen > ReadingPage { height: 1fr; padding: 0 1; }"

    def __init__(self, job: Job) -> None:
        super().__init__()
        self.job = job
        self._papers = PaperMaker(self, self.say)

    def compose_page(self) -> ComposeResult:
        yield ReadingPage()

    def on_mount(self) -> None:
        """Show it."""
        page = self.query_one(ReadingPage)
        page.show(_paragraphs(self._visit))
        page.focus()
        self.show_keys()
        self.say(f"{self.job.number}: {key_name('visit-print')} prints it on one page")

    def action_print(self) -> None:
        """Ask for a folder, and make the page."""
        folder = str(self.ohmfolio.services.packs)
        self.ask(LineScreen("Folder for the visit sheet", folder, "One page of PDF."), self._make)

    def action_back(self) -> None:
        """Back to the job."""
        self.ohmfolio.pop_screen()

    @property
    def _visit(self) -> Visit:
        return Visit(job=self.job, on=self.ohmfolio.services.now().date())

    def _make(self, folder: str) -> None:
        if not self._papers.is_making:
            services, visit = self.ohmfolio.services, self._visit
            self._papers.make(folder, lambda path: visit_sheet_of(visit, path, services), "the visit sheet")


def _paragraphs(visit: Visit) -> Iterator[Paragraph]:
    for part in visit_parts(visit):
        yield Paragraph(part.heading, theme.HEAD)
        for label, text in part.lines:
            yield Paragraph(text, label=label, label_style=theme.QUIET, label_width=_LABELS)
        yield Paragraph()
    yield Paragraph(DEFERS, theme.QUIET)
