"""Every screen and widget of the program, for tests that hold for each of them."""

from collections.abc import Iterator
from importlib import import_module
from pkgutil import walk_packages

from textual.dom import DOMNode

import tui.app
import tui.screens
import tui.widgets


def places() -> Iterator[type[DOMNode]]:
    """Every screen and widget of the program, and the program; what they stand on of the framework is left out."""
    for room in (tui.screens, tui.widgets):
        for module in walk_packages(room.__path__, f"{room.__name__}."):
            import_module(module.name)
    yield from (kind for kind in kinds_of(DOMNode) if kind.__module__.startswith("tui."))


def kinds_of(kind: type) -> Iterator[type]:
    """Every class that comes from one, however far."""
    for each in kind.__subclasses__():
        yield each
        yield from kinds_of(each)
