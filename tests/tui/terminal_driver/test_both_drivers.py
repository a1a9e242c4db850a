"""The same keys lead to the same screen, cell by cell, whether the framework paints or the frugal driver does."""

import getpass
import random
import time
from pathlib import Path

import pytest
from pyte.screens import Char

from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, complete_certificate
from tests.tui.terminal import KEYS, PATIENCE, Terminal
from tests.tui.terminal_driver.judge import shown

MOVES = ["tab", "shift+tab", "up", "down", "left", "right", "home", "end", "pageup", "pagedown", "enter", "backspace"]
STEPS = ["f1", "f3", "f4", "f5", "f6", "f8", "ctrl+g", "ctrl+n", "ctrl+y"]
TYPED = ["0", "1", "4", ".", "2", "Kitchen", "N/A", "é", "漢", ">"]


def keys_of(seed: int) -> list[str]:
    """So many keys as a restless person presses."""
    pick = random.Random(seed)
    kinds = pick.choices([MOVES, TYPED, STEPS], weights=[6, 5, 1], k=120)
    return [KEYS.get(key, key) for key in (pick.choice(kind) for kind in kinds)]


Cells = list[list[Char]]


def cells_of(terminal: Terminal) -> Cells:
    """The screen without the time of day."""
    cells = shown(terminal.screen).cells
    cells[0] = [cell._replace(data="0") if cell.data.isdecimal() else cell for cell in cells[0]]
    return cells


def as_wanted(cells: Cells) -> Cells:
    """What the framework painted, without its marks; where somebody types nothing is reversed, for the cursor does that."""
    return [
        [cell._replace(italics=False, strikethrough=False, reverse=cell.reverse and not cell.italics) for cell in line]
        for line in cells
    ]


def marked(cells: Cells, mark: str) -> set[tuple[int, int]]:
    """The column and row at which each marked text of a line begins."""
    return {
        (x, y)
        for y, line in enumerate(cells)
        for x, cell in enumerate(line)
        if getattr(cell, mark) and not (x and getattr(line[x - 1], mark))
    }


def difference(own: Terminal, stock: Terminal) -> str:
    """The first thing that is not the same on both; the driver's cursor belongs where somebody types, else where they stand."""
    cells, painted = cells_of(own), cells_of(stock)
    for y, (line, wanted) in enumerate(zip(cells, as_wanted(painted), strict=True)):
        if line != wanted:
            x = next(x for x, (cell, other) in enumerate(zip(line, wanted, strict=True)) if cell != other)
            return f"line {y}, column {x}: {line[x]} for {wanted[x]}"
    cursor, places = shown(own.screen).cursor, marked(painted, "italics") or marked(painted, "strikethrough")
    is_there = cursor in places if places else cursor is None
    return "" if is_there else f"the cursor is at {cursor}, for {places}"


def meet(own: Terminal, stock: Terminal) -> None:
    """Listen to both until they show the same and have fallen silent."""
    deadline = time.monotonic() + PATIENCE
    while own.listen() | stock.listen() or difference(own, stock):
        if time.monotonic() > deadline:
            assert own.text == stock.text
            assert not difference(own, stock)


def fill(home: Path) -> None:
    log = SqliteJobLog.open(home)
    log.create(complete_certificate(sign=False), who=getpass.getuser(), at=AT)
    log.close()


@pytest.mark.parametrize("seed", range(4))
def test_the_same_keys_lead_to_the_same_screen(seed: int, tmp_path: Path) -> None:
    for name in ("own", "stock"):
        fill(tmp_path / name)
    with Terminal(home=tmp_path / "own") as own, Terminal(home=tmp_path / "stock", OHMFOLIO_DRIVER="stock") as stock:
        for terminal in (own, stock):
            terminal.until("What was done?")
            terminal.press("enter").until("F3 Details")
        keys = keys_of(seed)
        for start in range(0, len(keys), 30):
            for terminal in (own, stock):
                terminal.send("".join(keys[start : start + 30]))
            meet(own, stock)
