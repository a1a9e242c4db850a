"""The terminal program: theme, first screen, the way from screen to screen, and out."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import TYPE_CHECKING, ClassVar

from textual.binding import BindingType
from textual.dom import DOMNode
from textual.driver import Driver
from textual.events import Event
from textual.events import Key as KeyPressed
from textual.theme import Theme

from domain.log.job_log import JobLogError
from tui.coaching import Coaching
from tui.draft_answer import Unfinished
from tui.keys import Key, bindings, keys_at
from tui.program import Program
from tui.screens import routes
from tui.screens.intake import IntakeScreen
from tui.screens.page import Page
from tui.theme import THEME
from tui.type_ahead import TypeAhead
from tui.user_name import Naming
from tui.widgets.too_small import TooSmall

if TYPE_CHECKING:
    from domain.place import Place
    from tui.job_page import JobPage
    from tui.screens.job_screen import JobScreen
    from tui.services import Services

_STOPS = "ctrl+z"


class OhmfolioApp(Program, inherit_bindings=False):
    """Knows the desk and the screens, nothing of the trade."""

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
        desk: Services,
        driver_class: type[Driver] | None = None,
        *,
        practises: bool = False,
        once_shown: Callable[[], object] = lambda: None,
    ) -> None:
        """`practises`: somebody came to practise. `once_shown` is called when the first screen is there."""
        super().__init__(driver_class=driver_class, ansi_color=True)
        self.desk = desk
        self.coaching = Coaching(desk)
        self.naming = Naming(desk)
        self.unfinished = Unfinished(desk)
        self.goes_across = True
        self.places = {}
        self.animation_level = "none"
        self._practises = practises
        self._once_shown = once_shown
        self._type_ahead = TypeAhead(self)

    @property
    def hands_rest(self) -> bool:
        """Nobody is typing."""
        return self._type_ahead.hands_rest

    @property
    def current_theme(self) -> Theme:
        """The one there is, from the beginning: setting another later would have every style worked out once more."""
        return THEME

    def on_mount(self) -> None:
        """Put the first question."""
        self.push_screen(IntakeScreen(practises=self._practises))
        self.call_after_refresh(self._once_shown)
        self._handing_on = asyncio.create_task(self._type_ahead.hand_on())

    async def on_event(self, event: Event) -> None:
        """Keys wait for their turn; all else goes its usual way."""
        if not self._type_ahead.takes(event):
            await super().on_event(event)

    async def handle_typed(self, event: Event) -> None:
        """Take a key whose turn it is; the one that stops the program works over every screen."""
        if isinstance(event, KeyPressed) and event.key == _STOPS:
            self.action_suspend_process()
        else:
            await super().on_event(event)

    def open_job(self, number: str) -> None:
        """Open a job where this person left it; one that is open below is come back to."""
        if below := routes.job_among(self.screen_stack, number):
            while self.screen is not below:
                self.pop_screen()
            return
        try:
            note = self.desk.log.position(number, who=self.desk.who)
        except JobLogError as error:
            self._say(str(error))
            return
        self.push_screen(routes.to_job(number, note))
        self._first_screen.go_into_job()

    def turn_back(self, trouble: str) -> None:
        """Leave a job that cannot be opened, and say why."""
        self.pop_screen()
        self._say(trouble)

    def find_job(self, words: str) -> None:
        """Look for a job by words of it."""
        self.push_screen(routes.to_finding(words))

    def start_job(self, number: str) -> None:
        """Open a job that was just begun, in place of the decision; the next one starts from the first question."""
        self._switch(routes.to_job_begun(number))
        self._first_screen.begin_again()

    def visit(self, place: Place) -> None:
        """Go to a place of the job that is open."""
        if isinstance(self.screen, Page):
            self.screen.visit(place)

    def open_step(self, number: str, step: JobPage, place: Place | None = None, says: str = "") -> None:
        """Go from one step of a job to another."""
        screen = routes.to_step(number, step, place or self.places.get((number, step)))
        self._switch(screen)
        if says:
            self.call_after_refresh(screen.say, says)

    def action_help(self) -> None:
        """Explain the screen on top and its keys."""
        self.push_screen(routes.to_help(self.screen))

    def action_palette(self) -> None:
        """List everything that can be done on the screen on top."""
        doings = [doing for doing in keys_at(self.screen) if doing[0].listed]
        self.push_screen(routes.to_palette(doings[2:] + doings[:2]), self._do_picked)

    def action_repaint(self) -> None:
        """Paint everything anew. The frugal driver has sent the whole screen already when the key comes here."""
        self.screen.refresh(layout=True)

    def action_leave(self) -> None:
        """Leave; what is being typed is saved first."""
        if self.commit_open_entry():
            self.exit()
        else:
            self.push_screen(routes.to_confirm("The last entry could not be saved. Leave without it?"), self._leave_if)

    def action_suspend_process(self) -> None:
        """Stop until the shell has the program go on, if there is one; what is being typed is saved first."""
        if self._driver is not None and self._driver.can_suspend:
            self.commit_open_entry()
            super().action_suspend_process()

    def commit_open_entry(self) -> bool:
        """Save what is being typed, and where the person is, on whatever step is open; False when that failed."""
        pages = [screen for screen in self.screen_stack if isinstance(screen, Page)]
        saved = [page.commit_open_entry() for page in pages]
        for page in pages:
            page.note_place()
        return all(saved)

    def keep_open_question(self) -> None:
        """Keep what is typed into a question that is open, as the line goes."""
        keep = getattr(self.screen, "keep_unfinished", None)
        if keep is not None:
            keep()

    @property
    def _first_screen(self) -> IntakeScreen:
        return next(screen for screen in self.screen_stack if isinstance(screen, IntakeScreen))

    def _switch(self, screen: JobScreen) -> None:
        self.switch_screen(screen)  # pyright: ignore[reportUnknownMemberType]

    def _say(self, trouble: str) -> None:
        if isinstance(self.screen, Page):
            self.screen.say(trouble, bad=True)

    def _leave_if(self, yes: bool | None) -> None:  # noqa: FBT001 - the framework hands the answer over
        if yes:
            self.exit()

    async def _do_picked(self, doing: tuple[Key, DOMNode] | None) -> None:
        if doing:
            key, node = doing
            await self.run_action(key.action, node)
