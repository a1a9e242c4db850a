"""A picture of the screen: every cell with its text and look."""

from unicodedata import normalize

from rich.cells import get_character_cell_size

from tui.terminal.sgr import DEFAULT, MARK, REVERSE, STANDS, Look

Cell = tuple[str, Look]
"""A wide letter fills a cell and leaves an empty text in the next; marks that take no room stand with their letter."""
Row = list[Cell]

BLANK: Cell = (" ", DEFAULT)
MOST_MARKS = 8
"""Letters without room that are kept in one cell; more have no use but to break a screen."""


class Picture:
    """Rows of cells, and where the terminal's cursor is to be seen."""

    def __init__(self, width: int, height: int) -> None:
        self.width = width
        self.height = height
        self.rows: list[Row] = [[BLANK] * width for _ in range(height)]
        self._typed_at: tuple[int, int] | None = None
        self._stands_at: tuple[int, int] | None = None
        self._cells: dict[Look, dict[str, Cell]] = {}

    @property
    def cursor(self) -> tuple[int, int] | None:
        """Column and row of the cell marked as the cursor's: where somebody types, else what was come to."""
        return self._typed_at or self._stands_at

    def resized(self, width: int, height: int) -> "Picture":
        """The same picture on a screen of another size, cut or filled up with blanks."""
        after = Picture(width, height)
        for y, row in enumerate(self.rows[:height]):
            for x, cell in enumerate(row[:width]):
                after.rows[y][x] = cell
            if width < self.width and row[width][0] == "":
                after.rows[y][width - 1] = BLANK
        return after

    def put(self, x: int, y: int, text: str, look: Look) -> int:
        """Set text down in one row from a column on; the column after it. What does not fit is left out."""
        if not 0 <= y < self.height:
            return x
        start = x
        shown = _unmarked(look)
        if text.isascii():
            x = self._put_narrow(x, y, text, shown)
        else:
            for letter in text:
                x = self._put_letter(x, y, letter, shown)
        self._typed_at = _marked(self._typed_at, start, x, y, is_here=bool(look.attributes & MARK))
        self._stands_at = _marked(self._stands_at, start, x, y, is_here=bool(look.attributes & STANDS))
        return x

    def _put_narrow(self, x: int, y: int, text: str, look: Look) -> int:
        known = self._cells.setdefault(look, {})
        row, fitting = self.rows[y], text[: max(self.width - x, 0)]
        end = x + len(fitting)
        if not fitting:
            return x
        self._mend(row, x, end)
        row[x:end] = [known.get(letter) or known.setdefault(letter, (letter, look)) for letter in fitting]
        return end

    def _put_letter(self, x: int, y: int, letter: str, look: Look) -> int:
        room, row = get_character_cell_size(letter), self.rows[y]
        if room == 0:
            self._join(row, x, letter)
            return x
        if x + room > self.width:
            return x
        self._mend(row, x, x + room)
        known = self._cells.setdefault(look, {})
        row[x] = known.get(letter) or known.setdefault(letter, (letter, look))
        if room == 2:
            row[x + 1] = known.get("") or known.setdefault("", ("", look))
        return x + room

    def _join(self, row: Row, x: int, letter: str) -> None:
        at = x - 1
        if at > 0 and row[at][0] == "":
            at -= 1
        if at < 0 or len(row[at][0]) >= MOST_MARKS:
            return
        joined = normalize("NFC", row[at][0] + letter)
        # In the last column the cursor stands on the letter, and some terminals join a mark to the one before.
        if len(joined) == 1 or at < self.width - 1:
            row[at] = (joined, row[at][1])

    def _mend(self, row: Row, start: int, end: int) -> None:
        """Where half of a wide letter is about to go, its other half becomes a blank."""
        if row[start][0] == "":
            row[start - 1] = (" ", row[start - 1][1])
        if end < self.width and row[end][0] == "":
            row[end] = (" ", row[end][1])


def _unmarked(look: Look) -> Look:
    """The look without its marks; under a cursor that somebody types at nothing is reversed, for terminals reverse it there."""
    if not look.attributes & (MARK | STANDS):
        return look
    off = MARK | STANDS | (REVERSE if look.attributes & MARK else 0)
    return look._replace(attributes=look.attributes & ~off)


def _marked(at: tuple[int, int] | None, start: int, end: int, y: int, *, is_here: bool) -> tuple[int, int] | None:
    """Where a mark is once text was put from `start` to `end` of a row."""
    if is_here:
        return start, y
    return None if at and at[1] == y and start <= at[0] < end else at
