"""A file over a line that is cut, spoilt or not what it should be: all of it or nothing, and the next line goes on from there."""

import io
import random
import socket
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager, suppress
from datetime import timedelta
from pathlib import Path

import pytest

from domain.log.job_log import JobLogError
from storage.laptops.line import received, send
from tests.builders import AT

SIZE = 300_000


class CutLine:
    """Lets so many bytes through, then breaks; counts them."""

    def __init__(self, end: socket.socket, after: int) -> None:
        self._end, self.left, self.sent = end, after, 0

    def write(self, piece: bytes) -> None:
        self._end.sendall(piece[: self.left])
        self.sent += len(piece[: self.left])
        self.left -= len(piece)
        if self.left < 0:
            self._end.shutdown(socket.SHUT_RDWR)
            raise BrokenPipeError

    def flush(self) -> None:
        """Nothing waits."""


@pytest.fixture
def file(tmp_path: Path) -> Path:
    file = tmp_path / "sent"
    file.write_bytes(random.Random(7671).randbytes(SIZE))
    return file


@contextmanager
def sending(file: Path, after: int) -> Iterator[tuple[socket.socket, CutLine]]:
    """The other end of a line over which a file is sent until it breaks."""
    here, there = socket.socketpair()
    line = CutLine(here, after)

    def work() -> None:
        with here, suppress(BrokenPipeError, JobLogError):
            send(file, here.makefile("rb"), line)

    with ThreadPoolExecutor(1) as other:
        done = other.submit(work)
        yield there, line
        there.close()
        done.result()


def over(line: socket.socket, folder: Path, at=AT) -> bytes:
    with received(line.makefile("rb"), line.makefile("wb"), folder, at=at) as came:
        return came.read_bytes()


@pytest.mark.parametrize("cut", [0, 7, 8, 39, 40, 41, 100_000, SIZE + 39])
def test_a_line_cut_anywhere_gives_nothing_and_the_next_one_sends_only_what_is_missing(
    cut: int, file: Path, tmp_path: Path
) -> None:
    folder = tmp_path / "unfinished"
    with sending(file, cut) as (line, first), pytest.raises(JobLogError, match="the same once more is safe"):
        over(line, folder)
    there = max(0, first.sent - 40)

    with sending(file, 2 * SIZE) as (line, second):
        assert over(line, folder) == file.read_bytes()

    assert second.sent == 40 + SIZE - there
    assert [*folder.iterdir()] == []


def test_what_was_spoilt_is_told_and_begun_anew(file: Path, tmp_path: Path) -> None:
    folder = tmp_path / "unfinished"
    with sending(file, SIZE // 2) as (line, _), pytest.raises(JobLogError):
        over(line, folder)
    (part,) = folder.iterdir()
    part.write_bytes(b"?" + part.read_bytes()[1:])

    with sending(file, 2 * SIZE) as (line, _), pytest.raises(JobLogError, match="spoilt on its way"):
        over(line, folder)
    with sending(file, 2 * SIZE) as (line, _):
        assert over(line, folder) == file.read_bytes()


def test_what_nobody_went_on_with_for_a_week_goes(file: Path, tmp_path: Path) -> None:
    folder = tmp_path / "unfinished"
    (folder / "whole" / "of a program that was killed").mkdir(parents=True)
    (folder / "unfinished-00").write_bytes(b"of another day")
    later = AT.fromtimestamp((folder / "unfinished-00").stat().st_mtime, AT.tzinfo) + timedelta(days=8)
    with sending(file, 2 * SIZE) as (line, _):
        over(line, folder, at=later)
    assert [*folder.iterdir()] == []


def test_whatever_else_speaks_is_told_as_such(file: Path, tmp_path: Path) -> None:
    for said in (b"Welcome to the office, please behave", b"\xff" * 8):
        with pytest.raises(JobLogError, match="something else speaks first"):
            send(file, io.BytesIO(said), io.BytesIO())
        with (
            pytest.raises(JobLogError, match="something else speaks first"),
            received(io.BytesIO(said), io.BytesIO(), tmp_path, at=AT),
        ):
            pass
