"""Pages written one after another: kept blocks, flowing text, tables with repeated heads, reserved canvases."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, NamedTuple, Protocol

from storage.paper.mupdf import mupdf
from storage.paper.paper_error import Overflow
from storage.paper.style import CSS, UPRIGHT, Area

_TALL = 1_000_000
_LEAST_FLOW = 48
"""Height left on a page below which running text rather starts the next one."""


class Engine(Protocol):
    """What the press needs of the PDF writer."""

    writer: Any
    page_num: int
    toc: list[Any]
    plugins: dict[str, Any]

    def record(self, position: Any) -> None:
        """Note headings for the bookmarks."""
        ...

    def render(self, markdown: str) -> str:
        """Markdown of our own as HTML."""
        ...

    def document(self) -> Any:
        """Close the writer and hand over the document."""
        ...


class Spot(NamedTuple):
    """A rectangle of a page; pages count from 0."""

    page: int
    x0: float
    y0: float
    x1: float
    y1: float


@dataclass
class Promise:
    """A text that must stand at its spots in the finished file."""

    text: str
    what: str
    """Where it belongs, for the person."""
    spots: list[Spot] = field(default_factory=list[Spot])


@dataclass(frozen=True)
class Piece:
    """HTML with the texts it promises, by element id."""

    html: str
    promises: dict[str, Promise] = field(default_factory=dict[str, Promise])


@dataclass(frozen=True)
class PageMark:
    """What the head of a page says."""

    title: str
    area: Area


Painter = Callable[[Any], None]


class Press:
    """The running page and everything promised so far."""

    def __init__(self, engine: Engine) -> None:
        self.engine = engine
        self._device: Any = None
        self._y = 0.0
        self._title = ""
        self.marks: list[PageMark] = []
        self.painters: dict[int, Painter] = {}
        self.promises: list[Promise] = []
        self.seal: Promise | None = None
        """Where the seal of the file goes; its text is set when all else is."""

    @property
    def room(self) -> float:
        """What is left of the running page."""
        return UPRIGHT.bottom - self._y

    def begin(self, title: str) -> None:
        """Start a sheet on a page of its own."""
        self._title = title
        self.turn()

    def turn(self) -> None:
        """End the running page and begin the next."""
        self.end()
        self.engine.page_num += 1
        self._device = self.engine.writer.begin_page(mupdf().Rect(0, 0, UPRIGHT.width, UPRIGHT.height))
        self._y = float(UPRIGHT.top)
        self.marks.append(PageMark(self._title, UPRIGHT))

    def end(self) -> None:
        """Close the running page, if one is open."""
        if self._device is not None:
            self.engine.writer.end_page()
            self._device = None

    def measure(self, piece: Piece) -> float:
        """The height of a piece set in one go."""
        _, filled = _story(piece).place(mupdf().Rect(UPRIGHT.left, 0, UPRIGHT.right, _TALL))
        _refuse_wide(filled, piece)
        return filled[3]

    def row_tops(self, piece: Piece, ids: tuple[str, ...]) -> tuple[float, ...]:
        """Where the elements with these ids begin when the piece is set in one go, and last where it ends."""
        story = _story(piece)
        _, filled = story.place(mupdf().Rect(UPRIGHT.left, 0, UPRIGHT.right, _TALL))
        _refuse_wide(filled, piece)
        tops: dict[str, float] = {}

        def note(position: Any) -> None:
            if position.id and position.open_close & 1:
                tops.setdefault(position.id, position.rect[1])

        story.element_positions(note, {})
        return (*(tops[each] for each in ids), filled[3])

    def keep(self, piece: Piece, *, gap: float = 0) -> None:
        """Set a piece that may not be split, on the next page when it does not fit this one."""
        height = self.measure(piece)
        if height > UPRIGHT.frame_height:
            raise Overflow(f"{_named(piece)} is taller than a page")
        if height > self.room:
            self.turn()
        self._place(_story(piece), piece)
        self._y += gap

    def flow(self, piece: Piece, *, gap: float = 0) -> None:
        """Set running text over as many pages as it takes. It holds no table, and its promise comes last."""
        if self.room < _LEAST_FLOW:
            self.turn()
        story = _story(piece)
        more = self._place(story, piece)
        while more:
            self.turn()
            more = self._place(story, piece)
            # The engine tells no place for what goes on from the page before.
            area = Spot(self.engine.page_num - 1, UPRIGHT.left, UPRIGHT.top, UPRIGHT.right, self._y)
            for promise in piece.promises.values():
                promise.spots.append(area)
        self._y += gap

    def canvas(self, title: str, bookmark: str, area: Area, painter: Painter) -> int:
        """Reserve a page that `painter` draws on when the document is finished."""
        self.end()
        self.engine.writer.begin_page(mupdf().Rect(0, 0, area.width, area.height))
        self.engine.writer.end_page()
        self.engine.page_num += 1
        page = self.engine.page_num - 1
        if bookmark:
            self.engine.toc.append((1, bookmark, self.engine.page_num, 0))
        self.marks.append(PageMark(title, area))
        self.painters[page] = painter
        return page

    def document(self) -> Any:
        """The document with every page written, canvases still blank."""
        self.end()
        return self.engine.document()

    def _place(self, story: Any, piece: Piece) -> bool:
        """Set what fits of a story at the running height; True when some is left over."""
        where = mupdf().Rect(UPRIGHT.left, self._y, UPRIGHT.right, UPRIGHT.bottom)
        more, filled = story.place(where)
        if more and self._y == UPRIGHT.top and filled[3] <= filled[1]:
            raise Overflow(f"{_named(piece)} does not fit a page")
        page = self.engine.page_num - 1

        def note(position: Any) -> None:
            position.toc, position.pdfile = True, self.engine
            self.engine.record(position)
            if position.id in piece.promises and position.open_close & 1:
                piece.promises[position.id].spots.append(Spot(page, *position.rect))

        story.element_positions(note, {})
        story.draw(self._device)
        if not more:
            self.promises += piece.promises.values()
        self._y = max(self._y, filled[3])
        return bool(more)


def _story(piece: Piece) -> Any:
    library = mupdf()
    return library.Story(html=piece.html, user_css=CSS, archive=library.Archive())


def _refuse_wide(filled: Any, piece: Piece) -> None:
    if filled[2] > UPRIGHT.right + 0.5:
        raise Overflow(f"{_named(piece)} is wider than the page")


def _named(piece: Piece) -> str:
    return next((promise.what for promise in piece.promises.values()), "A block of the form")
