"""Single kinds of keys on a board of forty circuits: bytes, times, and what is asked of them."""

import tempfile
import time
from collections.abc import Iterator, Sequence
from pathlib import Path
from statistics import median
from typing import NamedTuple

from domain.job.circuit import RESULT_BOXES
from tests.tui.meter.asked import COLUMNS_TURNED, FIRST_SCREEN, MOST_BYTES, ROW_SCROLLED, Most, spread
from tests.tui.meter.forty_circuits import CIRCUITS, forty_circuits
from tests.tui.meter.line import Line, Sent
from tests.tui.meter.presses import Hands, Kind, Press, Stroke
from tests.tui.meter.tables import Row, table, yes
from tests.tui.terminal import KEYS, Terminal

_STARTS = 5
_IDLE = 5.0
_HELD, _A_SECOND = 40, 25
_R1_R2 = RESULT_BOXES.index("r1_r2")
_READINGS = (
    ("0.29", "0.96", "0.31", "0.88", "0.27", "1.02", "0.33", "0.91", "0.30", "0.94"),
    (),
    ("500",) * 10,
    (">999", "640", ">999", "512", ">999", ">999", "388", ">999", "410", ">999"),
)
"""Down the columns from R1+R2 on."""
_FIRST_ANSWER = 0.2
"""Seconds within which panel and coach have not yet spoken."""
_MEGABYTE = 1024 * 1024


class Figure(NamedTuple):
    """Something measured, beside what is asked."""

    what: str
    asked: str
    found: str
    reached: bool


def told(line: Line) -> Iterator[str]:
    """A table of figures."""
    with tempfile.TemporaryDirectory() as folder:
        home = forty_circuits(Path(folder))
        figures = [*_starts(home), *_keys(home, line), *_at_rest(home), *_held(home, line)]
    rows: list[Row] = [(each.what, each.asked, each.found, yes(each.reached)) for each in figures]
    yield from table(("what (median / p95, or at most)", "asked", "found", "reached"), rows)


def _starts(home: Path) -> Iterator[Figure]:
    painted, usable, first = list[float](), list[float](), 0
    for _ in range(_STARTS):
        began = time.monotonic()
        with Terminal(home=home, fresh=True) as terminal:
            terminal.listen(5)
            painted.append((terminal.arrivals[0][0] - began) * 1000)
            terminal.until("What was done?")
            usable.append((terminal.arrivals[-1][0] - began) * 1000)
            terminal.fall_silent()
            first = terminal.received
    yield Figure("first screen, bytes", f"{FIRST_SCREEN:,}", f"{first:,}", first <= FIRST_SCREEN)
    found = median(painted), median(usable)
    what = "start to first paint / first question, ms"
    yield Figure(what, "150 / 700", f"{found[0]:.0f} / {found[1]:.0f}", found[0] <= 150 and found[1] <= 700)


class Walk(NamedTuple):
    """Keys of each kind, pressed one after the other."""

    letters: list[Press]
    boxes: list[Press]
    across: list[Press]
    moves: list[Press]
    scrolled: list[Press]
    kept: list[Press]
    memory: float
    """Megabytes at most, while the schedule was open."""


def _walk(home: Path, *, slow: bool) -> Walk:
    with _opened(home, "f3", "Client's address") as terminal:
        hands = Hands(terminal, slow=slow)
        terminal.press("home")
        letters = _pressed(hands, Kind.LETTER, *"Marigold Finch, Larkspur")
        terminal.press("escape")
        boxes = _pressed(hands, Kind.NEXT, *["tab"] * 80)
    with _opened(home, "f5", "Continuity") as terminal:
        hands = Hands(terminal, slow=slow)
        terminal.press("home")
        across = _pressed(hands, Kind.CELL, *["right"] * (len(RESULT_BOXES) - 1))
        terminal.press("ctrl+home")
        moves = _pressed(hands, Kind.CELL, *["down"] * 10, *["right"] * 5, *["up"] * 10, *["left"] * 5)
        terminal.press(*["down"] * 10)
        scrolled = _pressed(hands, Kind.CELL, *["down"] * 10)
        kept: list[Press] = []
        for column, readings in enumerate(_READINGS):
            terminal.press("ctrl+home", *["right"] * (_R1_R2 + column), *["ctrl+t"] * (not column))
            for reading in readings:
                _pressed(hands, Kind.LETTER, *reading)
                kept += _pressed(hands, Kind.KEPT, "enter")
        return Walk(letters, boxes, across, [*across, *moves], scrolled, kept, _peak(terminal.pid))


def _keys(home: Path, line: Line) -> Iterator[Figure]:
    going, resting = _walk(home, slow=False), _walk(home, slow=True)
    for what, of, kind in (
        ("typed character", "letters", Kind.LETTER),
        ("next box", "boxes", Kind.NEXT),
        (f"cursor move, {CIRCUITS} circuits, every column", "moves", Kind.CELL),
        ("reading kept with its checks", "kept", Kind.KEPT),
    ):
        yield _bytes(f"{what}, bytes", getattr(going, of), MOST_BYTES[kind])
        yield _bytes(f"{what}, bytes, and the panel read at each", getattr(resting, of), MOST_BYTES[kind])
    yield _most("columns turned, bytes", going.across, COLUMNS_TURNED)
    yield _most("row scrolled, bytes", going.scrolled, ROW_SCROLLED)
    letters, boxes, moves, kept = (_at_once(of) for of in (resting.letters, resting.boxes, resting.moves, resting.kept))
    painted = spread([press.painted * 1000 for press in (*letters, *boxes, *moves, *kept)])
    found = f"{painted.median:.0f} / {painted.p95:.0f}"
    yield Figure("key to paint, ms", "6 / 15", found, painted.median <= 6 and painted.p95 <= 15)
    seen = [spread([line.after(press.answer) * 1000 for press in of]).median for of in (letters, boxes)]
    what = "seen after, over the line, ms: typed character / next box"
    yield Figure(what, "100 / 125", f"{seen[0]:.0f} / {seen[1]:.0f}", seen[0] <= 100 and seen[1] <= 125)
    yield Figure(f"memory, job of {CIRCUITS} circuits open, MB", "75", f"{going.memory:.0f}", going.memory <= 75)


def _at_rest(home: Path) -> Iterator[Figure]:
    with _opened(home, "f5", "Continuity") as terminal:
        terminal.type("0.4")
        terminal.fall_silent()
        before = terminal.received
        terminal.listen(_IDLE)
        sent = terminal.received - before
    yield Figure(f"idle, bytes ({_IDLE:.0f} s of the minute asked)", "0", str(sent), not sent)


def _held(home: Path, line: Line) -> Iterator[Figure]:
    with _opened(home, "f5", "Continuity") as terminal:
        terminal.arrivals.clear()
        began = time.monotonic()
        for repeat in range(_HELD):
            while (left := began + repeat / _A_SECOND - time.monotonic()) > 0:
                terminal.listen(left)
            terminal.send(KEYS["down"])
        last = time.monotonic()
        while terminal.listen(_FIRST_ANSWER):
            pass
        lag = line.delay + max(line.seen(Sent(*part) for part in terminal.arrivals)) - last
    what = f"arrow held, {_HELD} repeats at {_A_SECOND} a second over the line, behind at the end, s"
    yield Figure(what, "0.2", f"{lag:.2f}", lag < 0.2)


def _opened(home: Path, key: str, shown: str) -> Terminal:
    terminal = Terminal(home=home, fresh=True)
    terminal.until("What was done?")
    terminal.fall_silent()
    terminal.press("enter").until("F3 Details")
    terminal.press(key).until(shown)
    terminal.fall_silent()
    return terminal


def _pressed(hands: Hands, kind: Kind, *keys: str) -> list[Press]:
    return hands.press(Stroke(key, kind) for key in keys)


def _at_once(presses: Sequence[Press]) -> list[Press]:
    """The same keys, without what the panel said once the hands rested."""
    return [Press(press.stroke, tuple(sent for sent in press.answer if sent.at < _FIRST_ANSWER)) for press in presses]


def _bytes(what: str, presses: Sequence[Press], most: Most) -> Figure:
    found = spread([press.bytes for press in presses])
    return Figure(what, f"{most.median} / {most.p95}", f"{found.median:.0f} / {found.p95:.0f}", most.holds(found))


def _most(what: str, presses: Sequence[Press], most: int) -> Figure:
    found = max(press.bytes for press in presses)
    return Figure(what, f"{most:,}", f"{found:,}", found <= most)


def _peak(pid: int) -> float:
    """Megabytes of memory the program held at most; 0 where the system does not tell."""
    status = Path(f"/proc/{pid}/status")
    lines = status.read_text().splitlines() if status.exists() else []
    kilobytes = next((int(line.split()[1]) for line in lines if line.startswith("VmHWM:")), 0)
    return kilobytes * 1024 / _MEGABYTE
