"""Other processes that use the log, for tests: forked, so that they start at once."""

import os
import sys
import traceback
from collections.abc import Callable
from typing import NoReturn


def forked(work: Callable[[], object]) -> int:
    """Start a process that does some work and ends; its id."""
    child = os.fork()
    if not child:
        _do(work)
    return child


def ended(child: int) -> int:
    """Wait for a process; its exit code, or the signal that ended it as a negative number."""
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


def _do(work: Callable[[], object]) -> NoReturn:
    code = 1
    try:
        work()
        code = 0
    finally:
        if code:
            traceback.print_exc(file=sys.__stderr__)
        os._exit(code)
