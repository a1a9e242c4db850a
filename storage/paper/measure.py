"""How wide a text is set, and how many lines it takes in a column; from the widths of the fonts themselves."""

from functools import cache, lru_cache
from importlib.resources import files
from typing import Any

from storage.paper.mupdf import mupdf

FONTS = files("storage.paper") / "fonts"
_FACES = {
    (False, False): "NotoSans-Regular.ttf",
    (False, True): "NotoSans-Bold.ttf",
    (True, False): "NotoSans-Condensed.ttf",
    (True, True): "NotoSans-CondensedBold.ttf",
}


@cache
def _face(*, condensed: bool, bold: bool) -> Any:
    return mupdf().Font(fontbuffer=FONTS.joinpath(_FACES[condensed, bold]).read_bytes())


@lru_cache(maxsize=20_000)
def text_width(text: str, size: float, *, condensed: bool = False, bold: bool = False) -> float:
    """In points, of one line; letters of other fonts count as the widest of this one."""
    return size * sum([_letter_width(letter, condensed=condensed, bold=bold) for letter in text])


@lru_cache(maxsize=20_000)
def _letter_width(letter: str, *, condensed: bool, bold: bool) -> float:
    """Of a letter one point high: letters are set beside each other at their own widths. Fonts have a few thousand of them."""
    return _face(condensed=condensed, bold=bold).text_length(letter, fontsize=1)


@lru_cache(maxsize=20_000)
def lines_in(text: str, width: float, size: float, *, condensed: bool = False, bold: bool = False) -> int:
    """How many lines a text takes in so many points."""
    if len(text) * size <= width and "\n" not in text:
        return 1
    return sum(_lines(part, width, size, condensed=condensed, bold=bold) for part in text.split("\n"))


def _lines(text: str, width: float, size: float, *, condensed: bool, bold: bool) -> int:
    if text_width(text, size, condensed=condensed, bold=bold) <= width:
        return 1
    count, used, blank = 1, 0.0, text_width(" ", size, condensed=condensed, bold=bold)
    for word in text.split(" "):
        wide = text_width(word, size, condensed=condensed, bold=bold)
        if used and used + blank + wide > width:
            count, used = count + 1, 0.0
        if wide > width:
            count, wide = count + int(wide // width), wide % width
        used += wide + (blank if used else 0)
    return count


def longest_word(text: str, size: float, *, condensed: bool = False, bold: bool = False) -> float:
    """In points, the widest word of a text."""
    return max((text_width(word, size, condensed=condensed, bold=bold) for word in text.split()), default=0.0)
