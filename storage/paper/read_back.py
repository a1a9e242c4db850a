"""Whether every text that was set stands at its place in the finished file, letter for letter."""

from collections import defaultdict
from collections.abc import Iterable
from functools import cache
from itertools import chain, pairwise
from typing import Any, NamedTuple

from storage.paper.expected import Expectations, ExpectedText, MarkKind
from storage.paper.letters import has_accents, is_joined, runs_leftwards, squashed
from storage.paper.mupdf import mupdf
from storage.paper.page import SIDEWAYS, UPRIGHT, Area
from storage.paper.paper_error import PaperError
from storage.paper.progress import tell
from storage.paper.typesetting import MarkPosition

_SIDE = 24.0
"""Points of the squares a page is parted into, so that a word is held against few rectangles."""
_MARGIN = 2.0
"""Points by which a word's middle may stand outside what the marks say."""
_TALLEST = 40.0
"""Points that no value comes near; a letter of the draft mark, set across the page, is taller."""
_UNKNOWN = "\ufffd"
"""What comes back for a shape that tells no letter."""


class Spot(NamedTuple):
    """A rectangle on a page, in points from its top left; pages count from 0."""

    page: int
    x0: float
    y0: float
    x1: float
    y1: float


_Held = tuple[float, float, float, float, list[str]]
"""A rectangle on a page, and the words that were found in it."""
_Squares = dict[tuple[int, int], list[_Held]]
"""The rectangles of a page by the squares they reach into, counted across and down."""


def read_back(pdf: bytes, expected: Expectations, marks: Iterable[MarkPosition]) -> None:
    """Raise PaperError for the first text that did not come back as typed, at its place."""
    document = mupdf().open(stream=pdf, filetype="pdf")
    # What the file says to readers of its structure tells nothing of what is drawn, and is long to follow.
    document.xref_set_key(document.pdf_catalog(), "StructTreeRoot", "null")
    areas = [UPRIGHT if page.rect.width < page.rect.height else SIDEWAYS for page in document]
    marks = tuple(marks)
    places = _Places(marks, areas)
    wanted: dict[int, _Squares] = defaultdict(lambda: defaultdict(list))
    words = [[_room_for(spot, wanted[spot.page]) for spot in places.of(each)] for each in expected.texts]
    sheets = _first_sheets(marks, expected)
    accented = dict[int, _Squares]()
    told = [_told(each, places, accented) if has_accents(squashed(each.text)) else None for each in expected.texts]
    for page, squares in wanted.items():
        tell(f"reading back {sheets.get(page, 'the paper')}, page {page + 1} of {len(document)}")
        _gather(document[page], squares, _as_drawn())
        if page in accented:
            _gather(document[page], accented[page], _as_drawn() & ~mupdf().TEXT_IGNORE_ACTUALTEXT)
    for each, found, said in zip(expected.texts, words, told, strict=True):
        if not _is_there(squashed(each.text), _joined(found), None if said is None else _joined(said)):
            raise PaperError(
                f"“{each.text[:60]}” ({each.what[:120]}) cannot be printed as typed; write it with other letters or signs"
            )


def _told(text: ExpectedText, places: "_Places", accented: dict[int, _Squares]) -> list[list[str]]:
    """Room for the words of a text as the file tells them to whoever copies it."""
    return [
        _room_for(spot, accented.setdefault(spot.page, defaultdict[tuple[int, int], list[_Held]](list)))
        for spot in places.of(text)
    ]


def _joined(found: list[list[str]]) -> str:
    return squashed("".join(chain.from_iterable(found)))


def _is_there(meant: str, drawn: str, told: str | None) -> bool:
    """Whether a text stands as it was meant, by its shapes and, where it has accents of their own, by what its file tells too.

    Of a letter with such accents each shape tells the whole: it comes back as often as there are shapes.
    """
    if drawn == meant or (_is_set_otherwise(meant) and _to_compare(drawn) == _to_compare(meant)):
        return True
    if told is None or set(drawn) != set(meant):
        return False
    return told == meant or (_is_set_otherwise(meant) and _to_compare(told) == _to_compare(meant))


def _first_sheets(marks: tuple[MarkPosition, ...], expected: Expectations) -> dict[int, str]:
    """By page, the first sheet that something stands of there."""
    first: dict[int, str] = {}
    for each in marks:
        if not first.get(each.page):
            first[each.page] = expected.sheet_of(each.mark)
    return {page: sheet for page, sheet in first.items() if sheet}


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


def _room_for(spot: Spot, squares: _Squares) -> list[str]:
    """Where the words of a rectangle will be put, known from each square it reaches into."""
    held: _Held = (spot.x0, spot.y0, spot.x1, spot.y1, [])
    for down in range(int(spot.y0 // _SIDE), int(spot.y1 // _SIDE) + 1):
        for across in range(int(spot.x0 // _SIDE), int(spot.x1 // _SIDE) + 1):
            squares[across, down].append(held)
    return held[-1]


def _gather(page: Any, squares: _Squares, flags: int) -> None:
    """Words inside the page box in the order they are set; those across the page are the draft mark."""
    for left, top, right, bottom, word, *_ in page.get_text("words", flags=flags):
        if bottom - top < _TALLEST:
            x, y = (left + right) / 2, (top + bottom) / 2
            for x0, y0, x1, y1, words in squares.get((int(x // _SIDE), int(y // _SIDE)), ()):
                if x0 <= x <= x1 and y0 <= y <= y1:
                    words.append(word)


@cache
def _as_drawn() -> int:
    """For the PDF library: what is on the page, each letter by its shape, not by what the file says instead of it; none made up."""
    library = mupdf()
    return (
        library.TEXT_MEDIABOX_CLIP
        | library.TEXT_PRESERVE_LIGATURES
        | library.TEXT_PRESERVE_WHITESPACE
        | library.TEXT_IGNORE_ACTUALTEXT
    )


def _is_set_otherwise(text: str) -> bool:
    """Writing from right to left is stored in the order it is seen; in Indic writing several letters share one shape."""
    return any(runs_leftwards(letter) or is_joined(letter) for letter in text)


def _to_compare(text: str) -> list[str]:
    """Letters whatever their order, less those whose shape tells no single letter."""
    return sorted(letter for letter in text if not is_joined(letter) and letter != _UNKNOWN)
