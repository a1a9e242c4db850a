"""What the driver sends makes the same picture as what it was given, cell by cell, whatever came before."""

from dataclasses import dataclass

import pyte
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from tests.examples import examples
from tests.tui.terminal_driver.judge import Judge, shown
from tui.terminal.abilities import Abilities, Colours
from tui.terminal.double_buffer import Canvas
from tui.terminal.frames import FrameReader, unjoined
from tui.terminal.glyphs import ASCII, Glyphs
from tui.terminal.screen_buffer import Picture
from tui.terminal.sgr import DEFAULT

WIDTH, HEIGHT = 24, 8
LOOKS = ("", "1", "2", "1;2;36", "4;31", "7", "2;7", "1;7;97;41", "38;5;200", "48;2;1;2;3", "3;9;32", "44")
LETTERS = st.sampled_from([*"ab .Ω✓─é漢字…", "e\u0301", "q\u0323\u0302"])
"""The last two are one letter each with marks that take no room."""


def texts(least: int, most: int) -> st.SearchStrategy[str]:
    return st.lists(LETTERS, min_size=least, max_size=most).map("".join)


@dataclass(frozen=True)
class Frame:
    """Runs of text at their places, as the framework writes them."""

    runs: tuple[tuple[int, int, str, str], ...]

    @property
    def written(self) -> str:
        return "".join(
            f"\x1b[{y + 1};{x + 1}H" + (f"\x1b[{look}m{text}\x1b[0m" if look else text)
            for x, y, text, look in self.runs
        )


def fitting(run: tuple[int, int, str, str]) -> tuple[int, int, str, str]:
    x, y, text, look = run
    while x + cell_len(text) > WIDTH:
        text = text[:-1]
    if x + cell_len(text) == WIDTH and text.endswith("\u0302"):
        # Terminals differ in what a mark in the last column is joined to; there none is sent.
        text = f"{text[:-3]}b"
    return x, y, text, look


runs = st.tuples(st.integers(0, WIDTH - 2), st.integers(0, HEIGHT - 1), texts(0, 12), st.sampled_from(LOOKS)).map(
    fitting
)
rows = st.tuples(st.just(0), st.integers(0, HEIGHT - 1), texts(WIDTH, WIDTH), st.sampled_from(LOOKS)).map(fitting)
frames = st.lists(st.one_of(runs, rows), max_size=HEIGHT).map(lambda each: Frame(tuple(each)))


@st.composite
def scrolled(draw: st.DrawFn) -> list[Frame]:
    """A list longer than the screen, seen from one row of it and then another, with lines above and below it."""
    lines = draw(st.lists(texts(4, 10), min_size=14, max_size=14))
    looks = draw(st.lists(st.sampled_from(LOOKS), min_size=14, max_size=14))
    first, last = draw(st.integers(0, 2)), draw(st.integers(5, HEIGHT - 1))
    tops = draw(st.lists(st.integers(0, 6), min_size=2, max_size=6))
    return [
        Frame(
            tuple(
                run
                for y in range(first, last + 1)
                for run in ((0, y, " " * WIDTH, ""), (0, y, lines[top + y - first], looks[top + y - first]))
            )
        )
        for top in tops
    ]


def agree(drawn: list[Frame], abilities: Abilities) -> int:
    """Draw frame after frame both ways and compare the pictures each time; the bytes that were sent."""
    own, given_screen = Judge(WIDTH, HEIGHT), Judge(WIDTH, HEIGHT)
    for screen in (own, given_screen):
        screen.reset_mode(7, private=True)
    sent_to, written_to = pyte.Stream(own), pyte.Stream(given_screen)
    canvas, sent = Canvas(WIDTH, HEIGHT, abilities), 0
    for frame in drawn:
        canvas.write(frame.written)
        canvas.complete()
        taken = canvas.taken()
        sent += len(taken.encode())
        sent_to.feed(taken)
        written_to.feed(frame.written)
        assert shown(own).cells == shown(given_screen).cells
    return sent


@examples(0.8)
@given(st.lists(frames, min_size=1, max_size=6), st.booleans())
def test_every_frame_is_shown_as_it_was_written(drawn: list[Frame], takes_back: bool) -> None:
    agree(drawn, Abilities(colours=Colours.MANY, takes_back=takes_back, holds_frames=True))


@examples(0.6)
@given(scrolled())
def test_a_list_that_scrolls_is_shown_as_it_was_written(drawn: list[Frame]) -> None:
    agree(drawn, Abilities(colours=Colours.MANY))


def test_rows_that_only_moved_are_moved_by_the_terminal() -> None:
    lines = [f"circuit {number} {'kitchen sockets' if number % 2 else 'immersion'}"[:WIDTH] for number in range(30)]

    def from_row(top: int) -> Frame:
        return Frame(tuple((0, y, lines[top + y].ljust(WIDTH), "") for y in range(HEIGHT - 1)))

    once = agree([from_row(0)], Abilities())
    for further in (1, 3):
        assert agree([from_row(0), from_row(further)], Abilities()) - once < 20 + further * (WIDTH + 4)
        assert agree([from_row(further), from_row(0)], Abilities()) - once < 20 + further * (WIDTH + 4) + 30


def test_what_does_not_change_is_not_sent() -> None:
    frame = Frame(((3, 2, "0.42", "1"), (0, 5, "漢字", "7")))
    once = agree([frame], Abilities())
    assert agree([frame, frame, frame], Abilities()) == once


@examples(0.5)
@given(frames, frames, st.integers(10, 40), st.integers(3, 14))
def test_a_screen_of_another_size_is_painted_whole(before: Frame, after: Frame, width: int, height: int) -> None:
    canvas = Canvas(WIDTH, HEIGHT, Abilities(colours=Colours.MANY))
    canvas.write(before.written)
    canvas.complete()
    own, given_screen = Judge(WIDTH, HEIGHT), Judge(width, height)
    pyte.Stream(own).feed(canvas.taken())
    own.resize(height, width)
    canvas.resize(width, height)
    blank = "".join(f"\x1b[{y + 1}H{' ' * width}" for y in range(height))
    kept = Frame(tuple(run for run in after.runs if run[0] + 2 * len(run[2]) <= width and run[1] < height))
    canvas.write(blank + kept.written)
    canvas.complete()
    for screen in (own, given_screen):
        screen.reset_mode(7, private=True)
    pyte.Stream(own).feed(canvas.taken())
    pyte.Stream(given_screen).feed(kept.written)
    assert shown(own).cells == shown(given_screen).cells


def test_a_frame_that_was_never_seen_is_never_sent() -> None:
    canvas = Canvas(WIDTH, HEIGHT, Abilities())
    canvas.write(Frame(((0, 0, "gone", ""),)).written)
    canvas.complete()
    canvas.write(Frame(((0, 0, "here", ""),)).written)
    canvas.complete()
    taken = canvas.taken()
    assert "here" in taken
    assert "gone" not in taken


def test_something_not_understood_goes_through_and_all_is_painted_anew() -> None:
    canvas = Canvas(WIDTH, HEIGHT, Abilities())
    canvas.write(Frame(((2, 2, "0.42", ""),)).written)
    canvas.complete()
    canvas.taken()
    canvas.write("\x1b[?9;1z")
    canvas.complete()
    taken = canvas.taken()
    assert taken.startswith("\x1b[?9;1z")
    assert "0.42" in taken


@given(st.text(st.sampled_from("a Ω漢é\u0301👩🔧👍🏽⚠\u200d\ufe0f🇬🇧"), max_size=10), st.sampled_from([None, ASCII]))
def test_a_text_takes_as_many_cells_as_the_framework_counts(text: str, glyphs: Glyphs | None) -> None:
    reader, written = FrameReader(Abilities(glyphs=glyphs)), f"a{text}"
    reader.read(written, Picture(WIDTH, HEIGHT))
    assert reader.x == cell_len(written)


def test_a_sign_joined_out_of_several_is_shown_by_its_first() -> None:
    assert unjoined("⚠\ufe0f 👩\u200d🔧👍🏽e\u0301") == "⚠  👩👍e\u0301"


def test_a_mark_in_the_last_column_is_left_out_and_elsewhere_stands_with_its_letter() -> None:
    picture = Picture(3, 1)
    assert picture.put(0, 0, "q\u0323e\u0301q\u0323", DEFAULT) == 3
    assert [letter for letter, _ in picture.rows[0]] == ["q\u0323", "é", "q"]


def test_a_bell_disturbs_nothing() -> None:
    canvas = Canvas(WIDTH, HEIGHT, Abilities())
    canvas.write(Frame(((2, 2, "0.42", ""),)).written)
    canvas.complete()
    canvas.taken()
    canvas.write("\x07")
    canvas.complete()
    assert canvas.taken() == "\x07"


def test_the_terminals_cursor_stands_where_the_next_letter_goes() -> None:
    own = Judge(WIDTH, HEIGHT)
    canvas, stream = Canvas(WIDTH, HEIGHT, Abilities()), pyte.Stream(own)

    def draw(*written: str) -> str:
        for each in written:
            canvas.write(each)
        canvas.complete()
        taken = canvas.taken()
        stream.feed(taken)
        return taken

    draw("\x1b[3;5H\x1b[4mab\x1b[0m\x1b[4;7;51m \x1b[0m")
    assert shown(own).cursor == (6, 2)
    assert not own.buffer[2][6].reverse
    assert draw("\x1b[3;7H\x1b[4mc\x1b[0m\x1b[4;7;51m \x1b[0m").startswith("c")
    assert shown(own).cursor == (7, 2)
    draw("\x1b[3;5Habc ")
    assert shown(own).cursor is None
