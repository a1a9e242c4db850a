"""What else is owed for a job, with the few questions that it hangs on."""

from collections.abc import Callable, Mapping
from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import BindingType

from domain.duties.owing import Owing
from domain.forms.choice.answers import Answers, Dates
from tui import theme
from tui.keys import bindings
from tui.question_form import Asking
from tui.screens.owed_dates import dates_form, days_in
from tui.screens.owed_text import paragraphs
from tui.screens.page import Page
from tui.widgets.pick_list import ListCell, ListRow, PickList
from tui.widgets.text_page import Paragraph, ReadingPage, TextPage
from tui.widgets.turning_list import TurningList

_IN_SIGHT = 8
"""Lines there are for the answers."""


class OwedScreen(Page):
    """Asks one question at a time above the list of what is owed; each answer is kept at once."""

    EXPLAINS: ClassVar[str] = (
        "Whom to tell of the job, which other papers and copies it needs, how long to keep them, and the day each"
        " thing is due. Answers above settle more of it, by the key before each; they may be left open. Where the"
        " count of days is in doubt, both days are shown: work to the earlier. PgUp and PgDn turn the text under the"
        " question. Left goes back a question. Escape, at any time, goes back to where you came from; every answer is"
        " kept."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(
        *("owed-answer", "owed-done", "owed-before", "owed-dates", "back", "palette", "leave", "help")
    )
    DEFAULT_CSS = """
    OwedScreen > TextPage { height: auto; padding: 0 1; }
    OwedScreen > .answers { height: auto; max-height: 8; margin: 0 0 1 0; }
    OwedScreen > ReadingPage { height: 1fr; }
    """

    def __init__(
        self,
        asking: Asking,
        owing: Callable[[Answers], Owing],
        keep: Callable[[Asking], bool],
        *,
        told: frozenset[str] = frozenset(("issued_on",)),
    ) -> None:
        """`owing` tells what is owed by the answers; `keep` keeps what was answered here, False when it cannot.

        `told` names the days that the paper itself tells: they are not asked for.
        """
        super().__init__()
        self.owing = owing
        self.keep = keep
        self.told = told
        self.asking = asking

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002
        """Enter takes an answer while there is one to take, and leaves after that."""
        if action in {"take", "done"}:
            return self.asking.is_done is (action == "done")
        return action != "before" or self._before is not None

    def compose_page(self) -> ComposeResult:
        yield TextPage(id="question")
        yield TurningList(classes="answers", lines_a_row=2)
        yield ReadingPage()

    @property
    def topics(self) -> tuple[str, ...]:
        """The question that is asked, then the screen."""
        asked = () if self.asking.is_done else (f"question.{self.asking.question.id}",)
        return (*asked, *super().topics)

    def on_mount(self) -> None:
        """Ask the first question."""
        self._show()

    def on_key(self, event: events.Key) -> None:
        """An answer's own key gives it."""
        if event.character and not self.asking.is_done and self._answer(event.character.casefold()):
            event.stop()
            event.prevent_default()

    def action_take(self) -> None:
        """Give the answer under the cursor."""
        at = self.query_one(".answers", PickList).at
        if at and not self.asking.is_done:
            self._answer(at.id)

    def action_dates(self) -> None:
        """Ask for the days that clocks run from."""
        settled = self.asking.settled
        known = {name for name in Dates.model_fields if getattr(settled, name)}
        if days := (self.owing(settled).days | known) - self.told:
            self.ask(dates_form(settled, days), self._take_dates)
        else:
            self.say("No day is wanted: nothing that is owed runs from one")

    def action_before(self) -> None:
        """One question back, its answer kept."""
        if before := self._before:
            self.asking = before
            self._show()

    def action_done(self) -> None:
        """Back to where one came from, everything answered."""
        self.ohmfolio.pop_screen()

    def action_back(self) -> None:
        """Back to where one came from; every answer was kept when it was given."""
        self.ohmfolio.pop_screen()

    @on(TurningList.PageTurned)
    def on_page_turned(self, event: TurningList.PageTurned) -> None:
        """Turn the text under the question."""
        self.query_one(ReadingPage).action_page(event.way)

    @property
    def _before(self) -> Asking | None:
        return self.asking.reopened() if self.asking.is_done and self.asking.asked else self.asking.back()

    @property
    def _says(self) -> str:
        if self.asking.is_done:
            return "Enter or Esc goes back; every answer is kept"
        more = "; Down shows more" if len(self.asking.question.answers) > _IN_SIGHT else ""
        return f"Press the letter before an answer{more}; Esc leaves, and every answer is kept"

    def _answer(self, key: str) -> bool:
        answered = self.asking.answered(key)
        if answered is None:
            return False
        if self.keep(answered[0]):
            self.asking = answered[0]
            self._show()
        return True

    def _take_dates(self, typed: Mapping[str, str]) -> None:
        asking = self.asking.with_given(days_in(typed))
        if self.keep(asking):
            self.asking = asking
            self._show()

    def _show(self) -> None:
        answers, listed = self.query_one(".answers", PickList), self.query_one(ReadingPage)
        if self.asking.is_done:
            text = "All is answered" if self.asking.asked else "There is nothing to ask"
            self.query_one("#question", TextPage).show([Paragraph(text, theme.HEAD)])
            answers.show(())
            answers.display = False
            listed.focus()
        else:
            question = self.asking.question
            help_ = Paragraph(question.help, theme.QUIET)
            self.query_one("#question", TextPage).show([Paragraph(question.words, theme.HEAD), help_])
            rows = [
                ListRow(each.key, (ListCell(each.key.upper(), theme.HEAD, 1), ListCell(each.words)))
                for each in question.answers
            ]
            answers.display = True
            answers.show(rows, at=self.asking.key_given or rows[0].id)
            answers.focus()
        listed.show(paragraphs(self.owing(self.asking.settled)))
        self.show_keys()
        self.show_coach()
        self.say(self._says)
