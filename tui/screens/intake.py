"""The first screen: what was done, or which job to go on with."""

from collections.abc import Mapping
from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import BindingType

from domain.forms.choice.choosing import FormChoice
from domain.forms.form_set import FormSet
from domain.log.job_log import JobLine, JobLogError, Query
from tui import theme
from tui.keys import bindings, key_name
from tui.question_form import Asking
from tui.routes import ToDecision, ToDue, ToFind, ToKeeping, ToPractice, ToRegisters, ToWhoPractises
from tui.screens.page import Page
from tui.services import where_drafts_are
from tui.widgets.job_rows import row_for
from tui.widgets.pick_list import ListCell, ListRow, PickList
from tui.widgets.text_page import Paragraph, TextPage


class IntakeScreen(Page):
    """Asks question after question until the papers are decided; under it, the newest jobs."""

    EXPLAINS: ClassVar[str] = (
        "Every job begins here. Say what was done: press the letter before the answer that fits. After a few answers"
        " you are told which papers the job needs and why; the job starts with them, and nothing else is typed before"
        " that. Its steps follow, and at the end you sign and issue. To go on with a job below, come to it with Down or"
        " Tab and press Enter; the one you were in last stands first. Escape goes back a question. All is saved as you"
        f" go. {key_name('keeping')} keeps the log whole and carries jobs. New to the trade? {key_name('practice')} puts cases to practise on, and {key_name('coach')} has the coach"
        " explain each box."
    )
    STAYS: ClassVar[tuple[str, ...]] = ("coach", "find", "due", "registers", "practice", "leave")
    BINDINGS: ClassVar[list[BindingType]] = bindings(
        *("take", "aside-row", "find", "due", "registers", "keeping", "practice", "back", "palette", "leave", "help")
    )
    DEFAULT_CSS = """
    IntakeScreen > TextPage { height: auto; padding: 0 1; }
    IntakeScreen > .answers { height: auto; max-height: 11; }
    IntakeScreen > #name { margin: 0 0 1 0; }
    IntakeScreen > #leads { margin: 0 0 1 0; }
    IntakeScreen > .jobs { height: 1fr; }
    IntakeScreen.-jobs.-high > #name, IntakeScreen.-jobs.-high.-begins > #leads { display: none; }
    IntakeScreen.-jobs.-high > #leads { margin: 0; }
    IntakeScreen.-coached > #name { display: none; }
    IntakeScreen.-coached > #given { display: none; }
    IntakeScreen.-coached > #leads { display: none; }
    IntakeScreen.-coached > .answers { max-height: 8; }
    """

    def __init__(self, *, practises: bool = False) -> None:
        """`practises`: somebody came to practise, and goes there first."""
        super().__init__()
        self._practises = practises
        self.asking = Asking.begun()
        self._jobs: tuple[JobLine, ...] = ()
        self._where: Mapping[str, str] = {}
        self._more = True
        self._in_job = False

    def compose_page(self) -> ComposeResult:
        yield TextPage(id="name")
        yield TextPage(id="given")
        yield TextPage(id="question")
        yield PickList(classes="answers", lines_a_row=2)
        yield TextPage(id="leads")
        yield TextPage(id="head")
        yield PickList(
            classes="jobs",
            lines_a_row=3,
            empty="No job yet; the answers above start one."
            f" New to it? {key_name('practice')} practises, {key_name('help')} explains",
        )

    def on_mount(self) -> None:
        """Ask the first question; the cursor stands on the job this person was in last."""
        self._show_question()
        self.query_one("#name", TextPage).show(
            [Paragraph("certificates and reports for electrical work", label="Ohmfolio")]
        )
        self._load_jobs()
        self.query_one(".jobs" if self._jobs else ".answers").focus()
        if self._practises:
            self.call_after_refresh(self.action_practice)
        elif self.ohmfolio.services.letters and not self._jobs:
            self.call_after_refresh(self._ask_letters)

    def _ask_letters(self) -> None:
        """Ask once, in a log that has just been begun, what its numbers begin with."""
        # Loaded where a log begins, and in no other start.
        from tui.screens.letters import LettersScreen

        def take(letters: str) -> None:
            self.say(f"Jobs are numbered from {letters}-0001")

        self.ask(LettersScreen(self.ohmfolio.services), take)

    def on_screen_resume(self) -> None:
        """Jobs may have changed meanwhile; after a job the cursor is on the one that was left."""
        self._load_jobs()
        if self._in_job and self.is_active and self._jobs:
            self._in_job = False
            jobs = self.query_one(".jobs", PickList)
            jobs.action_ends(0)
            jobs.focus()

    @property
    def topics(self) -> tuple[str, ...]:
        """The question that is asked, then the screen."""
        return (f"question.{self.asking.question.id}", *super().topics)

    def begin_again(self) -> None:
        """Put the first question, once a job has been started from the answers."""
        self.asking = Asking.begun()
        self._show_question()
        self.go_into_job()

    def go_into_job(self) -> None:
        """Somebody goes into a job and will come back from it."""
        self._in_job = True

    def on_key(self, event: events.Key) -> None:
        """An answer's own key gives it."""
        if event.character and self._answer(event.character.casefold()):
            event.stop()
            event.prevent_default()

    def action_take(self) -> None:
        """Give the answer, or open the job, under the cursor."""
        answers, jobs = self.query_one(".answers", PickList), self.query_one(".jobs", PickList)
        if answers.has_focus and answers.at:
            self._answer(answers.at.id)
        elif jobs.at:
            self.ohmfolio.open_job(jobs.at.id)

    def action_lay_aside(self) -> None:
        """Lay the draft under the cursor aside."""
        services, jobs = self.ohmfolio.services, self.query_one(".jobs", PickList)
        if not jobs.has_focus or not jobs.at:
            self.say("Come to a job below with Down or Tab first; a draft there is laid aside")
            return
        # What edits a job is not loaded with the first screen.
        from tui.screens.laying_aside import laid_aside

        try:
            told = laid_aside(services, jobs.at.id)
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        self._load_jobs()
        self.say(told)

    def action_find(self) -> None:
        """Search every job."""
        self.ohmfolio.go(ToFind())

    def action_due(self) -> None:
        """List what is due for all jobs."""
        self.ohmfolio.go(ToDue())

    def action_practice(self) -> None:
        """Ask who practises, and practise on cases."""
        try:
            self.ohmfolio.go(ToWhoPractises(), self._practise)
        except JobLogError as error:
            self.say(str(error), bad=True)

    def _practise(self, who: str | None) -> None:
        if who is not None:
            self.ohmfolio.go(ToPractice(who))

    def action_registers(self) -> None:
        """Open the registers."""
        self.ohmfolio.go(ToRegisters())

    def action_keeping(self) -> None:
        """Copy the log, carry jobs, and look whether all is whole."""
        self.ohmfolio.go(ToKeeping())

    def action_back(self) -> None:
        """One question back, its answer kept."""
        before = self.asking.back()
        if before is None:
            self.say(f"This is the first question; {key_name('leave')} leaves the program")
            return
        self.asking = before
        self._show_question()

    @on(PickList.LeftBy, ".answers")
    def on_answers_left(self, event: PickList.LeftBy) -> None:
        """Down from the last answer comes to the first job."""
        if event.way > 0 and self._jobs:
            jobs = self.query_one(".jobs", PickList)
            jobs.action_ends(0)
            jobs.focus()

    @on(PickList.LeftBy, ".jobs")
    def on_jobs_left(self, event: PickList.LeftBy) -> None:
        """Up from the first job comes to the last answer."""
        if event.way < 0:
            answers = self.query_one(".answers", PickList)
            answers.action_ends(-1)
            answers.focus()

    @on(PickList.Moved, ".jobs")
    def on_job_reached(self, event: PickList.Moved) -> None:
        """Older jobs are fetched when the cursor comes to the last one."""
        if event.row and self._more and self._jobs and event.row.id == self._jobs[-1].number:
            self._load_older()

    def _keep(self, further: Mapping[str, object]) -> None:
        self.asking = self.asking.with_given(further)

    def _answer(self, key: str) -> bool:
        answered = self.asking.answered(key)
        if answered is None:
            return False
        self.asking, advice = answered
        self._show_question()
        if advice.ask is None:
            self.ohmfolio.go(ToDecision(advice, self.asking.answers, self._keep))
        else:
            self.query_one(".answers").focus()
        return True

    def _show_question(self) -> None:
        question, given = self.asking.question, self.asking.key_given
        so_far = [Paragraph(words, theme.QUIET, theme.SIGN_GOOD) for _, words in self.asking.so_far]
        help_ = Paragraph(question.help, theme.QUIET)
        self.query_one("#given", TextPage).show(so_far)
        self.query_one("#question", TextPage).show([Paragraph(question.words, theme.HEAD), help_])
        rows = [
            ListRow(answer.key, (ListCell(answer.key.upper(), theme.HEAD, 1), ListCell(answer.words)))
            for answer in question.answers
        ]
        self.query_one(".answers", PickList).show(rows, at=given or question.answers[0].key)
        self.query_one("#leads", TextPage).show([Paragraph(_leads_in_words(self.asking.advice), label="So far:")])
        self.set_class(not self.asking.so_far, "-begins")
        self.show_coach()
        first = "Press a letter, or Enter on a job"
        says = "Press a letter; Esc goes back, answers are kept" if self.asking.so_far else first
        self.say(f"{says}; Down shows more" if len(rows) > self._answers_in_sight else says)

    @property
    def _answers_in_sight(self) -> int:
        return 8 if self.has_class("-coached") else 11

    def _load_jobs(self) -> None:
        services = self.ohmfolio.services
        try:
            newest = services.log.find(Query())
            last = services.log.last_opened(who=services.who)
            mine = next((line for line in newest if line.number == last), services.log.line(last) if last else None)
            self._where = where_drafts_are(services, filter(None, (*newest, mine)))
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        mine = None if mine and mine.laid_aside else mine
        first = (mine,) if mine else ()
        self._jobs = (*first, *(line for line in newest if not mine or line.number != mine.number))
        self._more = len(newest) == Query().limit
        self._show_head()
        self._show_jobs()

    def _show_head(self) -> None:
        head = [Paragraph("or go on with a job", theme.HEAD)]
        if (place := self.ohmfolio.services.began_in) and not self._jobs:
            # Who mistyped the place of a log sees it before any job is kept there.
            new = f"A new job log begins in {place}. If another was meant, {key_name('leave')} leaves, nothing kept."
            head.insert(0, Paragraph(new, label="!"))
        self.query_one("#head", TextPage).show(head)

    def _load_older(self) -> None:
        try:
            older = self.ohmfolio.services.log.find(Query(before=self._jobs[-1].number))
            self._where = {**self._where, **where_drafts_are(self.ohmfolio.services, older)}
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        known = {line.number for line in self._jobs}
        self._more = len(older) == Query().limit
        self._jobs = (*self._jobs, *(line for line in older if line.number not in known))
        self._show_jobs()

    def _show_jobs(self) -> None:
        """In a low window what the program is and where no answer leads yet give way to the jobs."""
        self.set_class(bool(self._jobs), "-jobs")
        rows = [row_for(line, where=self._where.get(line.number, "")) for line in self._jobs]
        self.query_one(".jobs", PickList).show(rows)


def _leads_in_words(advice: FormChoice) -> str:
    names = [form_set.profile.title for form_set in advice.leads_to]
    if len(names) == sum(each.profile.is_advised for each in FormSet):
        names = ["any of the three form sets"]
    if advice.may_need_none:
        names.append("none of them")
    return f"{' or '.join(names)}{' with a certificate beside it' if advice.with_certificate else ''}"
