"""The one place that starts a process of this program: which interpreter, what it may load, and how much it may take.

A process is started isolated, by the interpreter's full path, in the root folder and with a clean environment, so that
nothing that lies in the folder a person stands in, or stands in their environment, is run. It binds itself to its limits
before it loads anything else.
"""

import importlib
import os
import resource
import subprocess
import sys
import tempfile
from collections.abc import Callable, Generator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path
from threading import Thread
from typing import IO, Any, NamedTuple

_MEGABYTE = 1024 * 1024
_KEPT = (
    "HOME",
    "TZ",
    "TMPDIR",
    "SSH_AUTH_SOCK",
    "XDG_DATA_HOME",
    "XDG_CONFIG_HOME",
    "XDG_CACHE_HOME",
    "XDG_STATE_HOME",
)
"""What of a person's environment a process of ours is told, beside settings of this program."""
_OURS = "OHMFOLIO_"
_PROGRAM = (
    "import sys; sys.path[:0] = sys.argv[1].split(chr(10)); "
    "from storage.child_process import enter; enter(sys.argv[2], *map(int, sys.argv[3:6]), *sys.argv[6:])"
)
_OPEN_FILES = 64
_LINE = 40


class BeyondLimitsError(Exception):
    """A process took more memory, time or room for its answer than it may, or broke down over what it was given."""


class ProcessLimits(NamedTuple):
    """How much a process may take; 0 leaves it free."""

    memory: int = 0
    """Megabytes of address space."""
    seconds: int = 0
    """Of processor time; where its answer is waited for, three times as long by the clock."""
    written: int = 0
    """Megabytes of a file it writes, its answer among them."""


UNLIMITED = ProcessLimits()


def start(
    begin: str,
    *arguments: str,
    limits: ProcessLimits = UNLIMITED,
    settings: Mapping[str, str] | None = None,
    stdin: int | IO[bytes] = subprocess.DEVNULL,
    stdout: int | IO[bytes] = subprocess.DEVNULL,
    stderr: int | IO[bytes] = subprocess.DEVNULL,
    detached: bool = False,
) -> "subprocess.Popen[bytes]":
    """Start a process at `begin`, "module:function", which is called with the arguments. OSError where none can be started.

    `settings` are added to its environment; a `detached` one goes on when the terminal goes.
    """
    folders = "\n".join(_code_folders())
    typed = [_interpreter(), "-I", "-c", _PROGRAM, folders, begin, *map(str, limits), *arguments]
    return subprocess.Popen(
        typed,
        cwd="/",
        env=_environment() | dict(settings or {}),
        stdin=stdin,
        stdout=stdout,
        stderr=stderr,
        start_new_session=detached,
    )


class ListenedProcess:
    """A process that goes on without this one, and what it has said so far: in files, so that nobody has to be there to hear it."""

    def __init__(self, begin: str, *arguments: str, settings: Mapping[str, str], given: str) -> None:
        """`given` is what it reads. OSError where none can be started."""
        # They are open as long as somebody may ask.
        self._said, self._answer = tempfile.TemporaryFile(), tempfile.TemporaryFile()  # noqa: SIM115
        with tempfile.TemporaryFile() as reads:
            reads.write(given.encode())
            reads.seek(0)
            self._process = start(
                begin,
                *arguments,
                settings=settings,
                stdin=reads,
                stdout=self._answer,
                stderr=self._said,
                detached=True,
            )

    @property
    def code(self) -> int | None:
        """Its exit code; None while it runs."""
        return self._process.poll()

    @property
    def said(self) -> str:
        """What it has said beside its answer."""
        return _written_to(self._said)

    @property
    def answer(self) -> str:
        """Its answer, as far as it is written."""
        return _written_to(self._answer)

    def wait(self) -> None:
        """Until it has ended."""
        self._process.wait()


def _written_to(file: IO[bytes]) -> str:
    """By place, so that where the process writes on is left alone."""
    size = os.fstat(file.fileno()).st_size
    return os.pread(file.fileno(), size, 0).decode(errors="replace")


def asked(
    answering: str, request: bytes, limits: ProcessLimits, told: Callable[[int, int], object] | None = None
) -> bytes:
    """What a function, "module:function" from bytes to bytes, answers in a process of its own.

    `told` hears, on a thread of its own, what the function tells by `tell_how_far`. BeyondLimitsError where it cannot answer
    within its limits.
    """
    with tempfile.TemporaryFile() as given, tempfile.TemporaryFile() as answer, _heard(told) as says:
        given.write(request)
        given.seek(0)
        process = start(f"{__name__}:answer", answering, limits=limits, stdin=given, stdout=answer, stderr=says)
        try:
            code = process.wait(timeout=3 * limits.seconds or None)
        except subprocess.TimeoutExpired:
            raise BeyondLimitsError from None
        finally:
            if process.poll() is None:
                process.kill()
                process.wait()
        most = limits.written * _MEGABYTE or sys.maxsize
        if code or os.fstat(answer.fileno()).st_size > most:
            raise BeyondLimitsError
        answer.seek(0)
        return answer.read()


def tell_how_far(done: int, of: int) -> None:
    """From a process that was asked: so many are done of how many."""
    with suppress(OSError):
        os.write(2, b"%d %d\n" % (done, of))


@contextmanager
def _heard(told: Callable[[int, int], object] | None) -> Generator[int | IO[bytes]]:
    """Where a process tells how far it is; what else it writes there is passed over."""
    if told is None:
        yield subprocess.DEVNULL
        return
    reads, writes = os.pipe()
    with os.fdopen(reads, "rb") as said:
        hearing = Thread(target=_hear, args=(said, told), daemon=True)
        hearing.start()
        with os.fdopen(writes, "wb", buffering=0) as says:
            yield says
        hearing.join()


def _hear(said: IO[bytes], told: Callable[[int, int], object]) -> None:
    while line := said.readline(_LINE):
        done, _, of = line.decode(errors="replace").strip().partition(" ")
        if done.isdecimal() and of.isdecimal():
            told(int(done), int(of))


def enter(begin: str, memory: int, seconds: int, written: int, *arguments: str) -> None:
    """Bind this process to its limits, then begin."""
    _bind(resource.RLIMIT_CORE, 0)
    _bind(resource.RLIMIT_NOFILE, _OPEN_FILES if memory else 0, free=not memory)
    _bind(resource.RLIMIT_AS, memory * _MEGABYTE, free=not memory)
    _bind(resource.RLIMIT_CPU, seconds, free=not seconds)
    _bind(resource.RLIMIT_FSIZE, written * _MEGABYTE, free=not written)
    named(begin)(*arguments)


def answer(answering: str) -> None:
    """Answer the one request that comes in."""
    given, answers = answer_by_streams()
    answers.write(named(answering)(given.read()))
    answers.close()


def named(function: str) -> Callable[..., Any]:
    """The function that "module:function" names."""
    module, _, name = function.partition(":")
    return getattr(importlib.import_module(module), name)


def answer_by_streams() -> tuple[IO[bytes], IO[bytes]]:
    """Where a process finds its request and puts its answer; what its libraries print goes nowhere."""
    answers = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)
    return sys.stdin.buffer, answers


def _bind(what: int, most: int, *, free: bool = False) -> None:
    if not free:
        _, hard = resource.getrlimit(what)
        most = most if hard == resource.RLIM_INFINITY else min(most, hard)
        resource.setrlimit(what, (most, most))


def _interpreter() -> str:
    """By its full path alone: looked for from the folder a person stands in, it might be anybody's file."""
    if not Path(sys.executable or "").is_absolute():
        raise FileNotFoundError(
            "Python does not say where it is, so it cannot be started safely; start it by its full path"
        )
    return sys.executable


def _code_folders() -> list[str]:
    """Where this program and its libraries were loaded from: an isolated interpreter may not know of both."""
    import pydantic

    here, libraries = (str(Path(str(file)).resolve().parents[1]) for file in (__file__, pydantic.__file__))
    return [here, libraries]


def _environment() -> dict[str, str]:
    held = {name: os.environ[name] for name in _KEPT if name in os.environ}
    ours = {name: value for name, value in os.environ.items() if name.startswith(_OURS)}
    return held | ours | {"PATH": "/usr/bin:/bin", "LC_ALL": "C.UTF-8", "PYDANTIC_DISABLE_PLUGINS": "1"}
