"""The terminal program: theme, first screen, the way from screen to screen, and out."""

from typing import ClassVar

from textual.app import App
from textual.binding import BindingType

from domain.place import Place
from tui.desk import Desk
from tui.keys import bindings
from tui.screens.job_screen import JobScreen, read_note
from tui.steps import Step
from tui.theme import THEME


class OhmfolioApp(App[None], inherit_bindings=False):
    """Knows the desk and the screens, nothing of the trade."""

    TITLE = "Ohmfolio"
    BINDINGS: ClassVar[list[BindingType]] = bindings("help", "palette", "leave")
    CSS_PATH: ClassVar[list[str]] = []
    ENABLE_COMMAND_PALETTE = True

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self.animation_level = "none"

    def on_mount(self) -> None:
        """Own colours, then the first question."""
        self.register_theme(THEME)
        self.theme = THEME.name
        from tui.screens.intake import IntakeScreen

        self.push_screen(IntakeScreen())

    def open_job(self, number: str) -> None:
        """Open a job where this person left it."""
        step, place = read_note(self.desk.log.left_at(number, who=self.desk.who))
        self.push_screen(_step_screen(step, number, place))

    def open_step(self, number: str, step: Step, place: Place | None = None, says: str = "") -> None:
        """Go from one step of a job to another."""
        screen = _step_screen(step, number, place)
        self.switch_screen(screen)
        if says:
            self.call_after_refresh(screen.say, says)

    def action_help(self) -> None:
        """Explain the screen on top and its keys."""
        from tui.screens.help import HelpScreen

        if not isinstance(self.screen, HelpScreen):
            self.push_screen(HelpScreen(self.screen))

    def action_leave(self) -> None:
        """Leave; what is being typed is saved first."""
        self.commit_open_entry()
        self.exit()

    def commit_open_entry(self) -> None:
        """Save what is being typed on whatever step is open."""
        for screen in self.screen_stack:
            if isinstance(screen, JobScreen):
                screen.commit_open_entry()


def _step_screen(step: Step, number: str, place: Place | None) -> JobScreen:
    from tui.screens.steps import SCREENS

    return SCREENS[step](number, place)
