"""What else is owed for a job, with the few questions that it hangs on."""

from collections.abc import Callable, Mapping
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType

from domain.choice.answers import Answers, Dates
from domain.choice.question import Question, typed_questions
from domain.dates import date_in
from domain.duties.clock import EVENTS
from domain.duties.owing import Owing
from tui import theme
from tui.keys import bindings
from tui.screens.ask import FormScreen
from tui.screens.asking import Asking
from tui.screens.owed_text import paragraphs
from tui.screens.page import Page
from tui.widgets.entry_lines import AskedLine
from tui.widgets.pick_list import Cell, PickList, Row
from tui.widgets.text_page import Paragraph, ReadingPage, TextPage


class OwedScreen(Page):
    """Asks one question at a time above the list of what is owed; each answer is kept at once."""

    EXPLAINS: ClassVar[str] = (
        "Whom to tell of the job, which other papers and copies it needs, how long to keep them, and the day each"
        " thing is due. Answers above settle more of it, by the key before each; they may be left open. Where the"
        " count of days is in doubt, both days are shown: work to the earlier. Escape goes back a question and then"
        " to where you came from; every answer is kept. Tab goes to the list, to read it."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings("owed-answer", "owed-dates", "back", "palette", "leave", "help")
    DEFAULT_CSS = """
    OwedScreen > TextPage { height: auto; padding: 0 1; }
    OwedScreen > .answers { height: auto; max-height: 8; margin: 0 0 1 0; }
    OwedScreen > ReadingPage { height: 1fr; }
    """

    def __init__(
        self,
        answers: Answers,
        owing: Callable[[Answers], Owing],
        keep: Callable[[Answers], bool],
        *,
        nation_assumed: bool = False,
    ) -> None:
        """`owing` tells what is owed by the answers; `keep` keeps what was answered here, False when it cannot."""
        super().__init__()
        self.owing = owing
        self.keep = keep
        self.nation_assumed = nation_assumed
        self.asking = Asking.on_what_is_owed(answers, self._next, nation_assumed=nation_assumed)

    def compose_page(self) -> ComposeResult:
        yield TextPage(id="question")
        yield PickList(classes="answers", lines_a_row=2)
        yield ReadingPage()

    def on_mount(self) -> None:
        """Ask the first question."""
        self._show()
        if self.nation_assumed:
            self.say(f"{self.asking.answers.nation}, as for your job before; Esc goes back to change it")

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
        lines = tuple(
            AskedLine(each.id, _date_label(each.id), _typed(self.asking.answers, each.id))
            for each in typed_questions()
            if each.id in Dates.model_fields
        )
        self.ask(
            FormScreen("The days that clocks run from; leave empty what has not happened", lines), self._take_dates
        )

    def action_back(self) -> None:
        """One question back, its answer kept; from the first, back to where one came from."""
        before = self.asking.reopened() if self.asking.is_done and self.asking.asked else self.asking.back()
        if before is None:
            self.ohmfolio.pop_screen()
            return
        self.asking = before
        self._show()

    def _next(self, answers: Answers) -> Question | None:
        return self.owing(answers).ask

    def _answer(self, key: str) -> bool:
        answered = self.asking.answered(key)
        if answered is None:
            return False
        if self.keep(answered[0].answers):
            self.asking = answered[0]
            self._show()
        return True

    def _take_dates(self, typed: Mapping[str, str]) -> None:
        wrong = next((text for text in typed.values() if text and date_in(text) is None), "")
        if wrong:
            self.say(f"{wrong!r} is no date; type it as 25/11/2026", bad=True)
            return
        days = {name: date_in(text) for name, text in typed.items()}
        answers = Answers.model_validate(dict(self.asking.answers) | days)
        if self.keep(answers):
            self.asking = self.asking.with_given(days)
            self._show()

    def _show(self) -> None:
        answers, listed = self.query_one(".answers", PickList), self.query_one(ReadingPage)
        if self.asking.is_done:
            text = "All is answered. Esc goes back" if self.asking.asked else "Nothing is left to ask"
            self.query_one("#question", TextPage).show([Paragraph(text, theme.HEAD)])
            answers.show(())
            answers.display = False
            listed.focus()
        else:
            question = self.asking.question
            help_ = Paragraph(question.help, theme.QUIET)
            self.query_one("#question", TextPage).show([Paragraph(question.words, theme.HEAD), help_])
            rows = [
                Row(each.key, (Cell(each.key.upper(), theme.HEAD, 1), Cell(each.words))) for each in question.answers
            ]
            answers.display = True
            answers.show(rows, at=self.asking.key_given or rows[0].id)
            answers.focus()
        known = self.asking.answers if self.asking.is_done else self.asking.before
        listed.show(paragraphs(self.owing(known)))
        self.say("")


def _date_label(name: str) -> str:
    return EVENTS[name].removeprefix("the day ").capitalize()


def _typed(answers: Answers, name: str) -> str:
    day = getattr(answers, name)
    return f"{day:%d/%m/%Y}" if day else ""
