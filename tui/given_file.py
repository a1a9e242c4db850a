"""A file that a person names, read as far as it may be long; what is no file is never opened, let alone waited for."""

import errno
import os
import stat
from pathlib import Path
from typing import cast


class NotAFileError(OSError):
    """What is there is a pipe, a device or the like."""


def read_given_file(name: str | os.PathLike[str], most: int) -> bytes:
    """What a file holds, and no more than a byte beyond `most`, to show that there is more. OSError, ValueError for a name that is none."""
    _must_be_file(Path(name).stat())
    # Between the look and the opening another may take its place: such an opening returns at once, and is looked at again.
    descriptor = os.open(name, os.O_RDONLY | os.O_NONBLOCK | os.O_NOCTTY | os.O_CLOEXEC)
    with os.fdopen(descriptor, "rb") as file:
        _must_be_file(os.fstat(descriptor))
        content = cast("bytes | None", file.read(most + 1))
    if content is None:
        # What the system itself shows as a file, and has nothing to give just now.
        raise NotAFileError(errno.EINVAL, "it is a pipe or a device, not a file")
    return content


def _must_be_file(found: os.stat_result) -> None:
    if stat.S_ISDIR(found.st_mode):
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR))
    if not stat.S_ISREG(found.st_mode):
        raise NotAFileError(errno.EINVAL, "it is a pipe or a device, not a file")
