"""Where a job log is kept, as one value: in a folder of this computer, or on a server."""

import re
from dataclasses import dataclass
from pathlib import Path

_SERVER = re.compile(r"postgres(?:ql)?://", re.IGNORECASE)


def is_server(typed: str) -> bool:
    """It is the address of a server; whether a log can be reached there is told by whoever opens it."""
    return bool(_SERVER.match(typed.strip()))


@dataclass(frozen=True, slots=True)
class LogPlace:
    """Of a log on a server, the folder holds what stays on this computer, such as packs."""

    home: Path
    server: str = ""
    """The address; "" for a log in the folder."""

    def __str__(self) -> str:
        """As people know it."""
        return self.server or str(self.home)
