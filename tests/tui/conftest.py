"""Panel and coach speak at once in tests that press keys on the screens themselves, so that none has to wait."""

import pytest

from tui.screens.box_work import BoxWork
from tui.screens.dialogs import FormScreen


@pytest.fixture(autouse=True)
def hands_always_rest(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(BoxWork, "RESTS_AFTER", 0)
    monkeypatch.setattr(FormScreen, "RESTS_AFTER", 0)
