"""What every mark of the templates stands for: the text that must come back from its place in the finished file."""

from bisect import bisect_left
from dataclasses import dataclass, field
from enum import StrEnum


class MarkKind(StrEnum):
    """How a template marks where a text stands."""

    BOX = "box"
    """A mark at the top left of the text and one at its bottom right."""
    FLOW = "flow"
    """A mark before running text and one after it; it may go on over pages."""
    ROW = "row"
    """A mark at the top of a row of a table; the row ends where the next mark is."""


@dataclass(frozen=True, slots=True)
class ExpectedText:
    """A text that must stand at its mark."""

    mark: int
    kind: MarkKind
    text: str
    what: str
    """Where it is, for a person."""
    across: tuple[float, float] = (0, 0)
    """Of a cell of a row: its left and right edge in points."""


@dataclass(slots=True)
class Expectations:
    """All that is expected of a paper; hands out the marks."""

    texts: list[ExpectedText] = field(default_factory=list[ExpectedText])
    sheets: list[tuple[int, str]] = field(default_factory=list[tuple[int, str]])
    """The mark before the first of each sheet, and how the sheet is named, in their order."""
    _marks: int = 0

    def begin(self, sheet: str) -> None:
        """What is expected from here on is of this sheet."""
        self.sheets.append((self._marks, sheet))

    def sheet_of(self, mark: int) -> str:
        """The sheet of a mark; "" before the first."""
        at = bisect_left(self.sheets, (mark,)) - 1
        return self.sheets[at][1] if at >= 0 else ""

    def mark(self) -> int:
        """A mark that no other text has."""
        self._marks += 1
        return self._marks

    def add(self, kind: MarkKind, text: str, what: str) -> int:
        """Expect a text under a mark of its own."""
        mark = self.mark()
        self.texts.append(ExpectedText(mark, kind, text, what))
        return mark

    def add_cell(self, mark: int, text: str, what: str, across: tuple[float, float]) -> None:
        """Expect a text in a cell of the row of this mark."""
        if text.strip():
            self.texts.append(ExpectedText(mark, MarkKind.ROW, text, what, across))
