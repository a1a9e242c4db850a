"""What takes longer than a moment is told while it is done, beside the answer."""

from collections.abc import Callable, Generator
from contextlib import contextmanager
from threading import Event, Thread

from tui.commands.command import aside

_MOMENT = 1.0
"""Seconds before the first word, and between two."""


@contextmanager
def told_on_the_way(doing_now: Callable[[], str], moment: float = _MOMENT) -> Generator[None]:
    """Say on standard error what is being done, once it takes longer than a moment."""
    done = Event()

    def tell() -> None:
        said = ""
        while not done.wait(moment):
            if (doing := doing_now()) and doing != said:
                said = doing
                aside(f"… {doing}")

    telling = Thread(target=tell, daemon=True)
    telling.start()
    try:
        yield
    finally:
        done.set()
        telling.join()
