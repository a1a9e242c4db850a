"""The screen is right again after whatever happens between two frames: strangers, noise, other sizes, half a frame."""

from dataclasses import dataclass

import pyte
from hypothesis import example, given
from hypothesis import strategies as st

from tests.examples import examples
from tests.tui.terminal_driver.judge import Judge, shown
from tests.tui.terminal_driver.test_same_picture import HEIGHT, WIDTH, Frame, frames
from tui.terminal.abilities import Abilities, Colours
from tui.terminal.double_buffer import Canvas

STRANGERS = ("\x1b[2J", "\x1b[3;6r", "\x1b[5L", "\x1b[2P", "\x1b[4h", "\x1b[?6h", "\x1b[99m", "\x1b[38;7m", "\x1b8")
"""Sequences the framework does not write for frames: some erase, move or change what is written after them."""
NOISE = ("wall: going down\r\n\n\n", "\x1b[2J", "\x1b[4;7r\x1b[H", "\x1b[4h\x1b[31;7m", "\x1b[?7hxyz", "\x1b[2;5H\x1bM")
"""What another program may write over the screen."""


@dataclass(frozen=True)
class Stranger:
    sequence: str


@dataclass(frozen=True)
class Noise:
    written: str


@dataclass(frozen=True)
class Resized:
    """The window takes another size while a frame is being written; the framework then writes the whole screen."""

    width: int
    height: int
    half: Frame


sizes = st.builds(Resized, st.integers(WIDTH, 40), st.integers(HEIGHT, 14), frames)
happenings = st.one_of(
    frames, frames, st.sampled_from(STRANGERS).map(Stranger), st.sampled_from(NOISE).map(Noise), sizes
)


class Both:
    """One terminal that is sent what the driver sends, and a picture of what the framework wants."""

    def __init__(self) -> None:
        self.canvas = Canvas(WIDTH, HEIGHT, Abilities(colours=Colours.MANY))
        self.own = Judge(WIDTH, HEIGHT)
        self.own.reset_mode(7, private=True)
        self.sent_to = pyte.Stream(self.own)
        self._want(WIDTH, HEIGHT)

    def happens(self, what: Frame | Stranger | Noise | Resized) -> None:
        if isinstance(what, Frame):
            self._write(what)
        elif isinstance(what, Stranger):
            self.canvas.write(what.sequence)
        elif isinstance(what, Noise):
            self.sent_to.feed(what.written)
            self.canvas.repaint()
        else:
            self.canvas.write(what.half.written)
            self.own.resize(what.height, what.width)
            self.canvas.resize(what.width, what.height)
            self._want(what.width, what.height)
            self._write(Frame(tuple((0, y, " " * what.width, "") for y in range(what.height))))
        self.canvas.complete()
        self.sent_to.feed(self.canvas.taken())
        assert shown(self.own) == shown(self.wanted)

    def _write(self, frame: Frame) -> None:
        self.canvas.write(frame.written)
        self.written_to.feed(frame.written)

    def _want(self, width: int, height: int) -> None:
        self.wanted = Judge(width, height)
        self.wanted.reset_mode(7, private=True)
        self.wanted.cursor.hidden = True
        self.written_to = pyte.Stream(self.wanted)


def rows_from(first: int) -> Frame:
    """A list that fills the screen, from one of its rows on."""
    return Frame(tuple((0, y, f"circuit {first + y} of a board".ljust(WIDTH), "") for y in range(HEIGHT)))


@examples(0.8)
@example([rows_from(0), Noise("\x1b[4h"), Frame(((0, 2, "x", ""),))])
@example([rows_from(0), Stranger("\x1b[4h"), Frame(((0, 2, "x", ""),))])
@example([rows_from(0), Noise("\x1b[4;7r"), rows_from(1)])
@example([rows_from(0), Stranger("\x1b[?6h"), Noise("\x1b[4;7r"), rows_from(1)])
@given(st.lists(happenings, min_size=1, max_size=8))
def test_every_frame_is_shown_whatever_came_before_it(happened: list[Frame | Stranger | Noise | Resized]) -> None:
    both = Both()
    for what in happened:
        both.happens(what)
