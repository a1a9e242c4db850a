"""The ways to the screens that are not the first. Each is loaded when somebody goes there, so that the first is there at once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.dom import DOMNode
from textual.screen import Screen

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence
    from typing import Any

    from domain.forms.choice.answers import Answers
    from domain.forms.choice.choosing import FormChoice
    from domain.place import Place
    from tui.job_page import JobPage
    from tui.keys import Key
    from tui.screens.decision import DecisionScreen
    from tui.screens.dialogs import ConfirmScreen
    from tui.screens.due import DueScreen
    from tui.screens.find import FindScreen
    from tui.screens.help import HelpScreen
    from tui.screens.job_screen import JobScreen
    from tui.screens.page import Page
    from tui.screens.palette import PaletteScreen
    from tui.screens.register import RegisterScreen


def to_job(number: str, note: str) -> JobScreen:
    """A job where it was left, as its note tells."""
    from tui.screens.job_screen import read_note

    return to_step(number, *read_note(note))


def job_among(screens: Sequence[Screen[Any]], number: str) -> JobScreen | None:
    """The lowest of the screens that is a step of a job."""
    from tui.screens.job_screen import JobScreen

    return next((screen for screen in screens if isinstance(screen, JobScreen) and screen.number == number), None)


def to_job_begun(number: str) -> JobScreen:
    """A job that was just begun."""
    from tui.job_page import JobPage

    return to_step(number, JobPage.DETAILS)


def to_step(number: str, step: JobPage, place: Place | None = None) -> JobScreen:
    """A step of a job."""
    from tui.screens.steps import SCREENS

    return SCREENS[step](number, place)


def to_decision(advice: FormChoice, answers: Answers, keep: Callable[[Mapping[str, object]], None]) -> DecisionScreen:
    """Which papers the answers lead to."""
    from tui.screens.decision import DecisionScreen

    return DecisionScreen(advice, answers, keep=keep)


def to_finding(words: str = "") -> FindScreen:
    """Finding a job, by words that were typed already."""
    from tui.screens.find import FindScreen

    return FindScreen(words)


def to_what_is_due() -> DueScreen:
    """What is due for all jobs."""
    from tui.screens.due import DueScreen

    return DueScreen()


def to_registers() -> RegisterScreen:
    """The registers."""
    from tui.screens.register import RegisterScreen

    return RegisterScreen()


def ask_who_practises(page: Page) -> None:
    """Who practises, and on to the practice."""
    from tui.screens.practice import ask_who

    ask_who(page)


def to_help(over: Screen[object]) -> HelpScreen:
    """What the screen on top is for, and its keys."""
    from tui.screens.help import HelpScreen

    return HelpScreen(over)


def to_palette(doings: list[tuple[Key, DOMNode]]) -> PaletteScreen:
    """Everything that can be done on the screen on top."""
    from tui.screens.palette import PaletteScreen

    return PaletteScreen(doings)


def to_confirm(question: str) -> ConfirmScreen:
    """A yes-or-no question."""
    from tui.screens.dialogs import ConfirmScreen

    return ConfirmScreen(question)
