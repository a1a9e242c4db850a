"""Another program that has to be waited for: told as soon as the wait is long, while the thread of the screens stands still."""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable

    from textual.app import App


class Waiting:
    """Hears of a wait, in whatever thread, and hands it to whoever shows it."""

    def __init__(self, shown_by: Callable[[str], object] = lambda _: None) -> None:
        self.shown_by = shown_by

    def __call__(self, sentence: str) -> None:
        """Tell the person that something has to be waited for."""
        self.shown_by(sentence)


def show_waits(app: App[Any]) -> Callable[[str], object]:
    """What shows a wait on the screen on top. Call it in the thread of the screens."""
    own = threading.get_ident()

    def show(sentence: str) -> None:
        if threading.get_ident() != own:
            app.call_from_thread(_say, app, sentence)
        else:
            _say(app, sentence)
            _paint_now(app)

    return show


def _say(app: App[Any], sentence: str) -> None:
    from tui.widgets.foot import SayLine

    for line in app.screen.query(SayLine):
        line.say(sentence)


def _paint_now(app: App[Any]) -> None:
    """Paint what changed without going back to the loop, which stands still until the wait is over."""
    screen = app.screen
    screen._dirty_widgets.update(screen.query("SayLine"))  # pyright: ignore[reportPrivateUsage]
    screen._on_timer_update()  # pyright: ignore[reportPrivateUsage]
