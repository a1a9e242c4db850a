"""Looks after the log of one folder."""

from datetime import datetime
from pathlib import Path

from domain.upkeep import Condition
from storage.upkeep.sharing import share
from storage.upkeep.tending import tend


class FolderUpkeep:
    """Fulfils `domain.upkeep.Upkeep`. The log may be in use meanwhile."""

    def __init__(self, home: Path) -> None:
        self._home = home

    def tend(self, *, at: datetime, mend: bool = False) -> Condition:
        """Look at everything the log keeps; with `mend`, make anew what can be made from the rest."""
        return tend(self._home, at=at, mend=mend)

    def share(self, group: str) -> None:
        """Open the log to a group of this computer's people, and to nobody else."""
        share(self._home, group)
