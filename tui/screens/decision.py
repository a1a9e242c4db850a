"""Which papers the answers lead to and why, before anything is typed into a job."""

from collections.abc import Callable, Mapping
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType

from domain.duties.owing import Owing, owing
from domain.editing.visit import linked, minor_works_each
from domain.forms.choice.answers import Answers
from domain.forms.choice.choosing import FormChoice, choose
from domain.forms.choice.chosen import ChosenPapers
from domain.forms.choice.question import Question
from domain.forms.form_set import FormSet
from domain.job.job import Job
from domain.job.next_due import done_on
from domain.job.start import new_job
from domain.log.job_log import JobLogError, Query
from tui.job_page import JobPage
from tui.keys import bindings, key_name
from tui.question_form import Asking
from tui.routes import Origin, ToOwed
from tui.screens.decision_text import paragraphs
from tui.screens.dialogs import ConfirmScreen
from tui.screens.edit_forms import other_papers_form
from tui.screens.page import Page
from tui.screens.seen_form import seen_form, seen_in
from tui.screens.visit_form import circuits_in, several_form, shared_in
from tui.widgets.foot import WAYS_OUT
from tui.widgets.text_page import ReadingPage


class DecisionScreen(Page):
    """The advice with its reasons. Enter starts the job; nobody has to agree."""

    EXPLAINS: ClassVar[str] = (
        "The papers this job needs by your answers, why, and why not the others. Enter starts the job with them."
        f" If you know better, take other papers: the reason you give is kept and printed. {key_name('owed')} shows what else"
        " is owed, to whom"
        f" and by when. {key_name('each')} starts a minor works for each circuit where several were altered. Escape goes back to the"
        " questions with your answers kept."
    )
    STAYS: ClassVar[tuple[str, ...]] = ("coach", *WAYS_OUT)
    BINDINGS: ClassVar[list[BindingType]] = bindings(
        *("start-job", "owed", "each", "disagree", "back", "palette", "leave", "help")
    )
    DEFAULT_CSS = "DecisionScreen > ReadingPage { height: 1fr; padding: 0 1; }"

    def __init__(
        self,
        advice: FormChoice,
        answers: Answers,
        origin: Origin | None = None,
        *,
        keep: Callable[[Mapping[str, object]], None],
    ) -> None:
        """`keep` hears what was answered on what else is owed, for when one goes back and comes again."""
        super().__init__()
        self._keep = keep
        self.origin = origin
        self.advice = advice
        self.asking = Asking.on_what_is_owed(answers, self._next)
        self.answers = self.asking.settled
        self.chosen = self._as_advised()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002
        """A job that comes from somewhere is started by itself."""
        return not (action == "each" and self.origin)

    def compose_page(self) -> ComposeResult:
        yield ReadingPage()

    def on_mount(self) -> None:
        """Show the advice, and what building control and the distributor are owed as far as it is known."""
        self._show()

    def action_start(self) -> None:
        """Start the job; where the work must not go ahead as it stands, after a question."""
        chosen = self.chosen
        if self.answers.other == "report-elsewhere":
            self.ask(seen_form(), self._keep_seen)
        elif chosen is None:
            why = "The work must not go ahead as it stands" if self.advice.stop else "No form set is needed"
            self.say(f"{why}, so no job is started; {key_name('disagree')} takes papers all the same")
        elif self.advice.stop:
            question = ConfirmScreen("The work must not go ahead as it stands. Start its papers all the same?")
            self.confirm(question, lambda: self._start(chosen))
        else:
            self._start(chosen)

    def action_disagree(self) -> None:
        """Ask for other papers and the reason."""
        self.ask(other_papers_form(self.chosen), self._take_others)

    def action_owed(self) -> None:
        """Show what else is owed, and ask what that hangs on."""
        self.ohmfolio.go(ToOwed(self.asking, self._owing, self._keep_answers))

    def action_each(self) -> None:
        """Ask for the circuits, and for what their minor works share."""
        if FormSet.MEIWC not in self.advice.also or self.advice.papers[0].form_set is not FormSet.EIC:
            self.say("Several minor works are for several circuits altered on one visit")
            return
        self.ask(several_form(), self._start_each)

    def action_back(self) -> None:
        """Back to the questions."""
        self.ohmfolio.pop_screen()

    def _start(self, chosen: ChosenPapers) -> None:
        """Open a new job; firm and instruments are those of this person's job before.

        It is kept at once where something was typed for it already: a reason, a day, or what it puts right.
        """
        services = self.ohmfolio.services
        try:
            before = self._job_before()
            job = new_job(
                chosen,
                on=services.now().date(),
                firm=before.firm if before else None,
                instruments=before.instruments if before else None,
                tester=before.boards[0].tested_by if before and before.boards else "",
            )
            job = self.origin.prepared(job) if self.origin else job
            if not (self.origin or chosen.because.strip() or done_on(job)):
                self.ohmfolio.start_job("", begun=job)
                return
            kept = services.log.create(job, who=services.who, at=services.now())
        except JobLogError as error:
            self.say(f"Not started. {error}", bad=True)
            return
        if self.origin:
            self.origin.begun(kept.number)
        self.ohmfolio.start_job(kept.number)

    def _start_each(self, typed: Mapping[str, str]) -> None:
        """Keep a minor works for each circuit, each naming all of them, and open the first."""
        services, circuits = self.ohmfolio.services, circuits_in(typed)
        if len(circuits) < 2:
            self.say("Name each circuit, with commas between them; for one circuit go back and answer One")
            return
        try:
            before = self._job_before()
            jobs = minor_works_each(
                self.answers,
                circuits,
                shared_in(typed),
                on=services.now().date(),
                firm=before.firm if before else None,
                instruments=before.instruments if before else None,
            )
            kept = [services.log.create(job, who=services.who, at=services.now()) for job in jobs]
            numbers = tuple(job.number for job in kept)
            for job in kept:
                services.log.edit(job.number, linked(job, numbers), who=services.who, at=services.now())
        except JobLogError as error:
            self.say(f"Not all were started. {error}", bad=True)
            return
        self.ohmfolio.start_job(numbers[0])

    def _keep_seen(self, typed: Mapping[str, str]) -> None:
        """Keep another firm's report, and go to its observations, which are typed next."""
        services = self.ohmfolio.services
        try:
            kept = services.log.create(
                seen_in(typed, self.answers, on=services.now().date()), who=services.who, at=services.now()
            )
        except JobLogError as error:
            self.say(f"Not kept. {error}", bad=True)
            return
        self.ohmfolio.start_job(kept.number, JobPage.RAISED)

    def _as_advised(self) -> ChosenPapers | None:
        papers = self.advice.starts
        return ChosenPapers(form_set=papers, advised=papers, answers=self.answers) if papers else None

    def _owing(self, answers: Answers) -> Owing:
        return owing(answers, choose(answers))

    def _next(self, answers: Answers) -> Question | None:
        return self._owing(answers).ask

    def _keep_answers(self, asking: Asking) -> bool:
        self._keep(asking.further)
        self._take(asking)
        return True

    def _take(self, asking: Asking) -> None:
        self.asking, self.answers = asking, asking.settled
        if (advice := choose(self.answers)).is_decided:
            self.advice = advice
        if self.chosen and self.chosen.is_override:
            self.chosen = self.chosen.model_copy(update={"answers": self.answers, "advised": self.advice.starts})
        else:
            self.chosen = self._as_advised()
        self._show()

    def _take_others(self, typed: Mapping[str, str]) -> None:
        self.chosen = ChosenPapers(
            form_set=FormSet(typed["form_set"]),
            advised=self.advice.starts,
            answers=self.answers,
            because=typed["because"],
        )
        self._show()

    def _job_before(self) -> Job | None:
        log, who = self.ohmfolio.services.log, self.ohmfolio.services.who
        last = log.last_opened(who=who) or next((line.number for line in log.find(Query(limit=1))), "")
        return log.load(last) if last else None

    def _show(self) -> None:
        self.query_one(ReadingPage).show(paragraphs(self.advice, self.chosen, self.answers, self._owing(self.answers)))
        self.say("")
