"""Which papers the answers lead to and why, before anything is typed into a job."""

from collections.abc import Iterator, Mapping
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType

from domain.choice.answers import Answers
from domain.choice.choosing import FormChoice
from domain.choice.chosen import Chosen
from domain.form_set import FormSet
from domain.job import Job
from domain.job_log import JobLogError, Query
from domain.start import new_job
from tui import theme
from tui.keys import bindings
from tui.screens.asking import in_words
from tui.screens.page import Page
from tui.screens.writing import other_papers_form
from tui.widgets.text_page import Paragraph, ReadingPage

SAFETY = (
    "Work dead wherever it can be: isolate, lock off, prove dead. Test live only where you are competent to and the"
    " current standard, local rules and licensed practice allow it."
)


class DecisionScreen(Page):
    """The advice with its reasons. Enter starts the job; nobody has to agree."""

    EXPLAINS: ClassVar[str] = (
        "The papers this job needs by your answers, why, and why not the others. Enter starts the job with them."
        " If you know better, take other papers: the reason you give is kept and printed. Escape goes back to the"
        " questions with your answers kept."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings("start-job", "disagree", "back", "palette", "leave", "help")
    DEFAULT_CSS = "DecisionScreen > ReadingPage { height: 1fr; padding: 0 1; }"

    def __init__(self, advice: FormChoice, answers: Answers) -> None:
        super().__init__()
        assert advice.form_set is not None
        self.advice = advice
        self.chosen = Chosen(form_set=advice.form_set, advised=advice.form_set, answers=answers)

    def compose_page(self) -> ComposeResult:
        yield ReadingPage()

    def on_mount(self) -> None:
        """Show the advice."""
        self._show()

    def action_start(self) -> None:
        """Keep a new job and open it; firm and instruments are those of this person's job before."""
        desk = self.ohmfolio.desk
        try:
            before = self._job_before()
            job = new_job(
                self.chosen,
                on=desk.now().date(),
                firm=before.firm if before else None,
                instruments=before.instruments if before else None,
            )
            kept = desk.log.create(job, who=desk.who, at=desk.now())
        except JobLogError as error:
            self.say(f"Not started. {error}", bad=True)
            return
        self.ohmfolio.start_job(kept.number)

    def action_disagree(self) -> None:
        """Ask for other papers and the reason."""
        self.ask(other_papers_form(self.chosen), self._take_others)

    def action_back(self) -> None:
        """Back to the questions."""
        self.ohmfolio.pop_screen()

    def _take_others(self, typed: Mapping[str, str]) -> None:
        self.chosen = self.chosen.model_copy(
            update={"form_set": FormSet(typed["form_set"]), "because": typed["because"]}
        )
        self._show()

    def _job_before(self) -> Job | None:
        log, who = self.ohmfolio.desk.log, self.ohmfolio.desk.who
        last = log.last_opened(who=who) or next((line.number for line in log.find(Query(limit=1))), "")
        return log.load(last) if last else None

    def _show(self) -> None:
        self.query_one(ReadingPage).show(_paragraphs(self.advice, self.chosen))
        self.say("")


def _paragraphs(advice: FormChoice, chosen: Chosen) -> Iterator[Paragraph]:
    if chosen.is_override:
        yield Paragraph(f"{chosen.form_set.paper} ({chosen.form_set})", theme.HEAD)
        yield Paragraph(f"Taken against the advice, because: {chosen.because}", theme.ASKS)
        yield Paragraph()
    if advice.form_set:
        advised = f"Advised: {advice.form_set.paper}" if chosen.is_override else advice.form_set.paper
        yield Paragraph(f"{advised} ({advice.form_set})", theme.HEAD)
    yield Paragraph(advice.why)
    yield Paragraph()
    for form_set, why in advice.against.items():
        yield Paragraph(why, label=f"{'Or' if form_set in advice.also else 'Not'} {form_set}", label_width=11)
    yield Paragraph(advice.boundary, label="Boundary", label_width=11)
    yield Paragraph()
    for caution in advice.cautions:
        yield Paragraph(caution, label=theme.SIGN_SNAG, label_width=2)
    yield Paragraph(SAFETY, label=theme.SIGN_SNAG, label_width=2)
    yield Paragraph()
    if advice.source:
        yield Paragraph(advice.source.cited, theme.QUIET, "Source", theme.QUIET, 11)
    for question, answer in in_words(chosen.answers):
        yield Paragraph(f"{question} {answer}", theme.QUIET, "Answered", theme.QUIET, 11)
