"""What has to be settled between the office and its laptops: one list, two plain choices each."""

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType

from domain.laptops.matter import Matter, MatterKind
from domain.laptops.telling import COMES_TO, in_few_words, matter_in_words, other_job
from domain.log.job_log import JobLogError
from domain.log.laptops import Laptops
from domain.words import capitalised
from tui import theme
from tui.keys import bindings, key_name
from tui.routes import ToIssued, ToJob
from tui.screens.dialogs import ConfirmScreen
from tui.screens.page import Page
from tui.widgets.pick_list import ListCell, ListRow, PickList
from tui.widgets.text_page import Paragraph, TextPage


class SettleScreen(Page):
    """The list, and under it the one under the cursor with what each choice comes to."""

    EXPLAINS: ClassVar[str] = (
        "What was begun twice, came when the job was not theirs any more, is out with a laptop that was lost, or went with a"
        " log that was put back from a copy. Nothing was thrown away: whatever stands here is kept, whichever choice is taken."
        f" {key_name('settle-first')} and {key_name('settle-second')} take a choice, which is asked once more first, since it"
        f" cannot be taken back; {key_name('settle-open')} looks at the job, {key_name('settle-other')} at the other."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings(
        *("settle-first", "settle-second", "settle-open", "settle-other", "back", "palette", "leave", "help")
    )
    DEFAULT_CSS = """
    SettleScreen > #head { height: 1; padding: 0 1; }
    SettleScreen > PickList { height: 1fr; }
    SettleScreen > #about { height: 11; padding: 0 1; border-top: solid ansi_default; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._listed: dict[str, Matter] = {}
        self._refused: dict[object, str] = {}

    def compose_page(self) -> ComposeResult:
        yield TextPage(id="head")
        yield PickList(lines_a_row=2, empty="Nothing has to be settled")
        yield TextPage(id="about")

    def on_mount(self) -> None:
        """List what there is."""
        self.query_one("#head", TextPage).show([Paragraph("To settle", theme.HEAD)])
        self.query_one(PickList).focus()

    def on_screen_resume(self) -> None:
        """Something may have come in meanwhile."""
        self._load()
        super().on_screen_resume()

    @on(PickList.Moved)
    def show_about(self) -> None:
        """The one under the cursor in full, and why it could not be settled: that may be longer than the line below."""
        matter, about = self._matter, list[Paragraph]()
        if matter and (firm := self._firm):
            done = firm.what_was_done(matter)
            it_was = f" It was: {in_few_words(done)}." if done else ""
            about.append(Paragraph(f"{matter_in_words(matter, firm.stations())}.{it_was}"))
            for number, choice, comes_to in zip("12", firm.choices(matter), COMES_TO[matter.kind], strict=True):
                about += [Paragraph(capitalised(choice), theme.HEAD, number), Paragraph(comes_to, label_width=2)]
            if why_not := self._refused.get(matter.key):
                about.append(Paragraph(f"Not settled: {why_not}.", theme.FAILS))
        self.query_one("#about", TextPage).show(about)

    def action_choose(self, choice: int) -> None:
        """Take one of the two, once more asked."""
        matter = self._matter
        if matter is None:
            self.say("Nothing has to be settled")
            return
        firm = self._firm
        says = firm.choices(matter)[choice - 1] if firm else ""
        about = COMES_TO[matter.kind][choice - 1]
        self.confirm(ConfirmScreen(f"{capitalised(says)}?", about), lambda: self._settle(matter, choice, says))

    def action_open(self, which: int) -> None:
        """Look at the job it is about, or at the other one."""
        matter = self._matter
        number = "" if matter is None else (matter.job, other_job(matter))[which]
        try:
            line = self.ohmfolio.services.log.line(number) if number else None
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        if line is None:
            self.say("There is no job to look at here")
            return
        self.ohmfolio.go(ToIssued(number) if line.is_issued else ToJob(number))

    def action_back(self) -> None:
        """Back to where one came from."""
        self.ohmfolio.pop_screen()

    @property
    def _matter(self) -> Matter | None:
        row = self.query_one(PickList).at
        return self._listed.get(row.id) if row else None

    @property
    def _firm(self) -> Laptops | None:
        return self.ohmfolio.services.log.firm

    def _load(self) -> None:
        try:
            firm = self._firm
            matters = firm.matters() if firm else ()
            told = {"\n".join(each.key): each for each in matters}
            stations = firm.stations() if firm else ()
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        self._listed = told
        self.query_one(PickList).show(
            ListRow(row, (ListCell(theme.SIGN_ASKS, theme.ASKS, 1), ListCell(matter_in_words(each, stations))))
            for row, each in told.items()
        )

    def _settle(self, matter: Matter, choice: int, says: str) -> None:
        services = self.ohmfolio.services
        try:
            firm = self._firm
            why_not = (
                firm.settle(matter, choice, who=services.who, at=services.now()) if firm else "this log stands alone"
            )
        except JobLogError as error:
            self.say(str(error), bad=True)
            return
        if why_not:
            self._refused = {matter.key: why_not}
            self.say("Not settled; why stands above", bad=True)
            self.show_about()
            return
        self._load()
        self.show_unheard()
        copy = firm.copy_of(matter.job) if firm and matter.kind is MatterKind.STRANDED else ""
        self.say(f"{matter.job} goes on as {copy}" if copy else f"Settled: {says}")
