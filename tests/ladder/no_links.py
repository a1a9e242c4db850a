"""The whole way of a log on a file system that knows no hard links: begun, issued, copied, gone back to, handed over."""

import os
import shutil
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from domain.log.upkeep import Concern
from storage.upkeep.sqlite_upkeep import SqliteUpkeep
from tests.storage.upkeep.conftest import begin_real_log
from tests.tui.commands.command_line import ohmfolio


def without_links(folder: Path, counts: list[int]) -> Iterator[str]:
    """So many times; nothing where the folder knows hard links after all."""
    if _knows_links(folder):
        yield f"- {folder} knows hard links: name one on a memory stick (exFAT, FAT), mounted by the kernel or through FUSE"
        return
    for turn in range(counts[0]):
        place = folder / f"turn {turn}"
        place.mkdir()
        yield from (f"- {what}" for what in _gone(place))
        shutil.rmtree(place)


def _knows_links(folder: Path) -> bool:
    one, other = folder / "one", folder / "other"
    one.touch()
    try:
        os.link(one, other)
    except OSError:
        return False
    finally:
        one.unlink()
        other.unlink(missing_ok=True)
    return True


def _gone(place: Path) -> Iterator[str]:
    home, restored, other = begin_real_log(place / "log"), place / "restored", place / "other"
    yield "a log begun, four papers issued, one of them in the place of another"
    copy = Path(SqliteUpkeep(home).back_up(str(place / "copy.ohmfolio")).path)
    SqliteUpkeep(restored).restore(str(copy), at=datetime.now(UTC))
    SqliteUpkeep(home).restore(str(copy), at=datetime.now(UTC))
    for each in (home, restored):
        wrong = [
            fault.says
            for fault in SqliteUpkeep(each).tend(at=datetime.now(UTC)).faults
            if fault.about
            not in {Concern.ACCESS, Concern.KEY}  # such disks keep no rights, and a copy need hold no key
        ]
        assert not wrong, wrong
    yield "copied with its papers, restored elsewhere and over itself, and both are whole"
    assert ohmfolio("hand-over", "A-0005", "--to", place / "job.json", home=home).code == 0
    assert ohmfolio("bring-in", place / "job.json", home=other).code == 0
    issued = ohmfolio("issue", "A-0001", "--to", place / "out", home=other)
    assert issued.code == 0, issued
    (paper,) = (place / "out").rglob("*.pdf")
    assert ohmfolio("verify", paper, home=other).code == 0
    yield "handed over, brought in, issued there by the command, and verified"
