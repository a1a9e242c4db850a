"""The same keys lead to the same screen, cell by cell, whether the framework paints or the frugal driver does."""

import getpass
import random
import time
from pathlib import Path

import pytest

from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, complete_certificate
from tests.tui.terminal import KEYS, PATIENCE, Terminal
from tests.tui.terminal_driver.judge import Shown, shown

MOVES = ["tab", "shift+tab", "up", "down", "left", "right", "home", "end", "pageup", "pagedown", "enter", "backspace"]
STEPS = ["f1", "f3", "f4", "f5", "f6", "f8", "ctrl+g", "ctrl+n", "ctrl+y"]
TYPED = ["0", "1", "4", ".", "2", "Kitchen", "N/A", "é", "漢", ">"]


def keys_of(seed: int) -> list[str]:
    """So many keys as a restless person presses."""
    pick = random.Random(seed)
    kinds = pick.choices([MOVES, TYPED, STEPS], weights=[6, 5, 1], k=120)
    return [KEYS.get(key, key) for key in (pick.choice(kind) for kind in kinds)]


def as_seen(terminal: Terminal) -> Shown:
    """The screen without the time of day; the cursor of either kind as a reversed cell."""
    cells, cursor = shown(terminal.screen)
    if cursor:
        x, y = cursor
        cells[y][x] = cells[y][x]._replace(reverse=not cells[y][x].reverse)
    cells[0] = [cell._replace(data="0") if cell.data.isdecimal() else cell for cell in cells[0]]
    return Shown(cells, None)


def meet(own: Terminal, stock: Terminal) -> None:
    """Listen to both until they show the same and have fallen silent."""
    deadline = time.monotonic() + PATIENCE
    while own.listen() | stock.listen() or as_seen(own) != as_seen(stock):
        if time.monotonic() > deadline:
            assert own.text == stock.text
            assert as_seen(own) == as_seen(stock)


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
