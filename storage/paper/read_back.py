"""Whether everything promised stands where it was put in the finished file."""

import unicodedata
from collections import defaultdict
from collections.abc import Iterator
from typing import Any, NamedTuple

from storage.paper.escape import squashed
from storage.paper.mupdf import mupdf
from storage.paper.paper_error import PaperError
from storage.paper.press import Promise, Spot

_BAND = 16.0
_JOINED = (("\u0900", "\u0dff"), ("\u1000", "\u109f"), ("\u1780", "\u17ff"))
"""Indic, Burmese and Khmer letters."""
_UNKNOWN = "\ufffd"
"""What comes back for a shape that tells no letter."""


class _Letter(NamedTuple):
    text: str
    x: float
    y: float


def read_back(pdf: bytes, promises: list[Promise]) -> None:
    """Raise PaperError for the first text that did not come back as typed, at its place."""
    document = mupdf().open(stream=pdf, filetype="pdf")
    found = _texts_at(document, [spot for promise in promises for spot in promise.spots])
    for promise in promises:
        stands = "".join(found.get(spot, "") for spot in dict.fromkeys(promise.spots))
        meant = squashed(promise.text)
        if stands != meant and not (_is_set_otherwise(meant) and _to_compare(stands) == _to_compare(meant)):
            raise PaperError(
                f"“{promise.text[:60]}” ({promise.what[:120]}) cannot be printed as typed; "
                "write it with other letters or signs"
            )


def _texts_at(document: Any, spots: list[Spot]) -> dict[Spot, str]:
    wanted: dict[int, dict[int, list[Spot]]] = defaultdict(lambda: defaultdict(list))
    for spot in dict.fromkeys(spots):
        for band in range(int(spot.y0 // _BAND), int(spot.y1 // _BAND) + 1):
            wanted[spot.page][band].append(spot)
    found: dict[Spot, list[str]] = defaultdict(list)
    for page, bands in wanted.items():
        for letter in _letters(document[page]):
            for spot in bands.get(int(letter.y // _BAND), ()):
                if spot.x0 <= letter.x <= spot.x1 and spot.y0 <= letter.y <= spot.y1:
                    found[spot].append(letter.text)
    return {spot: squashed("".join(texts)) for spot, texts in found.items()}


def _letters(page: Any) -> Iterator[_Letter]:
    """Letters inside the page box in the order they are set; those across the page are the draft mark."""
    width, height = page.rect.width, page.rect.height
    for block in page.get_text("rawdict", flags=mupdf().TEXT_PRESERVE_WHITESPACE)["blocks"]:
        for line in block["lines"]:
            if abs(line["dir"][1]) > 0.01:
                continue
            for span in line["spans"]:
                for char in span["chars"]:
                    x0, y0, x1, y1 = char["bbox"]
                    x, y = (x0 + x1) / 2, (y0 + y1) / 2
                    if 0 <= x <= width and 0 <= y <= height:
                        yield _Letter(char["c"], x, y)


def _is_set_otherwise(text: str) -> bool:
    """Writing from right to left is stored in the order it is seen; in Indic writing several letters share one shape."""
    return any(_runs_leftwards(letter) or _is_joined(letter) for letter in text)


def _to_compare(text: str) -> list[str]:
    """Letters whatever their order, less those whose shape tells no single letter."""
    return sorted(letter for letter in text if not _is_joined(letter) and letter != _UNKNOWN)


def _runs_leftwards(letter: str) -> bool:
    return unicodedata.bidirectional(letter) in {"R", "AL", "AN"}


def _is_joined(letter: str) -> bool:
    return any(first <= letter <= last for first, last in _JOINED)
