"""Practice: short cases, answered by a number, with the right answer and its reason at once."""

from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType

from domain.coach.case import CaseKind
from domain.coach.kept import answers_of, keep, named, practisers
from domain.coach.sitting import Sitting
from domain.log.job_log import JobLogError
from domain.words import capitalised
from tui import theme
from tui.keys import bindings, key_name
from tui.routes import ToPracticeSummary
from tui.screens.dialogs import LineScreen
from tui.screens.page import Page
from tui.screens.practice_text import done_for_today, question_of, verdict_on
from tui.services import Services
from tui.widgets.text_page import Paragraph, ReadingPage, TextPage
from tui.widgets.wrapping import fitted


class PracticeScreen(Page):
    """One case after another. Each answer is kept before it is judged on the screen."""

    EXPLAINS: ClassVar[str] = (
        "Short cases to practise on. Read the story and press the number before your answer: what is right, why, and"
        " by which rule is shown at once, and Enter goes on. More of what went wrong comes soon; what went right comes"
        " again after longer and longer rests. Every answer is kept as you give it: leave at any time, and go on"
        f" tomorrow. {key_name('practice-summary')} shows how it stands. It is practice, not an assessment of competence."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(
        *("case-next", "practice-summary", "back", "palette", "leave", "help")
    )
    DEFAULT_CSS = """
    PracticeScreen > TextPage { height: auto; padding: 0 1; }
    PracticeScreen > ReadingPage { height: 1fr; }
    PracticeScreen.-coached.-answered > CoachPanel { display: none; }
    PracticeScreen.-coached.-answered.-broad > CoachPanel { display: block; }
    """

    def __init__(self, who: str) -> None:
        super().__init__()
        self.who = who
        self.sitting = Sitting(who=who, answered=(), case=None)

    @property
    def topics(self) -> tuple[str, ...]:
        """How this kind of case is thought through."""
        kind = self.sitting.case.kind.name.casefold() if self.sitting.case else ""
        return (f"screen.practice.{kind}",) if kind else ("screen.practice",)

    def compose_page(self) -> ComposeResult:
        yield TextPage(id="head")
        yield ReadingPage()

    def on_mount(self) -> None:
        """Put the case that is due first."""
        services = self.ohmfolio.services
        now = services.now()
        try:
            self.who = named(services.log, self.who) or " ".join(self.who.split())
            self.ohmfolio.coaching.begin_for(self.who)
            self.sitting = Sitting.begun(self.who, answers_of(services.log, self.who, now), now.date())
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        self._show()
        self.query_one(ReadingPage).focus()

    def on_key(self, event: events.Key) -> None:
        """The number before an answer gives it."""
        given = self.sitting.answering(event.character or "")
        if given is None:
            return
        event.stop()
        event.prevent_default()
        services, at = self.ohmfolio.services, self.ohmfolio.services.now()
        try:
            keep(services.log, self.who, given, at)
        except JobLogError as error:
            self.say(f"Not kept, so not counted. {error}", bad=True)
            return
        self.sitting = self.sitting.with_answer(given, at)
        self._show()

    def action_next_case(self) -> None:
        """On to the next case."""
        if self.sitting.given:
            self.sitting = self.sitting.going_on(self.ohmfolio.services.now().date())
            self._show()
        elif self.sitting.case:
            self.say("Press the number before the answer you think is right")

    def action_summary(self) -> None:
        """Show how it stands."""
        self.ohmfolio.go(ToPracticeSummary(self.who))

    def action_back(self) -> None:
        """Back to the first screen; everything answered is kept."""
        self.ohmfolio.coaching.end_practice()
        self.ohmfolio.pop_screen()

    def _show(self) -> None:
        sitting, on = self.sitting, self.ohmfolio.services.now().date()
        head = [Paragraph(sitting.progress(on), theme.QUIET, f"Practice of {fitted(self.who, 28)}:")]
        if sitting.case is None:
            text, says = list(done_for_today(sitting)), ""
        else:
            head.append(Paragraph(_about(sitting.case.kind, goes_on=bool(sitting.case.after)), theme.QUIET))
            text = [*question_of(sitting), Paragraph(), *verdict_on(sitting, on)]
            says = "Enter goes on" if sitting.given else "Press the number before the right answer"
        self.query_one("#head", TextPage).show(head)
        self.query_one(ReadingPage).show(text)
        self.set_class(sitting.given is not None, "-answered")
        self.say(says)
        self.show_coach()


def _about(kind: CaseKind, *, goes_on: bool) -> str:
    about = capitalised(kind)
    return f"{about}; the same visit goes on" if goes_on else about


def who_question(services: Services) -> LineScreen:
    """Asks who practises."""
    about = "Answers are kept under this name. It is practice, not an assessment of competence."
    if known := practisers(services.log):
        about += f" Practised here before: {', '.join(known[-6:])}."
    return LineScreen("Who practises?", services.who, about)
