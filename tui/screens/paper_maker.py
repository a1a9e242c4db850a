"""Has paper made, or looked at, while the screen stays alive."""

from collections.abc import Callable
from pathlib import Path
from typing import Protocol

from textual.dom import DOMNode

from tui.screens.paper_making import Attempt


class Say(Protocol):
    """Tells the person something."""

    def __call__(self, sentence: str, *, bad: bool = False) -> None: ...


class PaperMaker:
    """Makes one paper at a time in a thread of its own, and hears what became of it."""

    def __init__(self, node: DOMNode, say: Say, made: Callable[[Attempt], object] | None = None) -> None:
        """`node` is the screen or widget that asks; `made` hears what became of it, else the person is told."""
        self._node = node
        self._say = say
        self._made = made or self._tell
        self.is_making = False
        """A paper is being made; another one waits to be asked for."""

    def make(self, folder: str, paper: Callable[[Path], Attempt], what: str) -> None:
        """Have a paper made into a folder, or a file looked at, and say so."""
        path = Path(folder).expanduser().absolute()
        self.is_making = True
        self._say(f"Making {what} …")
        # The node is called by way of its messages: a thread touches no widget.
        self._node.run_worker(
            lambda: self._node.call_later(self._hear, paper(path)), thread=True, exclusive=True, group="paper"
        )

    def _hear(self, attempt: Attempt) -> None:
        self.is_making = False
        self._made(attempt)

    def _tell(self, attempt: Attempt) -> None:
        self._say(attempt.says, bad=attempt.is_trouble)
