"""Where a log can be moved from and to."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from storage.moving.folder_place import FolderPlace
from storage.postgres.server_address import address_at

if TYPE_CHECKING:
    from storage.moving.server_place import ServerPlace


def end_at(home: Path, server: str) -> FolderPlace | ServerPlace:
    """The log of a server, or of the folder where no server is named; JobLogError for an address that cannot be used."""
    return server_at(server) if server else FolderPlace(home)


def server_at(server: str) -> ServerPlace:
    """The log of a server; JobLogError for an address that cannot be used."""
    address = address_at(server)
    # Loaded once it is known that what it needs is installed.
    from storage.moving.server_place import ServerPlace

    return ServerPlace(address)
