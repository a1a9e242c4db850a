"""What is being done with the paper that is being made, for whoever waits for it."""

from collections.abc import Callable

_told: list[str] = [""]
_listeners: list[Callable[[str], object]] = []


def tell(doing: str) -> None:
    """Say what is done now, such as: reading back page 3 of 12; "" once it is done."""
    _told[0] = doing
    for listener in _listeners:
        listener(doing)


def doing_now() -> str:
    """What was said last in this process."""
    return _told[0]


def have_told(listener: Callable[[str], object]) -> None:
    """Have somebody hear of it each time, for as long as this process runs."""
    _listeners.append(listener)
