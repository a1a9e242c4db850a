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

_BAND = 16.0
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
    wanted: dict[int, dict[int, list[Spot]]] = defaultdict(lambda: defaultdict(list))
    for spot in dict.fromkeys(spots):
        for band in range(int(spot.y0 // _BAND), int(spot.y1 // _BAND) + 1):
            wanted[spot.page][band].append(spot)
    found: dict[Spot, list[str]] = defaultdict(list)
    for page, bands in wanted.items():
        tell(f"reading back page {page + 1} of {len(document)}")
        _gather(document[page], bands, found)
    return {spot: squashed("".join(texts)) for spot, texts in found.items()}


def _gather(page: Any, bands: dict[int, list[Spot]], found: dict[Spot, list[str]]) -> None:
    """Texts inside the page box in the order they are set; those across the page are the draft mark."""
    width, height = page.rect.width, page.rect.height
    for span in page.get_texttrace():
        if abs(span["dir"][1]) > _SLANTED:
            continue
        run = [(chr(code), (x0 + x1) / 2, (y0 + y1) / 2) for code, _, _, (x0, y0, x1, y1) in span["chars"]]
        first, last = _at(run[0], bands), _at(run[-1], bands)
        if first and first == last and run[0][1] >= 0 and run[-1][1] <= width:
            for spot in first:
                found[spot].append("".join(letter for letter, _, _ in run))
            continue
        for each in run:
            if 0 <= each[1] <= width and 0 <= each[2] <= height:
                for spot in _at(each, bands):
                    found[spot].append(each[0])


def _at(letter: tuple[str, float, float], bands: dict[int, list[Spot]]) -> list[Spot]:
    _, x, y = letter
    return [spot for spot in bands.get(int(y // _BAND), ()) if spot.x0 <= x <= spot.x1 and spot.y0 <= y <= spot.y1]


def _is_set_otherwise(text: str) -> bool:
    """Writing from right to left is stored in the order it is seen; in Indic writing several letters share one shape."""
    return any(runs_leftwards(letter) or is_joined(letter) for letter in text)


def _to_compare(text: str) -> list[str]:
    """Letters whatever their order, less those whose shape tells no single letter."""
    return sorted(letter for letter in text if not is_joined(letter) and letter != _UNKNOWN)
