"""Which papers the work needs that puts a report right: the questions of every job, asked for this one."""

from collections.abc import Callable, Mapping
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType

from tui import theme
from tui.keys import bindings
from tui.question_form import Asking
from tui.routes import Origin, ToDecision
from tui.screens.page import Page
from tui.widgets.pick_list import ListCell, ListRow, PickList
from tui.widgets.text_page import Paragraph, TextPage


class RemedyScreen(Page):
    """Asks what the work will be until its papers are decided."""

    EXPLAINS: ClassVar[str] = (
        "What will be done to put it right decides its papers, as on any job: a new circuit or a board takes an"
        " Electrical Installation Certificate, one existing circuit altered a Minor Works. The job then begins with"
        " client, place and supply of the report, and the observations as the work to do. Escape goes back a question."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings("take", "back", "palette", "leave", "help")
    DEFAULT_CSS = """
    RemedyScreen > TextPage { height: auto; padding: 0 1; }
    RemedyScreen > PickList { height: 1fr; }
    """

    def __init__(self, what: str, origin: Origin) -> None:
        super().__init__()
        self._what = what
        self._origin = Origin(origin.prepared, self._begun(origin))
        self._is_begun = False
        self.asking = Asking.begun().with_given({"after_report": True})

    def compose_page(self) -> ComposeResult:
        yield TextPage()
        yield PickList(lines_a_row=2)

    def on_mount(self) -> None:
        """Ask the first question."""
        self._show()
        self.query_one(PickList).focus()

    @property
    def topics(self) -> tuple[str, ...]:
        """The question that is asked, then the screen."""
        return (f"question.{self.asking.question.id}", *super().topics)

    def on_screen_resume(self) -> None:
        """Once the job has begun there is nothing left to ask."""
        super().on_screen_resume()
        if self._is_begun:
            self.ohmfolio.pop_screen()

    def on_key(self, event: events.Key) -> None:
        """An answer's own key gives it."""
        if event.character and self._answer(event.character.casefold()):
            event.stop()
            event.prevent_default()

    def action_take(self) -> None:
        """Give the answer under the cursor."""
        if row := self.query_one(PickList).at:
            self._answer(row.id)

    def action_back(self) -> None:
        """One question back, and from the first to the report."""
        before = self.asking.back()
        if before is None:
            self.ohmfolio.pop_screen()
            return
        self.asking = before
        self._show()

    def _begun(self, origin: Origin) -> Callable[[str], None]:
        def begun(number: str) -> None:
            self._is_begun = True
            origin.begun(number)

        return begun

    def _keep(self, further: Mapping[str, object]) -> None:
        self.asking = self.asking.with_given(further)

    def _answer(self, key: str) -> bool:
        answered = self.asking.answered(key)
        if answered is None:
            return False
        self.asking, advice = answered
        self._show()
        if advice.ask is None:
            self.ohmfolio.go(ToDecision(advice, self.asking.answers, self._keep, self._origin))
        return True

    def _show(self) -> None:
        question = self.asking.question
        so_far = [Paragraph(words, theme.QUIET, theme.SIGN_GOOD) for _, words in self.asking.so_far]
        asked = [Paragraph(question.words, theme.HEAD), Paragraph(question.help, theme.QUIET)]
        self.query_one(TextPage).show([Paragraph(self._what, theme.HEAD), *so_far, *asked])
        rows = [
            ListRow(answer.key, (ListCell(answer.key.upper(), theme.HEAD, 1), ListCell(answer.words)))
            for answer in question.answers
        ]
        self.query_one(PickList).show(rows, at=self.asking.key_given or question.answers[0].key)
        self.say("Press the letter before an answer")
