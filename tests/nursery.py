"""Where the processes come from that the program starts itself: they part from one that has all loaded, as the program does.

What `storage.child_process` promises of a fresh one (nothing of a person's folder or environment is run, limits hold) is held
by its own tests, with fresh ones.
"""

import gc
import json
import os
import selectors
import signal
import socket
import subprocess
import sys
import tempfile
import traceback
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from multiprocessing.connection import Connection
from secrets import token_hex
from typing import IO, Any, NoReturn

from storage import child_process
from storage.child_process import UNLIMITED, ProcessLimits, enter

_NAMED = "TESTS_PART_AT"
_MOST = 1 << 16
_held: list[Any] = []
"""What ends with the process of the tests, and the nursery with it."""


def begin(parting: Any) -> None:
    """Begin it, once, for this process and for all that part on its behalf."""
    if _held:
        return
    os.environ[_NAMED] = name = f"tests-{os.getpid()}-{token_hex(8)}"
    here, there = parting.Pipe()
    process = parting.Process(target=_serve, args=(name, there), daemon=True)
    process.start()
    here.recv()
    _held[:] = here, process


def use() -> None:
    """Have the program of this process start its own from the nursery, where there is one."""
    if name := os.environ.get(_NAMED, ""):
        child_process.start = _Starting(name)


@contextmanager
def in_use(parting: Any) -> Iterator[None]:
    """The nursery for what the tests themselves have the program do."""
    fresh = child_process.start
    begin(parting)
    use()
    yield
    child_process.start = fresh


def as_fresh(environment: Mapping[str, str], folder: str, streams: tuple[int, int, int]) -> None:
    """Have this process find itself as a fresh one would."""
    os.chdir(folder)
    for at, stream in enumerate(streams):
        os.dup2(stream, at)
    for stream in {*streams}:
        os.close(stream)
    for at, (name, mode) in enumerate((("stdin", "r"), ("stdout", "w"), ("stderr", "w"))):
        line = 1 if os.isatty(at) else -1
        stream = open(at, mode, buffering=line, encoding="utf-8", closefd=False)  # noqa: SIM115
        setattr(sys, name, stream)
        setattr(sys, f"__{name}__", stream)
    os.environ.clear()
    os.environ.update(environment)
    tempfile.tempdir = None  # found anew: a fresh process asks its environment


def end_with(main: Callable[[], int | None]) -> NoReturn:
    """Run to the end, and end this process with the code an interpreter would."""
    try:
        code = main() or 0
    except SystemExit as ended:
        code = ended.code if isinstance(ended.code, int) else int(ended.code is not None)
    except BaseException:  # noqa: BLE001  # the interpreter itself would print it, and end with 1
        traceback.print_exc()
        code = 1
    with suppress(OSError):
        sys.stdout.flush()
        sys.stderr.flush()
    os._exit(code)


class _Starting:
    """What `storage.child_process.start` is, with a process that parts in the place of a fresh one."""

    def __init__(self, name: str) -> None:
        self._address = f"\0{name}"

    def __call__(
        self,
        begin: str,
        *arguments: str,
        limits: ProcessLimits = UNLIMITED,
        settings: Mapping[str, str] | None = None,
        stdin: int | IO[bytes] = subprocess.DEVNULL,
        stdout: int | IO[bytes] = subprocess.DEVNULL,
        stderr: int | IO[bytes] = subprocess.DEVNULL,
        detached: bool = False,
    ) -> "_Parted":
        environment = child_process._environment() | dict(settings or {})
        asked = [begin, [*limits], [*arguments], environment, detached]
        return _Parted(self._address, asked, (stdin, stdout, stderr))


class _Parted:
    """As much of a `Popen` as the program asks of one."""

    def __init__(self, address: str, asked: list[Any], streams: tuple[int | IO[bytes], ...]) -> None:
        self.stdin: IO[bytes] | None = None
        self.stdout: IO[bytes] | None = None
        self.returncode: int | None = None
        given = [self._given(at, stream) for at, stream in enumerate(streams)]
        self._line = socket.socket(socket.AF_UNIX, socket.SOCK_SEQPACKET)
        self._line.connect(address)
        socket.send_fds(self._line, [json.dumps(asked).encode()], given)
        self.pid = int(self._line.recv(_MOST))
        for at, stream in enumerate(streams):
            if isinstance(stream, int):
                os.close(given[at])

    def poll(self) -> int | None:
        with suppress(subprocess.TimeoutExpired):
            self.wait(0)
        return self.returncode

    def wait(self, timeout: float | None = None) -> int:
        if self.returncode is None:
            with selectors.DefaultSelector() as told:
                told.register(self._line, selectors.EVENT_READ)
                if not told.select(timeout):
                    raise subprocess.TimeoutExpired("a process that parted", timeout or 0)
            self.returncode = int(self._line.recv(_MOST) or -signal.SIGKILL)
            self._line.close()
        return self.returncode

    def kill(self) -> None:
        if self.returncode is None:
            with suppress(ProcessLookupError):
                os.kill(self.pid, signal.SIGKILL)

    def _given(self, at: int, stream: int | IO[bytes]) -> int:
        if not isinstance(stream, int):
            return stream.fileno()
        if stream == subprocess.DEVNULL:
            return os.open(os.devnull, os.O_RDWR | os.O_CLOEXEC)
        reads, writes = os.pipe()
        if at:
            self.stdout = os.fdopen(reads, "rb")
            return writes
        self.stdin = os.fdopen(writes, "wb")
        return reads


def _serve(name: str, tests: Connection) -> None:
    """Part whenever somebody asks, and tell them how it ended, until the tests have."""
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    listening = socket.socket(socket.AF_UNIX, socket.SOCK_SEQPACKET)
    listening.bind(f"\0{name}")
    listening.listen(64)
    waiting = selectors.DefaultSelector()
    waiting.register(listening, selectors.EVENT_READ)
    waiting.register(tests, selectors.EVENT_READ)
    tests.send(None)
    while True:
        for ready, _ in waiting.select():
            if ready.fileobj is tests:
                os._exit(0)
            if ready.fileobj is listening:
                line, _ = listening.accept()
                child = _part(line)
                ended = os.pidfd_open(child)
                waiting.register(ended, selectors.EVENT_READ, (child, line))
            else:
                waiting.unregister(ready.fileobj)
                os.close(ready.fd)
                child, line = ready.data
                code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
                with suppress(OSError):
                    line.send(str(code).encode())
                line.close()


def _part(line: socket.socket) -> int:
    said, streams, *_ = socket.recv_fds(line, _MOST, 3)
    child = os.fork()
    if not child:
        _play(json.loads(said), streams)
    for stream in streams:
        os.close(stream)
    line.send(str(child).encode())
    return child


def _play(asked: list[Any], streams: list[int]) -> NoReturn:
    begin, limits, arguments, environment, detached = asked
    gc.freeze()
    if detached:
        os.setsid()
    first = [os.dup(stream) for stream in streams]
    as_fresh(environment, "/", (first[0], first[1], first[2]))
    os.closerange(3, 256)
    sys.argv = ["-c"]
    use()
    end_with(lambda: enter(begin, *limits, *arguments))
