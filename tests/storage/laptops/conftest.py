from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.storage.laptops.firms import SmallFirm


@pytest.fixture
def firm(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[SmallFirm]:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    firm = SmallFirm(tmp_path)
    yield firm
    firm.close()
