"""The terminal program: theme, first screen, the way from screen to screen, and out."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Sequence
from functools import cached_property
from typing import TYPE_CHECKING, Any, ClassVar, Protocol, runtime_checkable

from textual.app import App
from textual.binding import BindingType
from textual.dom import DOMNode
from textual.driver import Driver
from textual.events import Event, Paste
from textual.events import Key as KeyPressed
from textual.filter import LineFilter
from textual.screen import Screen, ScreenResultCallbackType
from textual.theme import Theme

from domain.log.job_log import JobLogError
from tui import routes
from tui.coaching import Coaching
from tui.half_typing import HalfTyping
from tui.keys import Key, bindings, covered_at, keys_at
from tui.keys.everywhere import LEAVES, STOPS
from tui.terminal.key_reader import PASTE_MAX
from tui.terminal.safe_lines import SafeLines
from tui.theme import THEME
from tui.type_ahead import TypeAhead
from tui.user_name import Naming
from tui.waiting import show_waits
from tui.widgets.too_small import TooSmall

if TYPE_CHECKING:
    from domain.job.job import Job
    from domain.place import Place
    from tui.job_page import JobPage
    from tui.services import Services
    from tui.tasks import Tasks

ScreenFor = Callable[[routes.Route, "Services"], Screen[Any]]
_SAFE = SafeLines()


@runtime_checkable
class FullScreen(Protocol):
    """What the program asks of a screen that is more than a question."""

    @property
    def open_job(self) -> str:
        """The number of the job that is worked on here; "" where it is none."""
        ...

    def say(self, sentence: str, *, bad: bool = False) -> None:
        """Tell the person something."""
        ...

    def commit_open_entry(self) -> bool:
        """Save what is being typed; False when that failed."""
        ...

    def save_waiting(self) -> bool:
        """Save what was kept but could not be saved; False when it still cannot."""
        ...

    def note_place(self) -> None:
        """Keep where the person is."""
        ...

    def visit(self, place: Place, says: str = "") -> None:
        """Go to a place of the job that is open here."""
        ...


@runtime_checkable
class FirstScreen(Protocol):
    """What the program asks of the screen that jobs are opened and begun from."""

    def go_into_job(self) -> None:
        """Somebody goes into a job and will come back from it."""
        ...

    def begin_again(self) -> None:
        """Put the first question."""
        ...


class OhmfolioApp(App[None], inherit_bindings=False):
    """Knows the services and the way from screen to screen, nothing of the trade."""

    TITLE = "Ohmfolio"
    BINDINGS: ClassVar[list[BindingType]] = bindings("help", "palette", "repaint", "leave")
    CSS = """
    Screen { layers: default notice; overflow: hidden; }
    Screen:ansi.-screen-suspended { text-style: none; }
    """
    ENABLE_COMMAND_PALETTE = False
    HORIZONTAL_BREAKPOINTS = TooSmall.WIDTHS
    VERTICAL_BREAKPOINTS = TooSmall.HEIGHTS

    def __init__(
        self,
        services: Services,
        screen_for: ScreenFor,
        driver_class: type[Driver] | None = None,
        *,
        practises: bool = False,
        once_shown: Callable[[], object] = lambda: None,
    ) -> None:
        """`screen_for` turns a route into a screen. `practises`: somebody came to practise.

        `once_shown` is called when the first screen is there.
        """
        super().__init__(driver_class=driver_class, ansi_color=True)
        self.services = services
        self.coaching = Coaching(services)
        self.naming = Naming(services)
        self.half_typing = HalfTyping(services)
        self.goes_across = True
        """Enter on a schedule goes on across the circuit, not down the column."""
        self.places: dict[tuple[str, JobPage], Place] = {}
        """Where the cursor was left on each step of a job."""
        self.animation_level = "none"
        self._screen_for = screen_for
        self._practises = practises
        self._once_shown = once_shown
        self.type_ahead = TypeAhead(self, self.handle_typed)

    @cached_property
    def tasks(self) -> Tasks:
        """What is done beside the screens."""
        from tui.tasks import Tasks

        return Tasks(self, self.services)

    @property
    def hands_rest(self) -> bool:
        """Nobody is typing."""
        return self.type_ahead.hands_rest

    @property
    def current_theme(self) -> Theme:
        """The one there is, from the beginning: setting another later would have every style worked out once more."""
        return THEME

    def get_line_filters(self) -> Sequence[LineFilter]:
        """Nothing is shown that a terminal would obey, wherever it came from."""
        return [*super().get_line_filters(), _SAFE]

    def on_mount(self) -> None:
        """Put the first question."""
        self.go(routes.ToIntake(practises=self._practises))
        self.services.waiting.shown_by = show_waits(self)
        self.call_after_refresh(self._once_shown)
        if refuses := self.services.log.refuses():
            self.call_after_refresh(self._say, refuses)
        self._handing_on = asyncio.create_task(self.type_ahead.hand_on())

    async def on_event(self, event: Event) -> None:
        """Keys wait for their turn; all else goes its usual way."""
        if not self.type_ahead.takes(event):
            await super().on_event(event)

    async def handle_typed(self, event: Event) -> None:
        """Take a key whose turn it is; the one that stops the program works over every screen, and in any window."""
        if isinstance(event, KeyPressed) and event.key == STOPS:
            self.action_suspend_process()
        elif isinstance(event, Paste) and len(event.text) > PASTE_MAX and isinstance(self.screen, FullScreen):
            self._say(
                f"More than {PASTE_MAX:,} characters were pasted, which no box or column takes. Nothing was typed"
            )
        elif not TooSmall.covers(*self.screen.size) or (isinstance(event, KeyPressed) and event.key == LEAVES):
            await super().on_event(event)

    def go(self, route: routes.Route, then: ScreenResultCallbackType[Any] | None = None) -> None:
        """Go to a screen; `then` gets what it hands back, if it is one that does."""
        self.push_screen(self._screen_for(route, self.services), then)

    def open_job(self, number: str) -> None:
        """Open a job where this person left it, an issued one on its own page; one that is open below is come back to."""
        below = [page for page in self.screen_stack if isinstance(page, FullScreen) and page.open_job == number]
        if below:
            while self.screen is not below[0]:
                self.pop_screen()
            return
        try:
            note, line = self.services.log.position(number, who=self.services.who), self.services.log.line(number)
        except JobLogError as error:
            self._say(str(error))
            return
        if line and line.is_issued:
            self.go(routes.ToIssued(number))
        else:
            left = self.half_typing.left_in(number)
            self.go(routes.ToJobAsLeft(number, note, left.place if left else None))
        self._first_screen.go_into_job()

    def turn_back(self, trouble: str) -> None:
        """Leave a job that cannot be opened, and say why."""
        self.pop_screen()
        self._say(trouble)

    def start_job(self, number: str, step: JobPage | None = None, *, begun: Job | None = None) -> None:
        """Open a job that was just begun, in place of the decision; the next one starts from the first question."""
        self.places = {at: place for at, place in self.places.items() if at[0]}
        self._switch(routes.ToJob(number, step, begun=begun))
        self._first_screen.begin_again()

    def visit(self, place: Place) -> None:
        """Go to a place of the job that is open."""
        if isinstance(self.screen, FullScreen):
            self.screen.visit(place)

    def open_step(
        self, number: str, step: JobPage, place: Place | None = None, says: str = "", *, begun: Job | None = None
    ) -> None:
        """Go from one step of a job to another."""
        screen = self._switch(routes.ToJob(number, step, place or self.places.get((number, step)), begun))
        if says and isinstance(screen, FullScreen):
            self.call_after_refresh(screen.say, says)

    def action_help(self) -> None:
        """Explain the screen on top and its keys."""
        self.go(routes.ToHelp(self.screen))

    def action_palette(self) -> None:
        """List everything that can be done on the screen on top."""
        doings = [doing for doing in keys_at(self.screen) if doing[0].listed]
        covered = [doing for doing in covered_at(self.screen) if doing[0].listed]
        self.go(routes.ToPalette((*doings[2:], *doings[:2], *covered)), self._do_picked)

    def action_repaint(self) -> None:
        """Paint everything anew. The frugal driver has sent the whole screen already when the key comes here."""
        self.screen.refresh(layout=True)

    def action_leave(self) -> None:
        """Leave; what is being typed is saved first."""
        if self.commit_open_entry():
            self.exit()
        else:
            self.go(routes.ToLeaving("The last entry could not be saved. Leave without it?"), self._leave_if)

    def action_suspend_process(self) -> None:
        """Stop until the shell has the program go on, if there is one; what is being typed stays open."""
        if self._driver is not None and self._driver.can_suspend:
            self.hold_open_entry()
            super().action_suspend_process()

    def commit_open_entry(self) -> bool:
        """Save what is being typed, and where the person is, on whatever step is open; False when that failed."""
        pages = self._full_screens
        saved = [page.commit_open_entry() for page in pages]
        for page in pages:
            page.note_place()
        return all(saved)

    def hold_open_entry(self) -> None:
        """The line goes, or the program is stopped: what is being typed stays an entry, and nobody takes it for a value."""
        for page in self._full_screens:
            page.save_waiting()
            page.note_place()
        self.half_typing.settle()

    @property
    def _full_screens(self) -> list[FullScreen]:
        return [screen for screen in self.screen_stack if isinstance(screen, FullScreen)]

    @property
    def _first_screen(self) -> FirstScreen:
        return next(screen for screen in self.screen_stack if isinstance(screen, FirstScreen))

    def _switch(self, route: routes.Route) -> Screen[Any]:
        screen = self._screen_for(route, self.services)
        self.switch_screen(screen)  # pyright: ignore[reportUnknownMemberType]
        return screen

    def _say(self, trouble: str) -> None:
        if isinstance(self.screen, FullScreen):
            self.screen.say(trouble, bad=True)

    def _leave_if(self, yes: bool | None) -> None:  # noqa: FBT001 - the framework hands the answer over
        if yes:
            self.exit()

    async def _do_picked(self, doing: tuple[Key, DOMNode] | None) -> None:
        if doing:
            key, node = doing
            await self.run_action(key.action, node)
