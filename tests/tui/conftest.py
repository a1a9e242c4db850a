"""What lets tests that press keys on the screens themselves wait for nothing."""

from itertools import groupby
from typing import Any

import pytest
from textual import events
from textual.pilot import Pilot

from tui.app import OhmfolioApp
from tui.screens.box_work import BoxWork
from tui.screens.dialogs import FormScreen

_press = Pilot.press
_A_WORD = 3
"""So many letters one after the other are a text; fewer are answers, each a key of its own."""


@pytest.fixture(autouse=True)
def hands_always_rest(monkeypatch: pytest.MonkeyPatch) -> None:
    """Panel and coach speak at once."""
    monkeypatch.setattr(BoxWork, "RESTS_AFTER", 0)
    monkeypatch.setattr(FormScreen, "RESTS_AFTER", 0)


@pytest.fixture(autouse=True)
def texts_come_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """A text comes as a line that stalled delivers it, and not with forty milliseconds after each letter."""
    monkeypatch.setattr(Pilot, "press", _press_texts_at_once)


async def _press_texts_at_once(pilot: Pilot[Any], *keys: str) -> None:
    for is_letter, run in groupby(keys, key=lambda key: len(key) == 1):
        letters = [*run]
        if is_letter and len(letters) >= _A_WORD and isinstance(pilot.app, OhmfolioApp):
            for letter in letters:
                pilot.app.post_message(events.Key("space" if letter == " " else letter, letter))
            await pilot.pause()
            while pilot.app.type_ahead.is_working:
                await pilot.pause()
        else:
            await _press(pilot, *letters)
