"""What is due for all jobs, soonest first, and which jobs still need an answer to tell."""

from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType

from domain.dates import as_typed, date_in, written
from domain.duties.duty_facts import duty_facts
from domain.duties.noted import TOPIC, DutyNote, DutyNotes, noted
from domain.duties.of_job import facts_in, owing_by
from domain.duties.owing import Owing
from domain.editing.commands import Declined, Enter
from domain.forms.choice.answers import Answers
from domain.job.job import Job
from domain.log.due_days import DueAsked
from domain.log.due_list import LATE, DueLine, Untold, counts_in, due_in, untold_in
from domain.log.job_log import JobLogError
from domain.place import Place
from tui import theme
from tui.keys import bindings, key_name
from tui.question_form import Asking
from tui.routes import ToOwed
from tui.screens.dialogs import ConfirmScreen, FormScreen, LineScreen
from tui.screens.due_rows import about_line, rows_of
from tui.screens.page import Page
from tui.widgets.entry_lines import AskedLine
from tui.widgets.pick_list import PickList
from tui.widgets.text_page import Paragraph, TextPage

_PAGE = 50


class DueScreen(Page):
    """The list, and under it the line under the cursor in full."""

    EXPLAINS: ClassVar[str] = (
        "Everything that has a day: notices, copies, work a report asks for, papers to keep, the next inspection."
        " What is late stands first and has a cross, then comes month after month; papers that are only kept until a day"
        " stand apart. E writes the list as a table and as a calendar for other programs. D notes that a thing has been done, on which day"
        " and in what words, and takes it off the list; V shows what was noted so, and D there takes it back. W shows all that is owed for the job and asks what that hangs on, such as the nation and whether the"
        " home is let; it can be answered after the document was issued too."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(
        *("due-open", "due-met", "due-done", "due-owed", "due-export", "back", "palette", "leave", "help")
    )
    DEFAULT_CSS = """
    DueScreen > #head { height: 1; padding: 0 1; }
    DueScreen > PickList { height: 1fr; }
    DueScreen > #about { height: 10; padding: 0 1; border-top: solid ansi_default; }
    DueScreen.-broad > #about { height: 7; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._due: tuple[DueLine, ...] = ()
        self._untold: tuple[Untold, ...] = ()
        self._parts: list[DueAsked] = []
        self._more_untold = False
        self._counts: Mapping[str, int] = {}
        self._last = ""
        self._shows_done = False
        self._listed: dict[str, DueLine | Untold] = {}

    def compose_page(self) -> ComposeResult:
        yield TextPage(id="head")
        yield PickList(lines_a_row=4, empty="Nothing is due")
        yield TextPage(id="about")

    def on_mount(self) -> None:
        """List everything."""
        self.query_one(PickList).focus()

    def on_screen_resume(self) -> None:
        """Something may have been answered or issued meanwhile."""
        self._load()

    @on(PickList.Moved)
    def show_line(self) -> None:
        """Tell the line under the cursor in full."""
        line = self._line
        self.query_one("#about", TextPage).show(about_line(line) if line else ())
        at = self.query_one(PickList).at
        # More is fetched when the cursor comes to the last one.
        if at and at.id == self._last and (self._parts or self._more_untold):
            self._fetch(_PAGE, _PAGE)

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
        note = DutyNote(number=line.number, met=line.owed.duty.id, by=line.by)
        if line.done:
            question = ConfirmScreen(f"Not done after all? {line.owed.duty.what}", "It is due again then.")
            self.confirm(question, lambda: self._note(note.model_copy(update={"again": True})))
        else:
            self._ask_how(line, note, f"{self._today:%d/%m/%Y}", "")

    def action_show_done(self) -> None:
        """What was noted as done in place of what is due, or the other way."""
        self._shows_done = not self._shows_done
        self._due = self._untold = ()
        self._load()

    def action_export(self) -> None:
        """Ask for a folder, and write what is listed there as a table and as a calendar."""
        about = "What is due is written there twice: as a table (CSV), and as a calendar (.ics) that other programs take in."
        self.ask(LineScreen("Folder for the list", str(self.ohmfolio.services.packs), about), self._export_to)

    def _export_to(self, folder: str) -> None:
        services = self.ohmfolio.services
        name = f"due-{services.now():%Y-%m-%d-%H%M%S}"
        try:
            for ending, content in services.due_files(due_in(services.log), services.now()).items():
                services.write_new(Path(folder).expanduser() / f"{name}.{ending}", content)
        except OSError as trouble:
            self.say(f"Not written to {folder}: {trouble.strerror}", bad=True)
        else:
            self.say(
                f"{sum(count for *_, count in services.log.due_counted()):,} written to {folder}/{name}.csv and .ics"
            )

    def _ask_how(self, line: DueLine, note: DutyNote, on: str, word: str, trouble: str = "") -> None:
        lines = (AskedLine("on", "Done on", on, must=True), AskedLine("word", "A word on it", word))
        help_ = trouble or f"{line.number}, due by {written(line.by)}. To whom, how, a reference: what you want kept."
        form = FormScreen(f"Done? {line.owed.duty.what}", lines, help_, at="on" if trouble else "word")

        def keep(typed: Mapping[str, str]) -> None:
            day = date_in(typed["on"])
            if day is None:
                says = f"{typed['on']!r} is no date; type it like {written(self._today)}"
                self._ask_how(line, note, typed["on"], typed["word"], says)
            else:
                self._note(note.model_copy(update={"on": day, "word": typed["word"]}))

        self.ask(form, keep)

    def action_owed(self) -> None:
        """Show all that is owed for the job."""
        line = self._line
        if line is None:
            return
        try:
            job, row = self.ohmfolio.services.log.load(line.number), self.ohmfolio.services.log.line(line.number)
            texts = [note.text for note in self.ohmfolio.services.log.notes(TOPIC)]
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        if job:
            self.ohmfolio.go(
                self._to_owed(job, noted(texts).get(job.number, DutyNotes()), put_right=bool(row and row.put_right))
            )

    def action_back(self) -> None:
        """Back to the first screen."""
        self.ohmfolio.pop_screen()

    def _to_owed(self, job: Job, notes: DutyNotes, *, put_right: bool) -> ToOwed:
        told, known = duty_facts(job), facts_in(job, notes)
        own = job.profile.day_box

        def owing(answers: Answers) -> Owing:
            told_now = told._replace(answers=answers, done_on=as_typed(getattr(answers, own)))
            return owing_by(told_now, DutyNotes(met=notes.met), put_right=put_right)

        def keep(asking: Asking) -> bool:
            nonlocal known
            settled = asking.settled
            changed = {name: given for name, given in settled if given != getattr(known, name)}
            if own in changed and not self._enter_day(job, own, changed.pop(own)):
                return False
            taken_back = tuple(name for name, given in changed.items() if given is None)
            note = DutyNote(number=job.number, answers=Answers.model_validate(changed), taken_back=taken_back)
            if changed and not self._note(note):
                return False
            known = settled
            return True

        days_told = frozenset(("issued_on", own) if job.issued else ("issued_on",))
        asking = Asking.on_what_is_owed(known, lambda answers: owing(answers).ask)
        return ToOwed(asking, owing, keep, told=days_told)

    def _enter_day(self, job: Job, name: str, day: date | None) -> bool:
        """Type the day of the work or the inspection into its box; the job is a draft."""
        place = Place(section=job.profile.section, box=name)
        services = self.ohmfolio.services
        try:
            after = services.log.edit(
                job.number, Enter(place=place, text=as_typed(day)), who=services.who, at=services.now()
            )
        except JobLogError as error:
            self._say_on_top(f"Not saved. {error}")
            return False
        if isinstance(after, Declined):
            self._say_on_top(after.says)
            return False
        self._load()
        return True

    def _note(self, note: DutyNote) -> bool:
        services = self.ohmfolio.services
        try:
            services.log.add_note(
                TOPIC, note.model_dump_json(exclude_defaults=True), who=services.who, at=services.now()
            )
        except JobLogError as error:
            self._say_on_top(f"Not saved. {error}")
            return False
        self._load()
        return True

    def _say_on_top(self, trouble: str) -> None:
        top = self.ohmfolio.screen
        (top if isinstance(top, Page) else self).say(trouble, bad=True)

    def _load(self) -> None:
        """List as many as before, as they are now."""
        seen, untold = max(len(self._due), _PAGE), len(self._untold)
        self._due, self._untold = (), ()
        # Papers that are only kept come last, after all that is to be done.
        self._parts = [DueAsked(done=True)] if self._shows_done else [DueAsked(kept=False), DueAsked(kept=True)]
        self._more_untold = not self._shows_done
        self._fetch(seen, untold)

    def _fetch(self, due: int, untold: int) -> None:
        """So many more of what is due, and once all of that is listed of the jobs that need an answer."""
        log = self.ohmfolio.services.log
        try:
            self._counts = {} if self._shows_done else {**counts_in(log, self._today), "asked": log.count_unanswered()}
            while self._parts and due:
                more = tuple(due_in(log, self._parts[0]._replace(limit=due)))
                self._due, due = (*self._due, *more), due - len(more)
                if due:
                    self._parts.pop(0)
                else:
                    self._parts[0] = self._parts[0]._replace(after=more[-1].place)
            if not self._parts and self._more_untold:
                asked = max(untold, _PAGE)
                more_untold = tuple(untold_in(log, self._untold[-1].number if self._untold else "", asked))
                self._untold, self._more_untold = (*self._untold, *more_untold), len(more_untold) == asked
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        self._show()

    def _show(self) -> None:
        keyed = {f"{line.number} {line.owed.duty.id} {line.by}": line for line in self._due}
        rows = list(rows_of(keyed, self._untold, self._today, counts=None if self._shows_done else self._counts))
        self._listed = {**keyed, **{line.number: line for line in self._untold}}
        self._last = rows[-1].id if rows else ""
        says = (
            f"What was noted as done; {key_name('due-done')} goes back to what is due"
            if self._shows_done
            else "What is due"
        )
        late, all_due = self._counts.get(LATE, 0), sum(self._counts.values()) - self._counts.get("asked", 0)
        how_many = "" if self._shows_done else f": {all_due:,}, of which {late:,} late"
        head = Paragraph(f"{says}, seen on {written(self._today)}{how_many}", theme.HEAD)
        self.query_one("#head", TextPage).show([head])
        listed = self.query_one(PickList)
        listed.empty = "Nothing was noted as done" if self._shows_done else "Nothing is due"
        listed.show(rows)
        self.show_line()

    @property
    def _line(self) -> DueLine | Untold | None:
        at = self.query_one(PickList).at
        return self._listed.get(at.id) if at else None

    @property
    def _today(self) -> date:
        return self.ohmfolio.services.now().date()
