"""How what a report found under C1, C2 and FI is put right, observation by observation."""

from collections.abc import Iterator, Mapping
from functools import partial
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType

from domain.dates import date_in, date_problem
from domain.inspection.observation import Code
from domain.job.job import Job
from domain.log.job_log import JobLogError
from domain.log.put_right.letter import Letter
from domain.log.put_right.no_certificate import WORKS, decisions, work_of
from domain.log.put_right.notes import How, RemedyNote
from domain.log.put_right.remedial_status import PutRight, RemedialItem, Stage
from domain.log.put_right.remedy import remedy_of
from domain.log.search_words import number_written
from domain.words import capitalised
from tui import theme
from tui.keys import bindings, key_name
from tui.routes import Origin, ToRemedy
from tui.screens.dialogs import FormScreen, LineScreen
from tui.screens.page import Page
from tui.screens.paper_maker import PaperMaker
from tui.screens.paper_making import letter_of
from tui.widgets.entry_lines import AskedLine, EntryOption
from tui.widgets.pick_list import ListCell, ListRow, PickList
from tui.widgets.text_page import Paragraph, TextPage

_SIGNS = {
    Stage.OPEN: (theme.SIGN_FAILS, theme.FAILS),
    Stage.UNDER_WAY: (theme.SIGN_GAP, theme.ASKS),
    Stage.CLOSED: (theme.SIGN_GOOD, theme.GOOD),
}
_WAYS = (
    EntryOption("C", How.CERTIFICATE, "a certificate of this log; give its number"),
    EntryOption("P", How.PAPER, "a paper of another firm; give number, firm and day"),
    EntryOption("A", "accessory", "accessory like for like, no certificate"),
    EntryOption("E", "equipment", "equipment like for like, no certificate"),
    EntryOption("N", How.NOTHING_WRONG, "looked into, nothing wrong: say what, who, day"),
)


class PutRightScreen(Page):
    """Every C1, C2 and FI with what closes it; the report itself is never touched."""

    EXPLAINS: ClassVar[str] = (
        "Every C1, C2 and FI of an issued report, and the paper that shows it has been put right: a certificate of"
        " this log once it is issued, a paper of another firm with number, firm and day, work that needs no"
        " certificate because an accessory or equipment was exchanged like for like, or for FI the finding that"
        f" nothing was wrong. {key_name('right-start')} starts the job that puts the marked ones right, with the papers its work needs. In any"
        " order. When all are closed the log shows the report as put right, and"
        f" {key_name('right-letter')} makes a letter that confirms what"
        " the papers say. The report stays as it was issued."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(
        *("right-note", "right-mark", "right-start", "right-go", "right-open", "right-letter"),
        *("back", "palette", "leave", "help"),
    )
    DEFAULT_CSS = """
    PutRightScreen > #head { height: 1; padding: 0 1; }
    PutRightScreen > PickList { height: 1fr; }
    PutRightScreen > #about { height: 8; padding: 0 1; border-top: solid ansi_default; }
    """

    def __init__(self, report: Job) -> None:
        super().__init__()
        self.report = report
        self._papers = PaperMaker(self, self.say)
        self.put_right = PutRight(report=report, items=())
        self._marked: frozenset[str] = frozenset()

    def compose_page(self) -> ComposeResult:
        yield TextPage(id="head")
        yield PickList(lines_a_row=3)
        yield TextPage(id="about")

    def on_mount(self) -> None:
        """List the observations."""
        self.query_one(PickList).focus()
        self.show_keys()

    def on_screen_resume(self) -> None:
        """Papers may have been issued meanwhile."""
        super().on_screen_resume()
        self._load()

    @on(PickList.Moved)
    def show_one(self) -> None:
        """Tell the observation under the cursor in full."""
        item = self._item
        self.query_one("#about", TextPage).show(_told(item, self.put_right) if item else ())

    def action_note(self) -> None:
        """Ask how it was put right."""
        if item := self._item:
            self._ask_how(item, {})

    def action_mark(self) -> None:
        """Mark it for the next job, or no longer."""
        if item := self._item:
            self._marked ^= {item.observation.id}
            self._show()

    def action_start(self) -> None:
        """Start the job that puts the marked ones, or this one, right."""
        item = self._item
        chosen = (
            [each for each in self.put_right.items if each.observation.id in self._marked] or [item] if item else []
        )
        open_ones = [each.observation for each in chosen if each.stage is Stage.OPEN]
        if not open_ones:
            self.say("A job is started for what is open; this is under way or closed")
            return
        what = f"Putting {', '.join(each.code for each in open_ones)} of {self.report.number} right: what will be done?"

        def begun(number: str) -> None:
            for each in open_ones:
                self._keep(RemedyNote(observation=each.id, how=How.CERTIFICATE, number=number))
            self._marked = frozenset()

        origin = Origin(lambda job: remedy_of(job, self.report, open_ones), begun)
        self.ohmfolio.go(ToRemedy(what, origin))

    def action_go(self) -> None:
        """Open the job that puts it right."""
        item = self._item
        if item and item.note and item.note.how is How.CERTIFICATE:
            self.ohmfolio.open_job(item.note.number)
        else:
            self.say(f"No job of this log puts it right; {key_name('right-start')} starts one")

    def action_open_again(self) -> None:
        """Take back what was noted."""
        item = self._item
        if item and item.note:
            self._keep(RemedyNote(observation=item.observation.id, how=How.OPEN))

    def action_letter(self) -> None:
        """Ask for a folder, and make the letter."""
        if not self.put_right.is_done:
            self.say("The letter can be made once everything is put right", bad=True)
            return
        self.ohmfolio.services.ready_paper()
        about = "It confirms what the papers say, and is signed by hand. It is no certificate."
        self.ask(LineScreen("Folder for the letter", str(self.ohmfolio.services.packs), about), self._make)

    def action_back(self) -> None:
        """Back to where one came from."""
        self.ohmfolio.pop_screen()

    @property
    def _item(self) -> RemedialItem | None:
        row = self.query_one(PickList).at
        return next((each for each in self.put_right.items if row and each.observation.id == row.id), None)

    def _ask_how(self, item: RemedialItem, typed: Mapping[str, str], wrong: str = "", *, at: str = "") -> None:
        services = self.ohmfolio.services
        first = {"on": f"{services.now():%d/%m/%Y}", "by": self.ohmfolio.naming.name, **_typed_of(item.note)}

        def line(name: str, label: str) -> AskedLine:
            asked = partial(_is_asked, name)
            return AskedLine(name, label, typed.get(name, first.get(name, "")), when=asked)

        ways = _WAYS if item.observation.code is Code.FI else _WAYS[:-1]
        form = FormScreen(
            wrong or f"{item.observation.code}: how was it put right?",
            (
                AskedLine("how", "By", typed.get("how", first.get("how", "")), must=True, options=ways),
                line("number", "Number"),
                line("firm", "Firm"),
                line("on", "Day"),
                line("says", "Done or found"),
                line("by", "By whom"),
            ),
            item.observation.finding,
            at=at,
        )
        self.ask(form, lambda given: self._take(item, given))

    def _take(self, item: RemedialItem, typed: Mapping[str, str]) -> None:
        work = typed["how"] if typed["how"] in WORKS else ""
        how, day = How.NO_CERTIFICATE if work else How(typed["how"]), date_in(typed["on"])
        if typed["on"] and day is None:
            self._ask_how(item, typed, date_problem(typed["on"]), at="on")
            return
        parts: dict[str, object] = {"number": typed["number"], "firm": typed["firm"], "on": day}
        if how is How.CERTIFICATE:
            parts = {"number": number_written(typed["number"])}
        elif how is How.NO_CERTIFICATE:
            parts = {"says": typed["says"], "by": typed["by"], "on": day, "because": decisions().get(work, "")}
        elif how is How.NOTHING_WRONG:
            parts = {"says": typed["says"], "by": typed["by"], "on": day}
        note = RemedyNote.model_validate({"observation": item.observation.id, "how": how, **parts})
        if wrong := self._keep(note):
            self._ask_how(item, typed, wrong, at="says" if how in {How.NOTHING_WRONG, How.NO_CERTIFICATE} else "number")

    def _keep(self, note: RemedyNote) -> str:
        """Why it was not kept; "" when it was."""
        services = self.ohmfolio.services
        try:
            wrong = services.log.note_remedy(self.report.number, note, who=services.who, at=services.now())
        except JobLogError as error:
            wrong = f"Not saved. {error}"
        if wrong:
            self.say(wrong, bad=True)
        else:
            self._load()
            self.say("")
        return wrong

    def _make(self, folder: str) -> None:
        if self._papers.is_making:
            return
        services = self.ohmfolio.services
        letter = Letter(put_right=self.put_right, on=services.now().date())
        self._papers.make(folder, lambda path: letter_of(letter, path, services), "the letter")

    def _load(self) -> None:
        services = self.ohmfolio.services
        try:
            self.put_right = services.log.remedial_status(self.report)
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        self._show()

    def _show(self) -> None:
        self.query_one("#head", TextPage).show([_head(self.put_right)])
        self.query_one(PickList).show(
            [_row(item, marked=item.observation.id in self._marked) for item in self.put_right.items]
        )
        self.show_one()


def _is_asked(line: str, typed: Mapping[str, str]) -> bool:
    """The line belongs to the way in which it was put right."""
    match typed["how"]:
        case "":
            return True
        case How.CERTIFICATE:
            return line == "number"
        case How.NOTHING_WRONG:
            return line in _TOLD
        case how if how in WORKS:
            return line in _TOLD
        case _:
            return line in {"number", "firm", "on"}


_TOLD = {"on", "says", "by"}
"""Asked where there is no certificate."""


def _head(put_right: PutRight) -> Paragraph:
    closed = sum(item.stage is Stage.CLOSED for item in put_right.items)
    if put_right.is_done:
        says = f"Report {put_right.report.number} has been put right. {key_name('right-letter')} makes the letter that confirms it."
        return Paragraph(says, theme.GOOD, theme.SIGN_GOOD, theme.GOOD)
    return Paragraph(f"Report {put_right.report.number}: {closed} of {len(put_right.items)} put right", theme.HEAD)


def _row(item: RemedialItem, *, marked: bool) -> ListRow:
    sign, style = _SIGNS[item.stage]
    return ListRow(
        item.observation.id,
        (
            ListCell("*" if marked else "", theme.HEAD, 1),
            ListCell(f"{sign} {item.stage.value}", style, 12),
            ListCell(item.observation.code, theme.HEAD, 2),
            ListCell(f"{item.observation.finding} ({item.says})"),
        ),
    )


def _told(item: RemedialItem, put_right: PutRight) -> Iterator[Paragraph]:
    observation = item.observation
    yield Paragraph(observation.code.meaning, theme.HEAD, observation.code)
    where = f" ({observation.where})" if observation.where.strip() else ""
    yield Paragraph(f"{observation.finding}{where}")
    yield Paragraph(f"{capitalised(item.says)}.", _SIGNS[item.stage][1])
    if put_right.is_done:
        yield Paragraph("; ".join(put_right.papers), label="Proved by", label_width=10)


def _typed_of(note: RemedyNote | None) -> Mapping[str, str]:
    if note is None:
        return {}
    typed = {
        "how": work_of(note.because) or note.how.value,
        "number": note.number,
        "firm": note.firm,
        "says": note.says,
        "by": note.by,
    }
    day = {"on": f"{note.on:%d/%m/%Y}"} if note.on else {}
    return {name: text for name, text in typed.items() if text} | day
