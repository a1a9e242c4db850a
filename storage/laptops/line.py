"""A file over a line that may be cut at any moment: each side has all of it or nothing, and goes on where the last line broke.

Whoever sends says how large it is and its digest; whoever receives says how much of just that is there already; the rest follows.
"""

import fcntl
import hashlib
import shutil
from collections.abc import Generator
from contextlib import contextmanager, suppress
from datetime import datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import IO

from domain.log.job_log import JobLogError

_COUNT, _DIGEST = 8, 32
_LARGEST = 1 << 34
_PIECE = 65_536
_UNFINISHED = "unfinished-"
_KEPT = timedelta(days=7)
_NOTHING_CAME = "The line ended before anything came. Nothing was taken in; the same once more is safe."
_CUT = "The line was cut. Nothing of what came was taken in; the same once more is safe, and goes on from there."
_SPOILT = "What came over the line was spoilt on its way. Nothing was taken in; the same once more is safe."
_UNDER_WAY = "The same is coming over another line just now. Nothing was taken in; do it again once that has ended."
_SOMETHING_ELSE = (
    "What came over the line is no bundle: something else speaks first there, such as a greeting of its shell. Nothing was "
    "taken in."
)


def send(path: Path, incoming: IO[bytes], outgoing: IO[bytes]) -> None:
    """Send what the other side lacks of a file; JobLogError where something else answers there."""
    size = path.stat().st_size
    outgoing.write(size.to_bytes(_COUNT, "big") + _digest_of(path))
    outgoing.flush()
    there = _count_in(incoming)
    if there > size:
        raise JobLogError(_SOMETHING_ELSE)
    with path.open("rb") as file:
        file.seek(there)
        shutil.copyfileobj(file, outgoing, _PIECE)
    outgoing.flush()


@contextmanager
def received(incoming: IO[bytes], outgoing: IO[bytes], folder: Path, *, at: datetime) -> Generator[Path]:
    """A file that was received, gone again at the end. What comes before a line is cut stays in the folder, for the next one."""
    size = _count_in(incoming)
    if not size:
        raise JobLogError(_NOTHING_CAME)
    if size > _LARGEST:
        raise JobLogError(_SOMETHING_ELSE)
    if len(digest := incoming.read(_DIGEST)) < _DIGEST:
        raise JobLogError(_NOTHING_CAME)
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    _forget(folder, at - _KEPT)
    part = folder / f"{_UNFINISHED}{digest.hex()}"
    part.touch(mode=0o600)
    with part.open("ab") as file, TemporaryDirectory(dir=folder) as whole:
        try:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            raise JobLogError(_UNDER_WAY) from None
        _take_the_rest(file, size, incoming, outgoing)
        if _digest_of(part) != digest:
            part.unlink()
            raise JobLogError(_SPOILT)
        yield part.rename(Path(whole, "What came over the line"))


def _take_the_rest(file: IO[bytes], size: int, incoming: IO[bytes], outgoing: IO[bytes]) -> None:
    if file.tell() > size:
        file.truncate(0)
    outgoing.write(file.tell().to_bytes(_COUNT, "big"))
    outgoing.flush()
    while left := size - file.tell():
        piece = incoming.read(min(left, _PIECE))
        if not piece:
            raise JobLogError(_CUT)
        file.write(piece)
    file.flush()


def _forget(folder: Path, before: datetime) -> None:
    """What nobody has gone on with for long, since more was done there; and what programs left that were killed."""
    for part in folder.iterdir():
        # Another line may end meanwhile, and take its own away.
        with suppress(FileNotFoundError):
            if part.stat().st_mtime >= before.timestamp():
                continue
            if part.is_dir():
                shutil.rmtree(part, ignore_errors=True)
            else:
                part.unlink()


def _count_in(incoming: IO[bytes]) -> int:
    given = incoming.read(_COUNT)
    if len(given) < _COUNT:
        raise JobLogError(_NOTHING_CAME)
    return int.from_bytes(given, "big")


def _digest_of(path: Path) -> bytes:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").digest()
