"""Keeping the log whole and carrying jobs: copies, the way back, hand-over, bringing in, reading in, looking after."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar, Protocol, cast

from textual import events, on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen

from domain.log.job_log import JobLogError
from tui import theme
from tui.keys import bindings
from tui.screens.dialogs import DIALOG_STYLES, ConfirmScreen, show_answering_keys
from tui.screens.keeping_tasks import KEEPING_TASKS, KeepingTask, Offer, Typed
from tui.screens.page import Page
from tui.tasks import OPEN_AGAIN, UNUSABLE, Task, TaskEnd, TaskMoved, Tasks
from tui.widgets.foot import KeyLine
from tui.widgets.pick_list import ListCell, ListRow, PickList
from tui.widgets.text_page import Paragraph, ReadingPage, TextPage
from tui.widgets.too_small import TooSmall
from tui.widgets.turning_list import TurningList

if TYPE_CHECKING:
    from tui.app import OhmfolioApp

_LINES_MAX = 500
_SIGNS = {"✓": theme.SIGN_GOOD, "✗": theme.SIGN_FAILS, "!": theme.SIGN_ASKS, "?": theme.SIGN_ASKS, "·": "·"}


class OfferedTasks(Protocol):
    """What a screen of tasks has to offer, and what it says of it."""

    @property
    def explains(self) -> str:
        """What the help of the screen says."""
        ...

    @property
    def offered(self) -> tuple[KeepingTask, ...]:
        """What can be done now."""
        ...

    @property
    def head(self) -> Iterator[Paragraph]:
        """What stands above the list."""
        ...

    def known(self, offer: Offer) -> Offer:
        """What is put forward, with what is known besides."""
        ...


class TasksOfLog:
    """What can be done with a log as a whole."""

    explains = (
        "What is done with the log as a whole. A letter does what stands beside it, once its few questions are answered,"
        " and the answer stands below. Each is done beside the screens: go on with your jobs meanwhile, and look here for"
        " how far it is. One is done at a time; it goes on to its end when the program is left. Going back to a copy alone"
        " has everybody wait, for the log is closed meanwhile."
    )
    offered = KEEPING_TASKS

    @property
    def head(self) -> Iterator[Paragraph]:
        """What stands above the list."""
        yield Paragraph("Keep the log, and carry jobs", theme.HEAD)

    def known(self, offer: Offer) -> Offer:
        """Nothing besides."""
        return offer


class KeepingScreen(Page):
    """The list of what can be done, over what the last of it said."""

    BINDINGS: ClassVar[list[BindingType]] = bindings("keeping-do", "back", "palette", "leave", "help")
    DEFAULT_CSS = """
    KeepingScreen > #head { height: 1; padding: 0 1; }
    KeepingScreen > PickList { height: 7; }
    KeepingScreen > ReadingPage { height: 1fr; padding: 0 1; border-top: solid ansi_default; }
    """

    def __init__(self, has: OfferedTasks | None = None) -> None:
        super().__init__()
        self._has: OfferedTasks = has or TasksOfLog()

    @property
    def explains(self) -> str:
        """For the help."""
        return self._has.explains

    def compose_page(self) -> ComposeResult:
        yield TextPage(id="head")
        yield TurningList()
        yield ReadingPage()

    def on_mount(self) -> None:
        """List what can be done."""
        self.query_one(ReadingPage).can_focus = False
        self._show_offered()
        self.query_one(TurningList).focus()
        self.set_interval(1, self._tick)
        self.show_tasks()

    def _show_offered(self) -> None:
        self.query_one("#head", TextPage).show(self._has.head)
        width = max(len(task.title) for task in self._has.offered)
        self.query_one(TurningList).show(
            ListRow(
                task.letter,
                (ListCell(task.letter.upper(), theme.HEAD, 1), ListCell(task.title, width=width), ListCell(task.says)),
            )
            for task in self._has.offered
        )

    def on_screen_resume(self) -> None:
        """Something may have ended meanwhile."""
        super().on_screen_resume()
        self._show_offered()
        self.show_tasks()

    def on_key(self, event: events.Key) -> None:
        """A letter does what stands beside it."""
        if event.character and self._ask(event.character.casefold()):
            event.stop()
            event.prevent_default()

    def action_do_row(self) -> None:
        """Do what is under the cursor."""
        if row := self.query_one(PickList).at:
            self._ask(row.id)

    def action_back(self) -> None:
        """Back to the first screen; what is being done goes on."""
        self.ohmfolio.pop_screen()

    @on(TurningList.PageTurned)
    def on_page_turned(self, event: TurningList.PageTurned) -> None:
        """Turn the answer under the list."""
        self.query_one(ReadingPage).action_page(event.way)

    @on(TaskMoved)
    def show_tasks(self) -> None:
        """How far the one that is running is, or what the last one said."""
        tasks = self.ohmfolio.tasks
        if tasks.running:
            self._tick()
        elif tasks.last:
            self._show_offered()
            self.show_unheard()
            self.query_one(ReadingPage).show(answer_of(tasks.last))
            self.say(tasks.last.in_short, bad=tasks.last.code != 0)

    def _tick(self) -> None:
        if self.ohmfolio.tasks.running:
            self.say(how_far(self.ohmfolio.tasks))

    def _ask(self, letter: str) -> bool:
        found = next((task for task in self._has.offered if task.letter == letter), None)
        if found is None:
            return False
        if found.leads_to:
            self.ohmfolio.go(found.leads_to)
            return True
        if running := self.ohmfolio.tasks.running:
            self.say(f"{running.title} goes on; one thing is done at a time")
            return True

        def take(typed: Typed) -> None:
            self.ohmfolio.tasks.typed[found.title] = typed
            if found.closes_log:
                self._confirm(found, typed)
            else:
                self._begin(found.task(typed))

        form = found.form(self._offer(found.title))
        if form.lines:
            self.ask(form, take)
        else:
            take({})
        return True

    def _offer(self, title: str) -> Offer:
        """What is put forward."""
        services = self.ohmfolio.services
        try:
            number = services.log.last_opened(who=services.who)
        except JobLogError:
            number = ""
        typed = self.ohmfolio.tasks.typed.get(title, {})
        return self._has.known(Offer(services.now().date(), services.packs, number, typed))

    def _begin(self, task: Task) -> None:
        self.query_one(ReadingPage).show(())
        if self.ohmfolio.tasks.begin(task):
            self._tick()

    def _confirm(self, task: KeepingTask, typed: Typed) -> None:
        about = (
            "The log as it is now is kept aside. It is closed meanwhile, here and for everybody; others leave it first."
        )
        self.confirm(
            ConfirmScreen(task.asks_first.format_map(typed), about),
            lambda: self.ohmfolio.push_screen(ClosedScreen(task.task(typed))),
        )


class ClosedScreen(ModalScreen[None]):
    """The log is closed while something is done with it; then the screens begin anew on the log that is there."""

    EXPLAINS: ClassVar[str] = "The log is closed until this is done."
    BINDINGS: ClassVar[list[BindingType]] = bindings("keeping-again")
    DEFAULT_CSS = DIALOG_STYLES.format(kind="ClosedScreen") + "ClosedScreen TextPage { height: auto; }"

    def __init__(self, task: Task) -> None:
        super().__init__()
        self._to_do = task
        self._is_done = False

    def compose(self) -> ComposeResult:
        with Vertical():
            yield TextPage()
            yield KeyLine()
        yield TooSmall()

    def on_mount(self) -> None:
        """Close the log, and begin."""
        self._app.services.log.close()
        self._tasks.begin(self._to_do)
        self.set_interval(1, self.show_task)
        self.show_task()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002
        """There is nothing to press before the end."""
        return self._is_done

    def action_open_again(self) -> None:
        """Begin anew on the log that is there now."""
        self._app.exit(return_code=OPEN_AGAIN)

    @on(TaskMoved)
    def show_task(self) -> None:
        """How far it is, or what it said."""
        if self._is_done:
            return
        end = self._tasks.last
        self._is_done = end is not None and end.task is self._to_do
        told = answer_of(end) if end and self._is_done else [Paragraph(how_far(self._tasks))]
        self.query_one(TextPage).show(told)
        if self._is_done:
            show_answering_keys(self)

    @property
    def _app(self) -> "OhmfolioApp":
        return cast("OhmfolioApp", self.app)  # pyright: ignore[reportUnknownMemberType]

    @property
    def _tasks(self) -> Tasks:
        return self._app.tasks


def how_far(tasks: Tasks) -> str:
    """What is being done, for how long, and its last word on how far it is."""
    title = tasks.running.title if tasks.running else ""
    return f"{title} … {tasks.seconds} s{f'. {tasks.progress}' if tasks.progress else ''}"


def answer_of(end: TaskEnd) -> Iterator[Paragraph]:
    """What a command said, its signs standing apart."""
    lines = end.says.splitlines()
    if end.code == UNUSABLE:
        yield Paragraph(end.says, theme.FAILS, theme.SIGN_FAILS, theme.FAILS, 2)
        return
    for line in lines[:_LINES_MAX]:
        sign, _, rest = line.partition(" ")
        if sign in _SIGNS and rest:
            fails = sign == "✗"
            yield Paragraph(
                rest, theme.FAILS if fails else theme.PLAIN, _SIGNS[sign], theme.FAILS if fails else theme.HEAD
            )
        else:
            yield Paragraph(line.strip(), theme.PLAIN, "", label_width=2)
    if len(lines) > _LINES_MAX:
        yield Paragraph(f"and {len(lines) - _LINES_MAX:,} more")
