"""The two lines at the foot of a screen: the last word said to the person, and the keys."""

from rich.cells import cell_len
from rich.segment import Segment
from textual.reactive import var
from textual.strip import Strip
from textual.widget import Widget

from tui import theme
from tui.keys import Key, is_everywhere
from tui.widgets.wrapping import padded

WAYS_OUT = ("back", "let-be", "close", "coach-close", "no")
"""Keys that stay in sight however little room there is."""
NEXT = ">"
"""Stands before the key to press next."""
_APART = 2
"""Blanks between two keys."""


class SayLine(Widget):
    """One sentence for the person: what went wrong or what was done."""

    DEFAULT_CSS = "SayLine { height: 1; padding: 0 1; }"

    said: var[tuple[str, bool]] = var(("", False))
    """The sentence, and whether it tells of trouble."""
    quiet: var[str] = var("")
    """What stands there while nothing is said, and behind it where there is room."""

    def watch_quiet(self) -> None:
        self.refresh()

    def watch_said(self) -> None:
        self.refresh()

    def say(self, sentence: str, *, bad: bool = False) -> None:
        """Show a sentence, replacing the last one."""
        self.said = sentence, bad

    def render_line(self, y: int) -> Strip:  # noqa: ARG002
        sentence, bad = self.said
        width = self.content_size.width
        if not sentence and self.quiet:
            return Strip([Segment(padded(self.quiet, width), theme.QUIET)], width)
        for quiet in (self.quiet, self.quiet.partition(" since ")[0]):
            left = width - cell_len(quiet)
            if quiet and not bad and cell_len(sentence) + _APART <= left:
                return Strip([Segment(padded(sentence, left), theme.PLAIN), Segment(quiet, theme.QUIET)], width)
        text = f"{theme.SIGN_FAILS} {sentence}" if bad else sentence
        return Strip([Segment(padded(text, width), theme.FAILS if bad else theme.PLAIN)], width)


class KeyLine(Widget):
    """The keys that matter here, by name and word; as many as there is room for in full."""

    DEFAULT_CSS = "KeyLine { height: 1; padding: 0 1; }"

    keys: var[tuple[Key, ...]] = var(())
    """Those that belong in a foot line, in their order."""

    def __init__(self, stays: tuple[str, ...] = WAYS_OUT) -> None:
        super().__init__()
        self._stays = stays

    def watch_keys(self) -> None:
        self.refresh()

    def show_keys(self, keys: list[Key]) -> None:
        """Show those of the keys that belong in a foot line."""
        self.keys = tuple(key for key in keys if key.foot)

    def render_line(self, y: int) -> Strip:  # noqa: ARG002
        width = self.content_size.width
        segments: list[Segment] = []
        shown = that_fit(self.keys, width, self._stays)
        following = next_of(shown)
        for key in shown:
            if key is following and segments:
                segments[-1] = Segment(f"{segments[-1].text[:-1]}{NEXT}")
            segments += [Segment(key.shown, theme.HEAD), Segment(f" {key.word}{' ' * _APART}")]
        return Strip(segments).adjust_cell_length(width)


def next_of(keys: tuple[Key, ...]) -> Key | None:
    """The one to press next, for whoever does not know their way yet: what Enter does here, else the first thing done here.

    Where nothing is done, the way on through the job, or else the way back. None where there is no key but help.
    """
    others = [key for key in keys if key.id not in {"help", "coach"}]
    here = [key for key in others if not is_everywhere(key) and key.id not in WAYS_OUT]
    by_enter = [key for key in here if key.is_on_enter]
    on_through = [key for key in others if key.id == "next-open"]
    return next(iter((*by_enter, *here, *on_through, *others)), None)


def that_fit(keys: tuple[Key, ...], width: int, stays: tuple[str, ...] = WAYS_OUT) -> tuple[Key, ...]:
    """The keys a line has room for: help and the ways out, then what is done here, then the rest; in their own order."""
    taken: set[str] = set()
    room = width + _APART
    for key in sorted(keys, key=lambda key: (key.id not in {"help", *stays}, is_everywhere(key))):
        room -= cell_len(f"{key.shown} {key.word}") + _APART
        if room < 0:
            break
        taken.add(key.id)
    return tuple(key for key in keys if key.id in taken)
