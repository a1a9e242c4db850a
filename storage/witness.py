"""A small file beside the log that says how far the log was kept, so that a log cut short, put back or rewritten is told.

It is written after each write has been acknowledged by the disk, and never waits for the disk itself: a program that is
killed loses nothing of it, and after a power cut it may lag behind the log but never runs ahead of it. Its last entries
name what was kept, so that what is missing can be named too.
"""

import json
import os
import zlib
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path
from typing import Any, NamedTuple, Self

from storage.access import make_file

WITNESS = "ohmfolio.seen"
_ENTRY = 192
_HELD = 64
"""So many last entries are held; each is a line of text that fills its place."""
_ABOUT_MAX = 40


class Seen(NamedTuple):
    """One entry: what the log kept, in its own count."""

    seq: int
    head: str
    about: str


class Witness:
    """The file of one log, open for writing. Whoever writes holds the log's turn."""

    def __init__(self, descriptor: int) -> None:
        self._descriptor = descriptor

    @classmethod
    def begin(cls, home: Path, log: str, layout: int, end: Seen) -> Self:
        """Begin it anew for a log, in the place of any that is there."""
        path = home / WITNESS
        part = path.with_name(f".{WITNESS}.part")
        part.unlink(missing_ok=True)
        witness = cls(make_file(part))
        os.pwrite(witness._descriptor, _line({"log": log, "layout": layout, "begun": end.seq}), 0)
        witness.saw([end])
        os.fsync(witness._descriptor)
        part.replace(path)
        return witness

    @classmethod
    def opened(cls, home: Path) -> Self | None:
        """That of a folder; None where there is none that may be written."""
        with suppress(OSError):
            return cls(os.open(home / WITNESS, os.O_RDWR | os.O_CLOEXEC))
        return None

    def saw(self, entries: Iterable[Seen]) -> None:
        """Note what was just kept, the oldest first."""
        for each in [*entries][-_HELD:]:
            line = _line({"seq": each.seq, "head": each.head, "about": each.about[:_ABOUT_MAX]})
            os.pwrite(self._descriptor, line, _ENTRY * (1 + each.seq % _HELD))

    def close(self) -> None:
        """Let go of it."""
        os.close(self._descriptor)


class Account(NamedTuple):
    """What the file says; "" and nothing where it cannot be read."""

    log: str
    layout: int
    begun: int
    """How far the log was when it was begun: what was kept before, it did not see."""
    seen: tuple[Seen, ...]
    """The last entries, the newest last."""

    @property
    def end(self) -> Seen:
        """How far the log was kept."""
        return self.seen[-1]


def account_in(home: Path) -> Account | None:
    """What the witness of a folder says; None where there is none, or none that can be read."""
    try:
        content = (home / WITNESS).read_bytes()
    except OSError:
        return None
    first, *rest = (_read(content[at : at + _ENTRY]) for at in range(0, _ENTRY * (_HELD + 1), _ENTRY))
    seen = sorted(Seen(each["seq"], each["head"], each["about"]) for each in rest if each)
    return Account(first["log"], first["layout"], first.get("begun", 0), tuple(seen)) if first and seen else None


def _line(values: dict[str, object]) -> bytes:
    text = json.dumps(values)
    while len(text) > _ENTRY - 12:
        # Letters of other alphabets take six places each.
        values = values | {"about": str(values["about"])[:-1]}
        text = json.dumps(values)
    return f"{text} {zlib.crc32(text.encode()):08x}".ljust(_ENTRY - 1).encode() + b"\n"


def _read(line: bytes) -> dict[str, Any] | None:
    text, _, mark = line.decode(errors="replace").rstrip().rpartition(" ")
    with suppress(ValueError):
        if int(mark, 16) == zlib.crc32(text.encode()):
            return json.loads(text)
    return None
