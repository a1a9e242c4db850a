"""Every forgery and every attack of the suite, each on a log of its own, with `tend` as it is run: what it says of each."""

import re
import shutil
import tempfile
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from storage.upkeep.sqlite_upkeep import SqliteUpkeep
from tests.storage.upkeep.attacks import ATTACKS
from tests.storage.upkeep.conftest import begin_real_log
from tests.storage.upkeep.forging import forge


def attacked(folder: Path, _: list[int]) -> Iterator[str]:
    """A line for each attack: whether it is named, and in which words."""
    named = 0
    with tempfile.TemporaryDirectory(dir=folder) as made:
        real = begin_real_log(Path(made) / "log")
        for turn, attack in enumerate(ATTACKS):
            home = shutil.copytree(real, Path(made) / str(turn), symlinks=True)
            forge(home, attack)
            says = [fault.says for fault in SqliteUpkeep(home).tend(at=datetime.now(UTC)).faults]
            told = next((each for each in says if re.search(attack.told, each)), "")
            named += bool(told)
            yield f"- {attack.what}: {told.replace(str(home), 'HOME') or f'NOT NAMED, but {says}'}"
    yield f"- {named} of {len(ATTACKS)} attacks on a log with real papers named"
