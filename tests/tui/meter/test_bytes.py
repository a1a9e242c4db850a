"""How many bytes the program sends for what a person does, on a board of 40 circuits at 80 by 24.

Bytes are the same on every computer; a slow line shows them as waiting. Over 64 kbit/s every 80 bytes cost 10 ms.
"""

import getpass
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from statistics import median

import pytest

from domain.commands import AddCircuit
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, complete_certificate, done, entered
from tests.tui.terminal import KEYS, Terminal

CIRCUITS = 40
SLOWEST = 5.0
"""Seconds until a key that takes the program longest is answered, on a slow computer."""


@dataclass(frozen=True)
class Budget:
    """What one kind of key may cost, each time it is pressed."""

    what: str
    keys: tuple[str, ...]
    typically: int
    """While the hands go on."""
    at_worst: int
    """With a page turned, or with all that panel and coach say once the hands rest."""


ON_DETAILS = (
    Budget("a letter typed into a box", tuple("Marigold Finch"), typically=8, at_worst=400),
    Budget("what was typed is kept, and the next box", ("tab",), typically=300, at_worst=300),
    Budget("the next box", ("tab",) * 12, typically=45, at_worst=300),
    Budget("back a box", ("shift+tab",) * 12, typically=80, at_worst=300),
    Budget("a part further down", ("pagedown",) * 3, typically=600, at_worst=1200),
)
ON_RESULTS = (
    Budget("a circuit down", ("down",) * 12, typically=40, at_worst=400),
    Budget("a circuit down that scrolls", ("down",) * 12, typically=150, at_worst=500),
    Budget("a screen of circuits up", ("pageup",) * 2, typically=400, at_worst=900),
    Budget("the next reading, its columns in sight", ("right",) * 6, typically=40, at_worst=400),
    Budget("the next reading, with a page of columns turned", ("right",) * 6, typically=40, at_worst=1300),
    Budget("the first reading", ("home",), typically=1400, at_worst=1400),
    Budget("a digit typed into a reading", tuple("0.42"), typically=8, at_worst=400),
    Budget("a reading kept with its checks", ("tab", "1", "tab", "2", "tab"), typically=200, at_worst=500),
)
BETWEEN_STEPS = (
    Budget("another step of the job", ("f4", "f5", "f6", "f8", "f3", "f5"), typically=2200, at_worst=3000),
)


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A log with one job of 40 circuits, as complete as a job without signatures can be."""
    folder = tmp_path_factory.mktemp("home")
    job = complete_certificate(sign=False)
    board = job.boards[0]
    while (made := len(board.circuits)) < CIRCUITS:
        job = done(job, AddCircuit(board=board.id, after=board.circuits[-1].id, like=board.circuits[-1].id))
        board = job.boards[0]
        named = {"number": str(made + 1), "description": f"Unit {made + 1} {'lights' if made % 2 else 'sockets'}"}
        job = entered(job, named, board=board.id, circuit=board.circuits[-1].id)
        board = job.boards[0]
    log = SqliteJobLog.open(folder)
    log.create(job, who=getpass.getuser(), at=AT)
    log.close()
    return folder


@pytest.fixture
def terminal(home: Path) -> Iterator[Terminal]:
    """The program on its first screen, with nothing more to say."""
    with Terminal(home=home) as running:
        running.until("What was done?")
        fall_silent(running)
        yield running


def fall_silent(terminal: Terminal) -> None:
    while terminal.listen(0.4):
        pass


def cost(terminal: Terminal, key: str) -> int:
    """Bytes sent because of one key."""
    before = terminal.received
    terminal.send(KEYS.get(key, key))
    terminal.listen(SLOWEST)
    while terminal.listen(0.04):
        pass
    return terminal.received - before


def keep_to(terminal: Terminal, *budgets: Budget) -> None:
    """Press the keys, and hold what they cost against what they may."""
    costs = {budget: [cost(terminal, key) for key in budget.keys] for budget in budgets}
    over = {
        budget.what: spent
        for budget, spent in costs.items()
        if median(spent) > budget.typically or max(spent) > budget.at_worst
    }
    assert not over


def test_the_first_screen_is_short(terminal: Terminal) -> None:
    assert terminal.received < 3500


def test_a_job_is_opened_and_its_boxes_filled_with_few_bytes(terminal: Terminal) -> None:
    assert cost(terminal, "enter") < 3500
    terminal.until("F3 Details")
    terminal.press("f3", "f5", "f3", "home").until("Client's address")
    fall_silent(terminal)
    keep_to(terminal, *ON_DETAILS)


def test_readings_of_forty_circuits_are_typed_with_few_bytes(terminal: Terminal) -> None:
    terminal.press("enter").until("F3 Details")
    terminal.press("f5").until("F5 Results*", "Continuity")
    keep_to(terminal, *ON_RESULTS)


def test_going_from_step_to_step_costs_a_screen_of_text_at_most(terminal: Terminal) -> None:
    terminal.press("enter").until("F3 Details")
    keep_to(terminal, *BETWEEN_STEPS)


def test_nothing_is_sent_while_nobody_types(terminal: Terminal) -> None:
    terminal.press("enter").until("F3 Details")
    terminal.press("f5").until("Continuity")
    terminal.type("0.4").until("0.4")
    fall_silent(terminal)
    before = terminal.received
    assert not terminal.listen(3)
    assert terminal.received == before


def test_a_key_held_down_sends_no_more_than_the_same_key_pressed_as_often(terminal: Terminal) -> None:
    terminal.press("enter").until("F3 Details")
    terminal.press("f5").until("Continuity")
    fall_silent(terminal)
    before = terminal.received
    terminal.send(KEYS["down"] * 39)
    fall_silent(terminal)
    assert terminal.received - before < 39 * 220
