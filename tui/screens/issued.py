"""The page of an issued paper: what it is, and what can still be done with it."""

from collections.abc import Iterator
from itertools import count
from pathlib import Path
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.timer import Timer

from domain.dates import written
from domain.editing.commands import Declined
from domain.gate.issued_paper import IssuedPaper
from domain.job.exchange import job_to_json
from domain.job.job import Job
from domain.log.job_log import JobLine, JobLogError
from domain.log.put_right.remedial_status import can_be_put_right
from tui import theme
from tui.job_page import JobPage
from tui.keys import bindings, key_name
from tui.routes import ToJob, ToPutRight, ToTrail
from tui.screens.dialogs import LineScreen
from tui.screens.issue_forms import correction_line, mail_line, pack_again_line, verify_line
from tui.screens.issue_text import about_issued, about_proof, making
from tui.screens.owed_rows import owed_paragraphs
from tui.screens.page import Page
from tui.screens.paper_maker import PaperMaker
from tui.screens.paper_making import Attempt, Make, mail_of, pack_again, verified
from tui.widgets.job_rows import row_for
from tui.widgets.pick_list import ListCell, ListRow, PickList
from tui.widgets.text_page import Paragraph, ReadingPage

_DOINGS = {
    "l": ("look", "Look through it, step by step; nothing in it can be changed"),
    "p": ("pack_again", "Put its pack into a folder once more, as it was issued"),
    "m": ("mail", "Write a draft e-mail with the pack attached, for any mail program"),
    "c": ("correct", "Begin a correction: a new document that names this one and replaces it"),
    "r": ("put_right", "Say how what it found under C1, C2 and FI is put right"),
    "h": ("hand_over", "Hand it over to another log, as a file"),
    "v": ("verify_file", "Verify a file: is it this paper as it was issued?"),
    "t": ("trail", "Read its trail: who did what, and when"),
}
"""What each letter does, and what it says of itself."""


class IssuedScreen(Page):
    """The facts of one issued paper over the list of what can be done with it."""

    EXPLAINS: ClassVar[str] = (
        "A paper that was issued: when, by whom, how many pages, where it is kept and what has become of it since. It is"
        " never changed. A letter does what stands beside it; the keys of the steps lead into the paper itself, where it is"
        " read on every step."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(
        *("issued-do", "details", "circuits", "results", "inspection", "raised", "review", "issue", "trail"),
        *("back", "palette", "leave", "help"),
    )
    DEFAULT_CSS = """
    IssuedScreen > .line { height: auto; max-height: 3; }
    IssuedScreen > .doings { height: 10; border-top: solid ansi_default; }
    IssuedScreen > ReadingPage { height: 1fr; padding: 0 1; border-top: solid ansi_default; }
    """

    def __init__(self, number: str) -> None:
        super().__init__()
        self.number = number
        self.job: Job | None = None
        self.paper: IssuedPaper | None = None
        self._papers = PaperMaker(self, self.say, self._made)
        self._ticks: Timer | None = None
        self._copy = ""

    @property
    def open_job(self) -> str:
        return self.number

    def compose_page(self) -> ComposeResult:
        yield PickList(classes="line", lines_a_row=3)
        yield PickList(classes="doings")
        yield ReadingPage()

    def on_mount(self) -> None:
        """The cursor stands on what can be done."""
        self.query_one(".line").can_focus = False
        self.query_one(".doings").focus()
        self.show_keys()

    def on_screen_resume(self) -> None:
        """It may have been corrected or put right meanwhile."""
        super().on_screen_resume()
        self._load()

    def on_key(self, event: events.Key) -> None:
        """A letter does what stands beside it."""
        if event.character and self._do(event.character.casefold()):
            event.stop()
            event.prevent_default()

    def action_do_row(self) -> None:
        """Do what is under the cursor."""
        if row := self.query_one(".doings", PickList).at:
            self._do(row.id)

    def action_step(self, step: str) -> None:
        """Go to a step of the paper, to read it."""
        self.ohmfolio.go(ToJob(self.number, JobPage(step)))

    def action_look(self) -> None:
        """Read it from its first step."""
        self.action_step(JobPage.DETAILS)

    def action_trail(self) -> None:
        """Who changed what, and when."""
        self.ohmfolio.go(ToTrail(self.number))

    def action_pack_again(self) -> None:
        """Ask for a folder, and put the pack there as it was issued."""
        self.ask(pack_again_line(self.ohmfolio.services.packs), lambda typed: self._make(typed, pack_again, "the pack"))

    def action_mail(self) -> None:
        """Ask for the folder of the pack, and put a letter beside it that it can be sent with."""
        self.ask(mail_line(self.ohmfolio.services.packs), lambda typed: self._make(typed, mail_of, "the letter"))

    def action_verify_file(self) -> None:
        """Ask for a file, and say whether it is as it was issued."""
        kept = self.paper.kept if self.paper else ""
        self.ask(verify_line(kept), lambda typed: self._make(typed, verified, "sure"))

    def action_correct(self) -> None:
        """Begin a new document that will replace this one."""
        self.ask(correction_line(self.number), self._begin_correction)

    def action_put_right(self) -> None:
        """Show how far what it found has been put right."""
        if self.job:
            self.ohmfolio.go(ToPutRight(self.job))

    def action_hand_over(self) -> None:
        """Ask for a file, and write the job there for another log."""
        about = "The whole job as JSON; another log brings it in as a new draft. No file is written over."
        file = self.ohmfolio.services.packs / f"{self.number}.json"
        self.ask(LineScreen("File to hand over", str(file), about), self._hand_over)

    def action_back(self) -> None:
        """Back to the list."""
        self.ohmfolio.pop_screen()

    def _do(self, letter: str) -> bool:
        if self._papers.is_making or letter not in {key for key, _ in self._offered()}:
            return False
        getattr(self, f"action_{_DOINGS[letter][0]}")()
        return True

    def _offered(self) -> Iterator[tuple[str, str]]:
        """What can be done with this paper now, by its letters."""
        is_replaced = bool(self.paper and self.paper.replaced_by)
        for letter, (name, says) in _DOINGS.items():
            if name == "correct" and is_replaced:
                continue
            if name == "put_right" and (is_replaced or not self.job or not can_be_put_right(self.job)):
                continue
            yield letter, says

    def _load(self) -> None:
        log = self.ohmfolio.services.log
        try:
            self.job, self.paper, line = log.load(self.number), log.issued(self.number), log.line(self.number)
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        if self.job and self.paper and line:
            self._show(self.job, self.paper, line)

    def _show(self, job: Job, paper: IssuedPaper, line: JobLine) -> None:
        self.query_one(".line", PickList).show([row_for(line)])
        rows = [
            ListRow(letter, (ListCell(letter.upper(), theme.HEAD, 1), ListCell(says)))
            for letter, says in self._offered()
        ]
        self.query_one(".doings", PickList).show(rows)
        facts = list(about_issued(job, paper, self._copy, bool(paper.replaced_by)))
        if line.due:
            facts.insert(1, Paragraph(written(line.due), label="Next due", label_width=9))
        if job.replaces:
            facts.insert(1, Paragraph(f"{job.replaces}: {job.replaces_because}", label="Replaces", label_width=9))
        self.query_one(ReadingPage).show([*facts, *owed_paragraphs(self.ohmfolio.services.log, job)])

    def _make(self, folder: str, make: Make, what: str) -> None:
        if self.job is None or self._papers.is_making:
            return
        job, services, seconds = self.job, self.ohmfolio.services, count(1)
        self._ticks = self.set_interval(1, lambda: self.say(making(what, next(seconds), services.doing_now())))
        self._papers.make(folder, lambda path: make(job, path, services), what)

    def _made(self, attempt: Attempt) -> None:
        if self._ticks:
            self._ticks.stop()
        self._copy = attempt.copy or self._copy
        self._load()
        if attempt.proof:
            self.query_one(ReadingPage).show(about_proof(attempt.proof))
        self.say(attempt.says, bad=attempt.is_trouble)

    def _hand_over(self, typed: str) -> None:
        if self.job is None:
            return
        file = Path(typed).expanduser()
        try:
            self.ohmfolio.services.write_new(file, job_to_json(self.job).encode())
        except FileExistsError:
            self.say("A file of that name exists already, and no file is written over", bad=True)
        except OSError as trouble:
            self.say(f"Not handed over: {trouble.strerror}", bad=True)
        else:
            self.say(f"Handed over: {file}")

    def _begin_correction(self, because: str) -> None:
        services = self.ohmfolio.services
        try:
            begun = services.log.replace(self.number, because=because, who=services.who, at=services.now())
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        if isinstance(begun, Declined):
            self.say(begun.says, bad=True)
        else:
            says = f"{begun.number} will replace {self.number}; {key_name('issue')} signs and issues it"
            self.ohmfolio.open_step(begun.number, JobPage.REVIEW, says=says)
