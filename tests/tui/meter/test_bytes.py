"""How many bytes the program sends for what a person does, on a board of 40 circuits at 80 by 24.

Bytes are the same on every computer; a slow line shows them as waiting. Over 64 kbit/s every 80 bytes cost 10 ms.
"""

from collections.abc import Iterator
from pathlib import Path

import pytest

from domain.job.circuit import RESULT_BOXES
from tests.tui.meter.asked import COLUMNS_TURNED, FIRST_SCREEN, MOST_BYTES, ROW_SCROLLED, WHOLE_SCREEN, Spread, spread
from tests.tui.meter.forty_circuits import forty_circuits
from tests.tui.meter.presses import Hands, Kind, Stroke
from tests.tui.terminal import KEYS, Terminal

CIRCUITS = 40


COLUMNS_ON_RESULTS = 14


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return forty_circuits(tmp_path_factory.mktemp("home"))


@pytest.fixture
def hands(home: Path) -> Iterator[Hands]:
    """Hands on the program, at its first screen."""
    with Terminal(home=home) as running:
        running.until("What was done?")
        running.fall_silent()
        yield Hands(running)


def costs(hands: Hands, kind: Kind, *keys: str) -> Spread:
    """Bytes of keys pressed one after the other; each has to change something."""
    presses = hands.press(Stroke(key, kind) for key in keys)
    assert all(press.answer for press in presses)
    return spread([press.bytes for press in presses])


def open_step(hands: Hands, key: str, *shown: str) -> None:
    """From the first screen to a step of the job that stands there."""
    hands.terminal.press("enter").until("F3 Details")
    hands.terminal.press(key).until(*shown)
    hands.terminal.fall_silent()


def test_boxes_of_a_page_are_gone_through_and_filled_with_few_bytes(hands: Hands) -> None:
    open_step(hands, "f3", "Client's address")
    hands.terminal.press("home")
    assert MOST_BYTES[Kind.LETTER].holds(costs(hands, Kind.LETTER, *"Marigold Finch"))
    assert MOST_BYTES[Kind.KEPT].holds(costs(hands, Kind.KEPT, "tab", "x", "tab", "y", "tab"))
    assert MOST_BYTES[Kind.NEXT].holds(costs(hands, Kind.NEXT, *["tab"] * 80))
    assert MOST_BYTES[Kind.NEXT].holds(costs(hands, Kind.NEXT, *["shift+tab"] * 40))
    assert MOST_BYTES[Kind.PART].holds(costs(hands, Kind.PART, *["pagedown"] * 4))


def test_the_cursor_goes_over_a_schedule_of_forty_circuits_with_few_bytes(hands: Hands) -> None:
    open_step(hands, "f5", "Continuity")
    hands.terminal.press("home")
    across = costs(hands, Kind.CELL, *["right"] * (len(RESULT_BOXES) - 1))
    costs(hands, Kind.CELL, "ctrl+home", *["down"] * 10, *["right"] * 5, *["up"] * 10, *["left"] * 5)
    assert MOST_BYTES[Kind.CELL].holds(spread([press.bytes for press in hands.presses]))
    assert across.most <= COLUMNS_TURNED
    costs(hands, Kind.CELL, *["down"] * 10)
    assert costs(hands, Kind.CELL, *["down"] * 10).most <= ROW_SCROLLED


def test_readings_are_typed_and_kept_with_few_bytes_and_so_is_all_that_the_panel_says(hands: Hands) -> None:
    open_step(hands, "f5", "Continuity")
    readings = ("0.42", "0.43", "0.70", "0.29", ">999")
    for reading in readings:
        assert MOST_BYTES[Kind.LETTER].holds(costs(hands, Kind.LETTER, *reading))
        hands.press([Stroke("tab", Kind.KEPT, rests=True)])
    kept = [press.bytes for press in hands.presses if press.stroke.kind is Kind.KEPT]
    assert MOST_BYTES[Kind.KEPT].holds(spread(kept))


def test_the_first_screen_is_short_and_so_is_every_step_of_a_job(hands: Hands) -> None:
    assert hands.terminal.received <= FIRST_SCREEN
    open_step(hands, "f3", "Client's address")
    assert costs(hands, Kind.ELSE, "f4", "f5", "f6", "f8", "f3", "f5").most <= WHOLE_SCREEN


def test_nothing_is_sent_while_nobody_types(hands: Hands) -> None:
    open_step(hands, "f5", "Continuity")
    hands.terminal.type("0.4").until("0.4")
    hands.terminal.fall_silent()
    assert not hands.terminal.listen(2)


def test_a_key_held_down_sends_no_more_than_the_same_key_pressed_as_often(hands: Hands) -> None:
    open_step(hands, "f5", "Continuity")
    before = hands.terminal.received
    hands.terminal.send(KEYS["down"] * 39)
    hands.terminal.fall_silent()
    assert hands.terminal.received - before <= 39 * ROW_SCROLLED
