"""The terminal emulator of the tests: pyte, with the dim text that it leaves out."""

from collections.abc import Iterator
from itertools import islice

import pyte

DIM, BLINK, NOT_BOLD_NOR_DIM, NO_BLINK = 2, 5, 22, 25
_LONG = {5: 1, 2: 3}
"""Numbers that follow where a colour is given by its number, or by red, green and blue."""


class Emulator(pyte.Screen):
    """Shows dim text as blinking: the program never has anything blink, and pyte has no word for dim."""

    def select_graphic_rendition(self, *attrs: int) -> None:
        super().select_graphic_rendition(*_with_dim(attrs))


def _with_dim(codes: tuple[int, ...]) -> Iterator[int]:
    left = iter(codes)
    for code in left:
        if code in {38, 48}:
            kind = next(left, 0)
            yield from (code, kind, *islice(left, _LONG.get(kind, 0)))
        elif code == DIM:
            yield BLINK
        elif code == NOT_BOLD_NOR_DIM:
            yield from (NOT_BOLD_NOR_DIM, NO_BLINK)
        else:
            yield code
