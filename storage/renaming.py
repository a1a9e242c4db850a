"""Giving a file its name, never over another that has it: a rename that needs no hard links, which memory sticks do not know."""

import ctypes
import errno
import os
from pathlib import Path

_FROM_HERE = -100
_NEVER_OVER = 1


def rename_new(path: Path, name: Path) -> None:
    """Give a file a name that nothing has yet, in one step. FileExistsError where something has it."""
    told = _renamed(path, name)
    if told in {errno.ENOSYS, errno.EINVAL, errno.ENOTSUP}:
        # A system without such a call: between the look and the rename nobody else may make it, or theirs is lost.
        if os.path.lexists(name):
            told = errno.EEXIST
        else:
            path.rename(name)
            return
    if told:
        raise OSError(told, os.strerror(told), str(name))


def _renamed(path: Path, name: Path) -> int:
    """What the system says of it: 0 where it is done. Python has no name of its own for this call."""
    try:
        call = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError):
        return errno.ENOSYS
    done = call(_FROM_HERE, os.fsencode(path), _FROM_HERE, os.fsencode(name), _NEVER_OVER)
    return ctypes.get_errno() if done else 0
