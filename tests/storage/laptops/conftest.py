from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.storage.laptops.firms import SmallFirm


@pytest.fixture(params=("in SQLite", "on PostgreSQL"))
def firm(request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[SmallFirm]:
    """A firm whose office keeps its log in a folder, then on a server; laptops keep theirs in folders."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    firm = SmallFirm(tmp_path, None if request.param == "in SQLite" else request.getfixturevalue("address"))
    yield firm
    firm.close()
