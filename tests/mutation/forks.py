"""Work in a process that parts from this one, with what it found."""

import math
import os
import pickle
import resource
import select
import signal
from collections.abc import Callable
from typing import TypeVar

T = TypeVar("T")
_AT_MOST_BYTES = 6 << 30


class OverTimeError(Exception):
    """The work took too long, or took the process with it."""


def in_a_fork(work: Callable[[], T], seconds: float) -> T:
    """What the work gives, done in a child that says nothing and leaves nothing behind in this process.

    `seconds` are of the processor; by the clock it may be twenty times as many.
    """
    reading, writing = os.pipe()
    child = os.fork()
    if not child:
        _do(work, writing, math.ceil(seconds))
    os.close(writing)
    try:
        return _answer(reading, child, 30 + 20 * seconds)
    finally:
        os.close(reading)


def _do(work: Callable[[], object], writing: int, seconds: int) -> None:
    os.setsid()
    silence = os.open(os.devnull, os.O_RDWR)
    for each in (0, 1, 2):
        os.dup2(silence, each)
    resource.setrlimit(resource.RLIMIT_AS, (_AT_MOST_BYTES, _AT_MOST_BYTES))
    resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds))
    code = 1
    try:
        answer = pickle.dumps(work())
        with os.fdopen(writing, "wb") as pipe:
            pipe.write(answer)
        code = 0
    finally:
        os._exit(code)


def _answer(reading: int, child: int, seconds: float) -> T:  # type: ignore[type-var]
    watch = os.pidfd_open(child)
    parts: list[bytes] = []
    try:
        while ready := select.select([reading], [], [], seconds)[0]:
            part = os.read(ready[0], 1 << 16)
            if not part:
                break
            parts.append(part)
        if not ready or not select.select([watch], [], [], 5)[0]:
            os.killpg(child, signal.SIGKILL)
        _, status = os.waitpid(child, 0)
    finally:
        os.close(watch)
    if status or not parts:
        raise OverTimeError
    return pickle.loads(b"".join(parts))
