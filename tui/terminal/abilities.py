"""What a terminal can do, told from the name it gives itself and from what the person asked for."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import IntEnum

from tui.terminal.glyphs import ASCII, CONSOLE, Glyphs


class Colours(IntEnum):
    """How many colours a terminal shows."""

    NONE = 0
    EIGHT = 8
    SIXTEEN = 16
    MANY = 256


@dataclass(frozen=True, slots=True)
class Abilities:
    """What the driver may send to a terminal."""

    colours: Colours = Colours.SIXTEEN
    glyphs: Glyphs | None = None
    """Glyphs to put in place of those it lacks; None where it shows them all."""
    takes_back: bool = True
    """Can end bold, underline and reverse one by one; otherwise all end together."""
    second_screen: bool = True
    """Keeps what stood on the screen before the program, and shows it again after."""
    holds_frames: bool = False
    """Can be told to show a large change all at once."""


CANNOT = frozenset({"dumb", "unknown", "network", "dialup", "emacs"})
"""Names of terminals that cannot move their cursor."""
_EARLY = ("vt1", "vt2", "vt5", "ansi", "pcansi", "cons")
_HOLDERS = ("xterm", "tmux", "foot", "alacritty", "wezterm", "contour", "ghostty", "mintty", "iterm", "rio")
_EIGHT_BIT = ("iso-8859", "iso8859", "latin", "cp125", "ascii", "646")


def moves_cursor(environment: Mapping[str, str]) -> bool:
    """Whether a screen can be painted on this terminal at all."""
    return environment.get("TERM", "") not in CANNOT


def abilities_of(environment: Mapping[str, str], glyphs: str = "auto") -> Abilities:
    """What the terminal named in an environment can do; `glyphs` is ascii or all where the person knows better."""
    name = environment.get("TERM", "")
    early = not name or name.startswith(_EARLY)
    console = name.startswith("linux")
    return Abilities(
        colours=_colours(name, environment, early=early),
        glyphs=_glyphs(environment, glyphs, early=early, console=console),
        takes_back=not early,
        second_screen=not (early or console),
        holds_frames=name.startswith(_HOLDERS),
    )


def _colours(name: str, environment: Mapping[str, str], *, early: bool) -> Colours:
    if environment.get("NO_COLOR") or (early and not name.endswith("color")) or "-mono" in name or name.endswith("-m"):
        return Colours.NONE
    if "256" in name or environment.get("COLORTERM") in {"truecolor", "24bit"}:
        return Colours.MANY
    return Colours.EIGHT if name.startswith(("linux", "screen")) or early else Colours.SIXTEEN


def _glyphs(environment: Mapping[str, str], asked: str, *, early: bool, console: bool) -> Glyphs | None:
    if asked != "auto":
        return ASCII if asked == "ascii" else None
    if early or _charset(environment).startswith(_EIGHT_BIT):
        return ASCII
    return CONSOLE if console else None


def _charset(environment: Mapping[str, str]) -> str:
    """The charset a locale names, empty for none. Python sets LC_CTYPE to UTF-8 where it finds no locale: not a choice."""
    named = [environment.get(name, "") for name in ("LC_ALL", "LC_CTYPE", "LANG")]
    chosen = next((locale for locale in named if locale and locale not in {"C.UTF-8", "C.utf8", "UTF-8"}), "")
    return chosen.partition(".")[2].partition("@")[0].casefold()
