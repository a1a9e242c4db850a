"""Where the terminal's cursor is and what it writes with, and the shortest way to have it elsewhere."""

from tui.terminal.abilities import Abilities
from tui.terminal.screen_buffer import Cell, Row
from tui.terminal.sgr import DEFAULT, Look, sgr_between

_SURE_OF = frozenset(chr(code) for area in ((0x20, 0x7F), (0xA1, 0xAD), (0xAE, 0x300)) for code in range(*area))
_ALSO_SURE_OF = frozenset("ΩΔωμ─│┌┐└┘├┤┬┴┼·…–—‘’“”≤≥×√✓✗")
"""Letters that every terminal takes for one cell wide; after any other it is asked where it is no more."""

_AS_WE_TAKE_IT = "\x1b[m\x1b[r\x1b[4l\x1b[?6l\x1b[?7l\x1b(B\x0f"
"""Plain text, no rows set apart, letters in place of others, places counted from the corner, no wrapping, plain letters.

What has written over the screen may have left any of these otherwise.
"""


class CursorWriter:
    """Collects what is sent. A place or a look that is not known is None."""

    def __init__(self, abilities: Abilities) -> None:
        self._abilities = abilities
        self._sent: list[str] = []
        self.x: int | None = None
        self.y: int | None = None
        self.look: Look | None = None
        self.cursor_shown: bool | None = None

    def taken(self) -> str:
        """What was collected since last time."""
        sent, self._sent = "".join(self._sent), []
        return sent

    def send(self, sequence: str) -> None:
        """Send a sequence that changes neither place nor look."""
        self._sent.append(sequence)

    def forget(self) -> None:
        """Something else has written to the terminal."""
        self.x = self.y = self.look = self.cursor_shown = None

    def go(self, x: int, y: int, row: Row | None = None, width: int = 0) -> None:
        """Go to a cell. With `row`, what stands there between may be written again where that is shorter."""
        if (self.x, self.y) == (x, y):
            return
        jump = self._jump(x, y, width)
        between = self._written_again(x, y, row) if row is not None else None
        self._sent.append(between if between is not None and len(between.encode()) <= len(jump) else jump)
        self.x, self.y = x, y

    def dress(self, look: Look) -> None:
        """Write with this look from now on."""
        self._sent.append(sgr_between(self.look, look, takes_back=self._abilities.takes_back))
        self.look = look

    def write(self, cell: Cell, width: int) -> None:
        """Write one cell, and both halves of a wide letter."""
        text, look = cell
        if look != self.look:
            self.dress(look)
        self._sent.append(text)
        if self.x is not None:
            self.x = self.x + 1 if _is_sure(text) else None
        if self.x is not None and self.x > width:
            self.x = width

    def erase_rest(self) -> None:
        """Blank the row from here on."""
        self.dress(DEFAULT)
        self._sent.append("\x1b[K")

    def clear(self) -> None:
        """Blank the whole screen."""
        self._sent.append(f"{_AS_WE_TAKE_IT}\x1b[H\x1b[J")
        self.x, self.y, self.look = 0, 0, DEFAULT

    def scroll(self, top: int, bottom: int, by: int, height: int) -> None:
        """Move the rows from `top` to `bottom` up by so many, or down when `by` is negative."""
        if self.look != DEFAULT:
            self.dress(DEFAULT)
        is_whole = (top, bottom) == (0, height - 1)
        if not is_whole:
            self._sent.append(f"\x1b[{top + 1};{bottom + 1}r")
        if by > 0:
            self._sent.append(f"\x1b[{bottom + 1}H" + "\n" * by)
        else:
            self._sent.append((f"\x1b[{top + 1}H" if top else "\x1b[H") + "\x1bM" * -by)
        if not is_whole:
            self._sent.append("\x1b[r")
        # Terminals differ in where they leave the cursor after a region.
        self.x = self.y = None

    def _written_again(self, x: int, y: int, row: Row) -> str | None:
        if self.y != y or self.x is None or not 0 < x - self.x <= 8:
            return None
        cells = row[self.x : x]
        if any(look != self.look or not _is_sure(text) for text, look in cells):
            return None
        return "".join(text for text, _ in cells)

    def _jump(self, x: int, y: int, width: int) -> str:
        column = f";{x + 1}" if x else ""
        ways = [f"\x1b[{y + 1 if y or x else ''}{column}H"]
        if self.x is not None and self.y is not None:
            at_edge = width and self.x >= width
            sideways = f"\r{_right(x)}"
            if not at_edge:
                sideways = min(sideways, _right(x - self.x) if x >= self.x else _left(self.x - x), key=len)
            if y == self.y + 1:
                ways.append(f"\r\n{_right(x)}")
            ways.append(f"{_updown(y - self.y)}{sideways}")
        return min(ways, key=len)


def _is_sure(text: str) -> bool:
    return text in _SURE_OF or text in _ALSO_SURE_OF


def _right(by: int) -> str:
    return "" if by == 0 else "\x1b[C" if by == 1 else f"\x1b[{by}C"


def _left(by: int) -> str:
    return min("\b" * by, f"\x1b[{by}D", key=len)


def _updown(by: int) -> str:
    if by == 0:
        return ""
    count = "" if abs(by) == 1 else str(abs(by))
    return f"\x1b[{count}{'B' if by > 0 else 'A'}"
