"""Looks after the log of one folder."""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from domain.log.upkeep import Condition, Copy, Restored
from storage.opening import open_log
from storage.upkeep.backing_up import back_up, copy_of_the_day
from storage.upkeep.key_upkeep import unlock
from storage.upkeep.restoring import restore
from storage.upkeep.sharing import share
from storage.upkeep.tending import HowFar, tend


class SqliteUpkeep:
    """Fulfils `domain.log.upkeep.FolderUpkeep`. The log may be in use meanwhile."""

    def __init__(self, home: Path) -> None:
        self._home = home

    def tend(
        self,
        *,
        at: datetime,
        mend: bool = False,
        anew: bool = False,
        since: datetime | None = None,
        told: Callable[[int, int], None] = lambda _done, _of: None,
    ) -> Condition:
        """Look at everything the log keeps; with `mend`, make anew what can be made from the rest."""
        return tend(self._home, HowFar(mend, anew, since), at=at, told=told)

    def share(self, group: str) -> None:
        """Open the log to a group of this computer's people, and to nobody else."""
        share(self._home, group)

    def back_up(self, to: str, *, phrase: str = "") -> Copy:
        """Write a copy of the log with its issued papers into a new file, and prove it; with its key where a phrase locks it."""
        return back_up(self._home, Path(to), phrase=phrase)

    def copy_of_the_day(self, *, at: datetime, keep: int) -> Copy | None:
        """Keep today's copy beside the log, and only so many days' in all; None where nothing has changed since."""
        return copy_of_the_day(self._home, at=at, keep=keep)

    def unlock_key(self, phrase: str) -> str:
        """Take the key of the seal, which a restored copy brought along, out of its lock; its fingerprint."""
        file = open_log(self._home)
        try:
            return unlock(self._home, file, phrase)
        finally:
            file.close()

    def restore(
        self, copy: str, *, at: datetime, told: Callable[[int, int], object] = lambda _done, _of: None
    ) -> Restored:
        """Prove a copy and put it in the place of the log, which is kept aside. Nobody may have the log open."""
        return restore(self._home, Path(copy), at=at, told=told)
