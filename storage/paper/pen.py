"""Lines, fills and text on one finished page."""

from typing import Any

from storage.paper.grid import font, text_width
from storage.paper.mupdf import mupdf
from storage.paper.style import FAILING, SLATE

Colour = tuple[float, float, float]
Point = tuple[float, float]
Box = tuple[float, float, float, float]


class Pen:
    """Draws in order: fills and lines first, all text over them when it is finished."""

    def __init__(self, page: Any) -> None:
        self._page = page
        self._shape = page.new_shape()
        self._writers: dict[Colour, Any] = {}

    def fill(self, box: Box, colour: Colour) -> None:
        """A plain area."""
        self._shape.draw_rect(mupdf().Rect(*box))
        self._shape.finish(color=None, fill=colour)

    def box(self, box: Box, colour: Colour, width: float) -> None:
        """A frame."""
        self._shape.draw_rect(mupdf().Rect(*box))
        self._shape.finish(color=colour, width=width)

    def dashed(self, box: Box) -> None:
        """A place left to be filled in."""
        self._shape.draw_rect(mupdf().Rect(*box))
        self._shape.finish(color=SLATE, width=0.5, dashes="[2 2] 0")

    def failing(self, box: Box) -> None:
        """A heavy frame with a cross in its corner, to be seen without colour."""
        x0, y0, x1, y1 = box
        self.box((x0 + 0.6, y0 + 0.6, x1 - 0.6, y1 - 0.6), FAILING, 1.4)
        self.line((x1 - 6, y0 + 2.2), (x1 - 2.2, y0 + 6), FAILING, 1.1)
        self.line((x1 - 6, y0 + 6), (x1 - 2.2, y0 + 2.2), FAILING, 1.1)

    def line(self, start: Point, end: Point, colour: Colour, width: float) -> None:
        """A straight line."""
        self._shape.draw_line(mupdf().Point(*start), mupdf().Point(*end))
        self._shape.finish(color=colour, width=width)

    def write(self, text: str, x: float, y: float, size: float, colour: Colour, *, bold: bool = False) -> None:
        """Text from a point on its baseline."""
        if not text:
            return
        writer = self._writers.get(colour)
        if writer is None:
            writer = self._writers[colour] = mupdf().TextWriter(self._page.rect, color=colour)
        writer.append(mupdf().Point(x, y), text, font=font(bold=bold), fontsize=size)

    def write_mid(self, text: str, x: float, y: float, size: float, colour: Colour, *, bold: bool = False) -> None:
        """Text centred on x."""
        self.write(text, x - text_width(text, size, bold=bold) / 2, y, size, colour, bold=bold)

    def write_to(self, text: str, x: float, y: float, size: float, colour: Colour, *, bold: bool = False) -> None:
        """Text that ends at x."""
        self.write(text, x - text_width(text, size, bold=bold), y, size, colour, bold=bold)

    def finish(self) -> None:
        """Put it on the page."""
        self._shape.commit()
        for writer in self._writers.values():
            writer.write_text(self._page)
