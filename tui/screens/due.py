"""What is due for all jobs, soonest first, and which jobs still need an answer to tell."""

from datetime import date
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType

from domain.choice.answers import Answers
from domain.dated import dated
from domain.dates import written
from domain.duties.due_list import DueLine, DueList, Untold, due_in
from domain.duties.noted import TOPIC, Note, Notes, noted
from domain.duties.of_job import facts_in, owing_by
from domain.duties.owing import Owing
from domain.job import Job
from domain.job_log import JobLogError
from tui import theme
from tui.keys import bindings
from tui.screens.ask import ConfirmScreen
from tui.screens.asking import Asking
from tui.screens.owed import OwedScreen
from tui.screens.owed_text import about
from tui.screens.page import Page
from tui.widgets.pick_list import Cell, PickList, Row
from tui.widgets.text_page import Paragraph, TextPage


class DueScreen(Page):
    """The list, and under it the line under the cursor in full."""

    EXPLAINS: ClassVar[str] = (
        "Everything that has a day: notices, copies, work a report asks for, papers to keep, the next inspection."
        " The soonest stands first; what is late has a cross. D notes that a thing has been done and takes it off the"
        " list. W shows all that is owed for the job and asks what that hangs on, such as the nation and whether the"
        " home is let; it can be answered after the document was issued too."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(
        *("due-open", "due-met", "due-owed", "back", "palette", "leave", "help")
    )
    DEFAULT_CSS = """
    DueScreen > #head { height: 1; padding: 0 1; }
    DueScreen > PickList { height: 1fr; }
    DueScreen > #about { height: 9; padding: 0 1; border-top: solid ansi_default; }
    """

    def __init__(self) -> None:
        super().__init__()
        self.due = DueList(lines=(), untold=())

    def compose_page(self) -> ComposeResult:
        yield TextPage(id="head")
        yield PickList(empty="Nothing is due")
        yield TextPage(id="about")

    def on_mount(self) -> None:
        """List everything."""
        self.query_one("#head", TextPage).show([Paragraph(f"What is due, seen on {written(self._today)}", theme.HEAD)])
        self.query_one(PickList).focus()

    def on_screen_resume(self) -> None:
        """Something may have been answered or issued meanwhile."""
        self._load()

    @on(PickList.Moved)
    def show_line(self) -> None:
        """Tell the line under the cursor in full."""
        line = self._line
        paragraphs = list(about(line.owed)) if isinstance(line, DueLine) else []
        if isinstance(line, Untold):
            paragraphs = [Paragraph(f"{line.ask.words} W asks it: what the law wants for this job hangs on it.")]
        self.query_one("#about", TextPage).show(paragraphs)

    def action_open_due(self) -> None:
        """Open the job under the cursor."""
        if line := self._line:
            self.ohmfolio.open_job(line.number)

    def action_met(self) -> None:
        """Note that it has been done."""
        line = self._line
        if not isinstance(line, DueLine):
            self.say("There is nothing to be done here but to answer; W asks")
            return
        question = ConfirmScreen(f"Done? {line.owed.duty.what}", f"{line.number}, due by {written(line.by)}")
        self.confirm(question, lambda: self._note(Note(number=line.number, met=line.owed.duty.id, by=line.by)))

    def action_owed(self) -> None:
        """Show all that is owed for the job."""
        line = self._line
        if line is None:
            return
        try:
            job = self.ohmfolio.desk.log.load(line.number)
            texts = [jotting.text for jotting in self.ohmfolio.desk.log.jottings(TOPIC)]
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        if job:
            self.ohmfolio.push_screen(self._owed_screen(job, noted(texts).get(job.number, Notes())))

    def action_back(self) -> None:
        """Back to the first screen."""
        self.ohmfolio.pop_screen()

    def _owed_screen(self, job: Job, notes: Notes) -> OwedScreen:
        told, known = dated(job), facts_in(job, notes)

        def owing(answers: Answers) -> Owing:
            return owing_by(told._replace(answers=answers), Notes(met=notes.met))

        def keep(asking: Asking) -> bool:
            nonlocal known
            settled = asking.settled
            learnt = {name: given for name, given in settled if given != getattr(known, name)}
            if not self._note(Note(number=job.number, answers=Answers.model_validate(learnt))):
                return False
            known = settled
            return True

        return OwedScreen(Asking.on_what_is_owed(known, lambda answers: owing(answers).ask), owing, keep)

    def _note(self, note: Note) -> bool:
        desk = self.ohmfolio.desk
        try:
            desk.log.jot(TOPIC, note.model_dump_json(exclude_defaults=True), who=desk.who, at=desk.now())
        except JobLogError as error:
            self._say_on_top(f"Not saved. {error}")
            return False
        self._load()
        return True

    def _say_on_top(self, trouble: str) -> None:
        top = self.ohmfolio.screen
        (top if isinstance(top, Page) else self).say(trouble, bad=True)

    def _load(self) -> None:
        try:
            self.due = due_in(self.ohmfolio.desk.log)
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        rows = [_row(str(at), line, self._today) for at, line in enumerate(self.due.lines)]
        if self.due.untold:
            rows.append(Row("untold", (Cell("An answer is needed to tell more", theme.HEAD),), heading=True))
        rows += [_untold_row(line) for line in self.due.untold]
        self.query_one(PickList).show(rows)
        self.show_line()

    @property
    def _line(self) -> DueLine | Untold | None:
        at = self.query_one(PickList).at
        if at is None:
            return None
        if at.id.isdecimal():
            return self.due.lines[int(at.id)]
        return next((line for line in self.due.untold if line.number == at.id), None)

    @property
    def _today(self) -> date:
        return self.ohmfolio.desk.now().date()


def _row(row_id: str, line: DueLine, today: date) -> Row:
    left = (line.by - today).days
    sign, style = (theme.SIGN_FAILS, theme.FAILS) if left < 0 else (theme.SIGN_SNAG, theme.ASKS)
    soon = left <= 7
    says = f"{-left} days late" if left < 0 else "today" if left == 0 else f"in {left} days"
    return Row(
        row_id,
        (
            Cell(sign if soon else "", style if soon else theme.PLAIN, 1),
            Cell(f"{line.by:%d/%m/%Y}", theme.PLAIN, 10),
            Cell(says, style if soon else theme.QUIET, 14),
            Cell(line.number, theme.HEAD, 7),
            Cell(f"{line.owed.duty.what}"),
        ),
    )


def _untold_row(line: Untold) -> Row:
    return Row(
        line.number,
        (
            Cell(theme.SIGN_ASKS, theme.ASKS, 1),
            Cell(line.number, theme.HEAD, 7),
            Cell(line.client or "no client yet", theme.PLAIN, 24),
            Cell(line.ask.words, theme.QUIET),
        ),
    )
