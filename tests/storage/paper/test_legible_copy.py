"""Papers after a poor copier: black or white at 100 dots to the inch.

Digits are read back from the dots alone: each is compared with every digit of the same face, copied in the same way at
every quarter of a dot, and is the one that fewest dots tell it from. A reader of print does no less. How coarse a copy must
still be read is common practice, with no source.
"""

from collections.abc import Iterator
from functools import cache
from itertools import product
from pathlib import Path
from typing import Any

import numpy as np
import pymupdf
import pytest
from numpy.typing import NDArray

from domain.inspection.observation import Code
from tests.builders import complete_report
from tests.storage.paper.pages import Paper, issued

FONTS = Path(__file__).parents[3] / "storage" / "paper" / "fonts"
DOTS = 100
DARK = 160
"""Of 255: what a copier takes for ink."""
DIGITS = "0123456789"
PARTS = 3
"""Of a dot, across and down, from which a digit is copied."""
ENOUGH = 60
"""Digits of a page that are read."""
Bits = NDArray[np.bool_]


def copied(page: pymupdf.Page) -> Bits:
    seen = page.get_pixmap(dpi=DOTS, colorspace=pymupdf.csGRAY)
    return np.frombuffer(seen.samples, np.uint8).reshape(seen.height, seen.stride)[:, : seen.width] < DARK


def tight(bits: Bits) -> Bits:
    rows, columns = np.flatnonzero(bits.any(1)), np.flatnonzero(bits.any(0))
    return bits[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1] if rows.size else bits[:0, :0]


@cache
def shapes(face: str, size: float) -> tuple[tuple[str, Bits], ...]:
    """Each digit of a face, copied from every part of a dot."""
    inch, places = 72, list(product(range(len(DIGITS)), range(PARTS), range(PARTS)))
    page = pymupdf.open().new_page(width=25 * len(places) * inch / DOTS, height=inch)
    for at, (digit, right, down) in enumerate(places):
        x, y = (25 * at + 5 + right / PARTS) * inch / DOTS, (40 + down / PARTS) * inch / DOTS
        page.insert_text((x, y), DIGITS[digit], fontsize=size, fontname="F", fontfile=str(FONTS / f"{face}.ttf"))
    copy = copied(page)
    return tuple((DIGITS[digit], tight(copy[:, 25 * at : 25 * at + 25])) for at, (digit, _, _) in enumerate(places))


def unlike(one: Bits, other: Bits) -> int:
    """Dots by which two differ, laid over each other as well as they can be."""
    high, wide = max(one.shape[0], other.shape[0]) + 1, max(one.shape[1], other.shape[1]) + 1

    def laid(bits: Bits) -> Iterator[Bits]:
        for down, right in product(range(high - bits.shape[0] + 1), range(wide - bits.shape[1] + 1)):
            whole = np.zeros((high, wide), bool)
            whole[down : down + bits.shape[0], right : right + bits.shape[1]] = bits
            yield whole

    return min(int((each ^ still).sum()) for still in [next(laid(one))] for each in laid(other))


def read(seen: Bits, face: str, size: float) -> str:
    return min(shapes(face, size), key=lambda shape: unlike(seen, shape[1]))[0] if seen.size else "?"


@pytest.fixture(scope="module")
def paper() -> Paper:
    return Paper(issued(complete_report(Code.C2)))


def digits_of(page: Any, face: str) -> Iterator[tuple[str, float, tuple[float, float, float, float]]]:
    """Each digit set upright in a face: what it is, its size, and from just over it to its foot, where no rule stands."""
    for block in page.get_text("rawdict")["blocks"]:
        for line in block.get("lines", ()):
            for span in line["spans"]:
                if line["dir"] == (1.0, 0.0) and span["font"].endswith(face):
                    for letter in span["chars"]:
                        if letter["c"] in DIGITS:
                            (left, _, right, _), (_, foot) = letter["bbox"], letter["origin"]
                            size = span["size"]
                            yield letter["c"], size, (left, foot - 0.76 * size, right, foot + 0.05 * size)


@pytest.mark.parametrize(
    ("face", "words"), [("NotoSans-Condensed", "Live to earth"), ("NotoSans-Regular", "External loop impedance")]
)
def test_figures_are_still_read_right_from_a_black_and_white_copy_at_100_dots_to_the_inch(paper, face, words):
    page = next(page for page in paper.document if words in page.get_text())
    copy, scale = copied(page), DOTS / 72
    found = [
        (digit, read(tight(copy[round(top * scale) : round(foot * scale), round(left * scale) : round(right * scale)]), face, size))
        for digit, size, (left, top, right, foot) in list(digits_of(page, face))[:ENOUGH]
    ]  # fmt: skip
    assert len(found) >= 40
    assert len({was for was, _ in found}) >= 9
    wrong = [each for each in found if each[0] != each[1]]
    assert len(wrong) <= len(found) * 0.03, wrong


def test_a_paler_or_smaller_print_would_not_be_read():
    """The measure can fail: digits of 4 points are not told apart."""
    page = pymupdf.open().new_page(width=300, height=60)
    face, said = "NotoSans-Condensed", DIGITS * 4
    page.insert_text((10, 30), said, fontsize=4, fontname="F", fontfile=str(FONTS / f"{face}.ttf"))
    copy, scale = copied(page), DOTS / 72
    seen = [
        read(tight(copy[round(top * scale) : round(foot * scale), round(left * scale) : round(right * scale)]), face, 8)
        for _, _, (left, top, right, foot) in digits_of(page, "Condensed")
    ]
    assert sum(was != got for was, got in zip(said, seen, strict=True)) > len(said) * 0.3
