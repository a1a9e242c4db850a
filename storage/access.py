"""Who may use a folder of the log: its owner alone, or a group where the folder says so."""

import os
import stat
from pathlib import Path
from typing import NamedTuple


class Modes(NamedTuple):
    """What folders and files of a log are opened to."""

    folder: int
    file: int


PRIVATE = Modes(folder=0o700, file=0o600)
SHARED = Modes(folder=0o2770, file=0o660)
"""The set-group bit hands the group on to whatever is made in the folder, whoever makes it."""


def is_shared(folder: Path) -> bool:
    """The folder belongs to a group that works in it."""
    mode = folder.stat().st_mode
    return bool(mode & stat.S_ISGID) and mode & 0o070 == 0o070


def make_folder(path: Path) -> None:
    """Make a folder where there is none, open to whom its parent is."""
    if not path.is_dir():
        path.mkdir(mode=0o700, parents=True, exist_ok=True)
        if is_shared(path.parent):
            path.chmod(SHARED.folder)


def make_file(path: Path) -> int:
    """Make a file that must not exist yet, open to whom its folder is; its descriptor, for writing."""
    descriptor = os.open(path, os.O_RDWR | os.O_CREAT | os.O_EXCL | os.O_CLOEXEC, 0o600)
    if is_shared(path.parent):
        # The mode asked for when making a file is cut down by the person's umask.
        os.fchmod(descriptor, SHARED.file)
    return descriptor
