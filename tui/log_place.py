"""Where a job log is kept, as one value: in a folder of this computer, or on a server."""

from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class LogPlace:
    """Of a log on a server, the folder holds what stays on this computer, such as packs."""

    home: Path
    server: str = ""
    """The address; "" for a log in the folder."""

    def __str__(self) -> str:
        """As people know it."""
        return self.server or str(self.home)
