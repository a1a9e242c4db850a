"""Looking after a log of sound issued jobs: the first look, the next, one by day, a copy, going back to it, and handing all over."""

import os
import shutil
import sys
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from storage.upkeep.proved_before import PROVED
from tests.ladder.commands import ran
from tests.ladder.sound_jobs import fill_sound

_COPIED_MAX = 10_000


def looked_after(folder: Path, counts: list[int]) -> Iterator[str]:
    """What each took at each size, a line each: by the clock, of the processor with all children, and memory of the largest process."""
    yield f"{datetime.now(UTC):%Y-%m-%d}, load on the machine {', '.join(f'{each:.1f}' for each in os.getloadavg())}."
    for count in counts:
        home = folder / f"sound-{count}"
        if not home.exists():
            fill_sound(home, count)
        (home / PROVED).unlink(missing_ok=True)
        for name, typed in (
            ("the first tend", "tend"),
            ("the next", "tend"),
            ("tend of what was touched since a day", "tend --since 2027-01-01"),
            ("hand-over --all", "hand-over --all"),
        ):
            yield f"- {count:,} jobs: {name}: {ran([sys.executable, '-P', '-m', 'tui', *typed.split()], home)}"
        if count <= _COPIED_MAX:
            yield from _copied(folder, home, count)


def _copied(folder: Path, home: Path, count: int) -> Iterator[str]:
    copy, into = folder / "copy.ohmfolio", folder / "into"
    copy.unlink(missing_ok=True)
    yield f"- {count:,} jobs: backup: {ran([sys.executable, '-P', '-m', 'tui', 'backup', str(copy)], home)}"
    yield f"- {count:,} jobs: restore: {ran([sys.executable, '-P', '-m', 'tui', 'restore', str(copy)], into)}"
    copy.unlink()
    shutil.rmtree(into)
