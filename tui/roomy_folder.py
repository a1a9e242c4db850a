"""A folder of this computer with room left on its disk, to be put forward where that of the log has none."""

import os
import tempfile
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

_MOUNTED = ("/run/media", "/media", "/mnt")
"""Where sticks and other disks commonly come up, some a folder deeper, by the person's name."""
_SPARE = 1024 * 1024
"""Bytes beyond what is to be written, so that the disk is not filled to its end by it."""


def roomy_folder(size: int) -> Path:
    """The person's own folder, or the first of other disks that takes so many bytes; their own where none is known to."""
    return next((folder for folder in _places() if _has_room(folder, size)), Path.home())


def _places() -> Iterator[Path]:
    yield Path.home()
    for mounted in map(Path, _MOUNTED):
        with suppress(OSError):
            yield from (
                path for each in sorted(mounted.iterdir()) for path in (each, *_within(each)) if path.is_mount()
            )
    yield Path.cwd()
    yield Path(tempfile.gettempdir())


def _within(folder: Path) -> list[Path]:
    with suppress(OSError):
        return sorted(path for path in folder.iterdir() if path.is_dir())
    return []


def _has_room(folder: Path, size: int) -> bool:
    with suppress(OSError):
        held = os.statvfs(folder)
        return held.f_bavail * held.f_frsize > size + _SPARE and os.access(folder, os.W_OK)
    return False
