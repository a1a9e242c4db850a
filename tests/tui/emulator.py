"""The terminal emulator of the tests: pyte, with the dim, framed and encircled text that it leaves out."""

from collections.abc import Iterator
from itertools import islice

import pyte

ITALIC, BLINK, STRUCK, NOT_BOLD_NOR_DIM, NOT_ITALIC, NO_BLINK, NOT_STRUCK = 3, 5, 9, 22, 23, 25, 29
_SHOWN_AS = {
    2: (BLINK,),
    NOT_BOLD_NOR_DIM: (NOT_BOLD_NOR_DIM, NO_BLINK),
    51: (ITALIC,),
    52: (STRUCK,),
    54: (NOT_ITALIC, NOT_STRUCK),
}
_LONG = {5: 1, 2: 3}
"""Numbers that follow where a colour is given by its number, or by red, green and blue."""


class Emulator(pyte.Screen):
    """Shows dim text as blinking, framed as italic and encircled as struck: pyte has no words for them.

    The program never has anything blink, sets nothing in italics and strikes nothing.
    """

    def select_graphic_rendition(self, *attrs: int) -> None:
        super().select_graphic_rendition(*_with_missing(attrs))


def _with_missing(codes: tuple[int, ...]) -> Iterator[int]:
    left = iter(codes)
    for code in left:
        if code in {38, 48}:
            kind = next(left, 0)
            yield from (code, kind, *islice(left, _LONG.get(kind, 0)))
        else:
            yield from _SHOWN_AS.get(code, (code,))
