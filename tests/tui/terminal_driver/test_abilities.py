"""What a terminal is taken to show, from its name and the person's wishes."""

from collections.abc import Mapping

import pytest
from rich.cells import cell_len

from tui import theme
from tui.terminal.abilities import Colours, abilities_of, moves_cursor
from tui.terminal.glyphs import ASCII, CONSOLE, Glyphs
from tui.terminal.sgr import BOLD, DEFAULT, DIM, REVERSE, UNDERLINE, Look, apply_sgr, reduce_colours, sgr_between

UTF_8 = {"LANG": "en_GB.UTF-8"}


@pytest.mark.parametrize(
    ("environment", "colours", "glyphs"),
    [
        ({"TERM": "xterm-256color"}, Colours.MANY, None),
        ({"TERM": "xterm"}, Colours.SIXTEEN, None),
        ({"TERM": "xterm", "COLORTERM": "truecolor"}, Colours.MANY, None),
        ({"TERM": "tmux-256color"}, Colours.MANY, None),
        ({"TERM": "screen"}, Colours.EIGHT, None),
        ({"TERM": "linux"}, Colours.EIGHT, CONSOLE),
        ({"TERM": "vt100"}, Colours.NONE, ASCII),
        ({"TERM": "vt220"}, Colours.NONE, ASCII),
        ({"TERM": ""}, Colours.NONE, ASCII),
        ({"TERM": "xterm-256color", "NO_COLOR": "1"}, Colours.NONE, None),
        ({"TERM": "xterm-mono"}, Colours.NONE, None),
        ({"TERM": "xterm", "LC_ALL": "en_GB.ISO-8859-1"}, Colours.SIXTEEN, ASCII),
        ({"TERM": "xterm", "LANG": "en_GB.ISO-8859-15@euro", "LC_CTYPE": "C.UTF-8"}, Colours.SIXTEEN, ASCII),
        ({"TERM": "xterm", "LC_ALL": "C"}, Colours.SIXTEEN, None),
        ({"TERM": "xterm", "asked": "ascii"}, Colours.SIXTEEN, ASCII),
        ({"TERM": "vt100", "asked": "all"}, Colours.NONE, None),
    ],
    ids=lambda each: " ".join(each.values()) if isinstance(each, dict) else "",
)
def test_a_terminal_is_known_by_its_name(
    environment: Mapping[str, str], colours: Colours, glyphs: Glyphs | None
) -> None:
    abilities = abilities_of(UTF_8 | environment, environment.get("asked", "auto"))
    assert abilities.colours is colours
    assert abilities.glyphs is glyphs


@pytest.mark.parametrize("name", ["dumb", "unknown", "emacs"])
def test_some_terminals_cannot_show_a_screen(name: str) -> None:
    assert not moves_cursor({"TERM": name})
    assert moves_cursor({"TERM": f"xterm-{name}"})


@pytest.mark.parametrize("glyphs", [ASCII, CONSOLE])
def test_a_stand_in_is_as_wide_as_what_it_stands_for(glyphs: Glyphs) -> None:
    for text in (theme.SIGN_GOOD, theme.SIGN_FAILS, "0.42 MΩ, IΔn 30 mA …", "── Client", "café ½ 漢字"):
        assert cell_len(glyphs.shown(text)) == cell_len(text)
    assert glyphs.shown("✓ within, ✗ over limit") == "v within, x over limit"
    assert glyphs.shown("4.7 kΩ") == "4.7 kR"


def test_ascii_shows_every_letter_as_one_of_its_own() -> None:
    assert ASCII.shown("Zoë Łoś, 70 °C ≤ 16 mm² — ½") == "Zoe Los, 70 oC < 16 mm2 - ?"
    assert ASCII.shown("漢") == "??"


def test_ascii_draws_a_box_that_looks_like_one() -> None:
    assert [ASCII.shown(line) for line in ("┌──┬──┐", "├──┼──┤", "└──┴──┘")] == ["+--+--+"] * 3


def test_the_linux_console_keeps_what_its_fonts_hold() -> None:
    assert CONSOLE.shown("┌── Zoë 70 °C ± ≤ ² █") == "┌── Zoë 70 °C ± ≤ ² █"
    assert CONSOLE.shown("√3 ω") == "V3 R"


@pytest.mark.parametrize(
    ("codes", "colours", "ink"),
    [
        ("31", Colours.EIGHT, "31"),
        ("91", Colours.EIGHT, "31"),
        ("91", Colours.SIXTEEN, "91"),
        ("38;5;9", Colours.SIXTEEN, "91"),
        ("38;5;9", Colours.MANY, "38;5;9"),
        ("38;5;196", Colours.EIGHT, "31"),
        ("38;2;0;0;250", Colours.EIGHT, "34"),
        ("38;2;1;2;3", Colours.NONE, ""),
        ("33", Colours.NONE, ""),
    ],
)
def test_a_colour_is_shown_as_the_nearest_there_is(codes: str, colours: Colours, ink: str) -> None:
    assert reduce_colours(apply_sgr(DEFAULT, codes), colours).ink == ink


def test_what_is_bold_or_reversed_stays_so_without_colour() -> None:
    look = reduce_colours(apply_sgr(DEFAULT, "1;7;31;44"), Colours.NONE)
    assert look == Look(BOLD | REVERSE)


@pytest.mark.parametrize(
    ("before", "after", "sent"),
    [
        (Look(BOLD), DEFAULT, "\x1b[m"),
        (Look(BOLD | UNDERLINE), Look(BOLD), "\x1b[24m"),
        (Look(BOLD), Look(BOLD, "31"), "\x1b[31m"),
        (Look(BOLD | DIM, "31"), Look(BOLD, "31"), "\x1b[22;1m"),
        (None, Look(REVERSE), "\x1b[;7m"),
        (Look(BOLD), Look(BOLD), ""),
    ],
)
def test_a_look_is_changed_the_short_way(before: Look | None, after: Look, sent: str) -> None:
    assert sgr_between(before, after, takes_back=True) == sent


def test_an_early_terminal_is_told_everything_anew() -> None:
    assert sgr_between(Look(BOLD | UNDERLINE), Look(BOLD), takes_back=False) == "\x1b[;1m"
