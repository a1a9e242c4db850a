"""How a cell looks, read from and written as the codes terminals take for it."""

from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from rich.color import Color, ColorSystem, ColorType

from tui.terminal.abilities import Colours

BOLD, DIM, ITALIC, UNDERLINE, REVERSE, HIDDEN, STRUCK, TWICE, OVER, MARK, STANDS = (1 << bit for bit in range(11))
_SETS = {
    1: BOLD,
    2: DIM,
    3: ITALIC,
    4: UNDERLINE,
    7: REVERSE,
    8: HIDDEN,
    9: STRUCK,
    21: TWICE,
    53: OVER,
    51: MARK,
    52: STANDS,
}
_ENDS = {
    22: BOLD | DIM,
    23: ITALIC,
    24: UNDERLINE | TWICE,
    27: REVERSE,
    28: HIDDEN,
    29: STRUCK,
    55: OVER,
    54: MARK | STANDS,
}
_BLINKS = {5, 6, 25}
"""Nothing blinks here."""


class Look(NamedTuple):
    """Attributes as bits; colours as the codes that set them, empty for the terminal's own.

    MARK, the code for framed text, says that the terminal's cursor stands on the cell, where somebody types. STANDS, the
    code for encircled text, says the same of what is only come to: a box or row at rest, which keeps its look.
    """

    attributes: int = 0
    ink: str = ""
    ground: str = ""


DEFAULT = Look()


class NotUnderstoodError(Exception):
    """A code outside what is known here."""


@lru_cache(maxsize=1024)
def apply_sgr(look: Look, codes: str) -> Look:
    """The look after one sequence of codes."""
    attributes, ink, ground = look
    try:
        left = iter([int(code or 0) for code in codes.split(";")])
    except ValueError as error:
        raise NotUnderstoodError(codes) from error
    for code in left:
        if code == 0:
            attributes, ink, ground = DEFAULT
        elif code in _SETS:
            attributes |= _SETS[code]
        elif code in _ENDS:
            attributes &= ~_ENDS[code]
        elif code in {38, 48}:
            colour = _long_colour(code, left)
            ink, ground = (colour, ground) if code == 38 else (ink, colour)
        elif 30 <= code <= 39 or 90 <= code <= 97:
            ink = "" if code == 39 else str(code)
        elif 40 <= code <= 49 or 100 <= code <= 107:
            ground = "" if code == 49 else str(code)
        elif code not in _BLINKS:
            raise NotUnderstoodError(codes)
    return Look(attributes, ink, ground)


def _long_colour(code: int, left: Iterator[int]) -> str:
    kind = next(left, 0)
    count = {5: 1, 2: 3}.get(kind, 0)
    numbers = [number for _, number in zip(range(count), left, strict=False)]
    if not count or len(numbers) != count or max(numbers) > 255:
        raise NotUnderstoodError(str(code))
    return ";".join(map(str, (code, kind, *numbers)))


@lru_cache(maxsize=1024)
def reduce_colours(look: Look, colours: Colours) -> Look:
    """The look in the colours a terminal has."""
    attributes, ink, ground = look
    return Look(attributes, _folded(ink, 30, colours), _folded(ground, 40, colours))


def _folded(codes: str, base: int, colours: Colours) -> str:
    if not codes or colours is Colours.MANY or colours is Colours.NONE:
        return codes if colours else ""
    numbers = [int(code) for code in codes.split(";")]
    if len(numbers) == 1:
        number = numbers[0] - base
    elif numbers[1] == 5 and numbers[2] < 16:
        number = numbers[2] % 8 + (60 if numbers[2] > 7 else 0)
    else:
        number = _nearest(numbers[1:])
    return str(base + (number % 60 if colours is Colours.EIGHT else number))


def _nearest(numbers: list[int]) -> int:
    kind, *rest = numbers
    colour = Color.from_rgb(*rest) if kind == 2 else Color("", ColorType.EIGHT_BIT, number=rest[0])
    number = colour.downgrade(ColorSystem.STANDARD).number or 0
    return number % 8 + (60 if number > 7 else 0)


@lru_cache(maxsize=4096)
def sgr_between(before: Look | None, after: Look, *, takes_back: bool) -> str:
    """The shortest sequence from one look to another; None is a look not known."""
    if before == after:
        return ""
    fresh = [code for code, bit in _SETS.items() if after.attributes & bit]
    anew = ";".join(["", *map(str, fresh), *filter(None, (after.ink, after.ground))])
    if before is None or not takes_back:
        return f"\x1b[{anew}m"
    ends = [(code, bits) for code, bits in _ENDS.items() if before.attributes & bits & ~after.attributes]
    kept = before.attributes
    for _, bits in ends:
        kept &= ~bits
    sets = [code for code, bit in _SETS.items() if after.attributes & bit & ~kept]
    colours = [
        new or own
        for old, new, own in ((before.ink, after.ink, "39"), (before.ground, after.ground, "49"))
        if old != new
    ]
    changes = ";".join([*(str(code) for code, _ in ends), *map(str, sets), *colours])
    return f"\x1b[{min(changes, anew, key=len)}m"
