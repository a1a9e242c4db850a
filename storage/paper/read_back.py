"""Whether every text that was set stands at its place in the finished file, letter for letter."""

from collections import defaultdict
from collections.abc import Iterable
from itertools import pairwise
from typing import Any, NamedTuple

from storage.paper.expected import Expectations, ExpectedText, MarkKind
from storage.paper.letters import is_joined, runs_leftwards, squashed
from storage.paper.mupdf import mupdf
from storage.paper.page import SIDEWAYS, UPRIGHT, Area
from storage.paper.paper_error import PaperError
from storage.paper.progress import tell
from storage.paper.typesetting import MarkPosition

_SIDE = 24.0
"""Points of the squares a page is parted into, so that a letter is held against few rectangles."""
_MARGIN = 2.0
"""Points by which a letter's middle may stand outside what the marks say."""
_SLANTED = 0.01
_UNKNOWN = "\ufffd"
"""What comes back for a shape that tells no letter."""


class Spot(NamedTuple):
    """A rectangle on a page, in points from its top left; pages count from 0."""

    page: int
    x0: float
    y0: float
    x1: float
    y1: float


_Squares = dict[tuple[int, int], list[Spot]]
"""The rectangles of a page by the squares they reach into, counted across and down."""
_Letter = tuple[int, int, tuple[float, float], tuple[float, float, float, float]]
"""A letter as the PDF library traces it: its code, its glyph, where it stands, the rectangle it takes."""


def read_back(pdf: bytes, expected: Expectations, marks: Iterable[MarkPosition]) -> None:
    """Raise PaperError for the first text that did not come back as typed, at its place."""
    document = mupdf().open(stream=pdf, filetype="pdf")
    areas = [UPRIGHT if page.rect.width < page.rect.height else SIDEWAYS for page in document]
    places = _Places(tuple(marks), areas)
    spots = {at: places.of(each) for at, each in enumerate(expected.texts)}
    found = _texts_at(document, [spot for each in spots.values() for spot in each])
    for at, each in enumerate(expected.texts):
        stands = "".join(found.get(spot, "") for spot in spots[at])
        meant = squashed(each.text)
        if stands != meant and not (_is_set_otherwise(meant) and _to_compare(stands) == _to_compare(meant)):
            raise PaperError(
                f"“{each.text[:60]}” ({each.what[:120]}) cannot be printed as typed; write it with other letters or signs"
            )


class _Places:
    """Where texts must stand, by the marks the engine set."""

    def __init__(self, marks: tuple[MarkPosition, ...], areas: list[Area]) -> None:
        self._areas = areas
        self._sides = {(each.mark, each.side): each for each in marks if each.mark}
        rows = [each for each in marks if each.side in {"row", "end"}]
        self._after = {each.mark: later for each, later in pairwise(rows) if each.mark}

    def of(self, text: ExpectedText) -> list[Spot]:
        """The rectangles of a text, in the order it is read; none where it was not set at all."""
        match text.kind:
            case MarkKind.ROW:
                return self._cell(text)
            case MarkKind.BOX:
                return self._box(text.mark)
            case MarkKind.FLOW:
                return self._flow(text.mark)

    def _cell(self, text: ExpectedText) -> list[Spot]:
        top, below = self._sides.get((text.mark, "row")), self._after.get(text.mark)
        if top is None or below is None:
            return []
        bottom = below.y if below.page == top.page else self._areas[top.page].bottom
        left, right = text.across
        return [Spot(top.page, left, top.y - _MARGIN, right, bottom - _MARGIN)]

    def _box(self, mark: int) -> list[Spot]:
        start, end = self._sides.get((mark, "from")), self._sides.get((mark, "to"))
        if start is None or end is None or start.page != end.page:
            return []
        return [Spot(start.page, start.x - _MARGIN, start.y - _MARGIN, end.x + _MARGIN, end.y + _MARGIN)]

    def _flow(self, mark: int) -> list[Spot]:
        start, end = self._sides.get((mark, "from")), self._sides.get((mark, "to"))
        if start is None or end is None:
            return []
        spots: list[Spot] = []
        for page in range(start.page, end.page + 1):
            area = self._areas[page]
            top = start.y if page == start.page else area.top
            bottom = end.y if page == end.page else area.bottom
            spots.append(Spot(page, area.left - _MARGIN, top - _MARGIN, area.right + _MARGIN, bottom + _MARGIN))
        return spots


def _texts_at(document: Any, spots: list[Spot]) -> dict[Spot, str]:
    wanted: dict[int, _Squares] = defaultdict(lambda: defaultdict(list))
    for spot in dict.fromkeys(spots):
        for down in range(int(spot.y0 // _SIDE), int(spot.y1 // _SIDE) + 1):
            for across in range(int(spot.x0 // _SIDE), int(spot.x1 // _SIDE) + 1):
                wanted[spot.page][across, down].append(spot)
    found: dict[Spot, list[str]] = defaultdict(list)
    for page, squares in wanted.items():
        tell(f"reading back page {page + 1} of {len(document)}")
        _gather(document[page], squares, found)
    return {spot: squashed("".join(texts)) for spot, texts in found.items()}


def _gather(page: Any, squares: _Squares, found: dict[Spot, list[str]]) -> None:
    """Texts inside the page box in the order they are set; those across the page are the draft mark."""
    width, height = page.rect.width, page.rect.height
    for span in page.get_texttrace():
        if abs(span["dir"][1]) > _SLANTED:
            continue
        letters = span["chars"]
        (begins, _), (ends, _) = _middle(letters[0]), _middle(letters[-1])
        first, last = _at(letters[0], squares), _at(letters[-1], squares)
        if first and first == last and begins >= 0 and ends <= width:
            text = "".join([chr(each[0]) for each in letters])
            for spot in first:
                found[spot].append(text)
            continue
        for each in letters:
            x, y = _middle(each)
            if 0 <= x <= width and 0 <= y <= height:
                for spot in _at(each, squares):
                    found[spot].append(chr(each[0]))


def _middle(letter: _Letter) -> tuple[float, float]:
    x0, y0, x1, y1 = letter[3]
    return (x0 + x1) / 2, (y0 + y1) / 2


def _at(letter: _Letter, squares: _Squares) -> list[Spot]:
    x, y = _middle(letter)
    near = squares.get((int(x // _SIDE), int(y // _SIDE)), ())
    return [spot for spot in near if spot.x0 <= x <= spot.x1 and spot.y0 <= y <= spot.y1]


def _is_set_otherwise(text: str) -> bool:
    """Writing from right to left is stored in the order it is seen; in Indic writing several letters share one shape."""
    return any(runs_leftwards(letter) or is_joined(letter) for letter in text)


def _to_compare(text: str) -> list[str]:
    """Letters whatever their order, less those whose shape tells no single letter."""
    return sorted(letter for letter in text if not is_joined(letter) and letter != _UNKNOWN)
