"""How far this device has come with what it tells others, kept outside its log: a log put back from a copy is known by it.

It is written after each write has reached the disk, and never waits for the disk itself. Whoever puts back a whole home
folder puts this back too; then the office sees it, which has heard more.
"""

import hashlib
import json
import os
import re
import secrets
from collections.abc import Callable, Mapping
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path
from typing import Protocol, Self

from domain.laptops.exchange_store import ExchangeStore
from domain.log.store import Store
from storage.witness import WITNESS

_PLAIN = re.compile(r"[^A-Za-z0-9.]+")


def stamps_folder() -> Path:
    """Where stamps lie: with what programs remember on this computer, and not with the logs."""
    named = os.environ.get("XDG_STATE_HOME", "")
    return (Path(named) if Path(named).is_absolute() else Path.home() / ".local" / "state") / "ohmfolio"


class Stamp:
    """The stamp of the log at one place."""

    def __init__(self, name: str) -> None:
        self._path = stamps_folder() / f"{name}.stamp"

    @classmethod
    def of_folder(cls, home: Path) -> Self:
        """Of the log in a folder."""
        return cls("-".join(home.absolute().parts[1:])[-180:])

    @classmethod
    def of_server(cls, address: object) -> Self:
        """Of the log at an address of a server, as this computer has seen it."""
        named = str(address)
        return cls(f"{_PLAIN.sub('-', named)[:120]}-{hashlib.sha256(named.encode()).hexdigest()[:12]}")

    def read(self) -> tuple[dict[str, int], str]:
        """How far each name of this device had come, in the order it had them, and the letters it had."""
        with suppress(OSError, ValueError):
            held = json.loads(self._path.read_text(encoding="utf-8"))
            return {str(device): int(counter) for device, counter in held["come"].items()}, str(held["letters"])
        return {}, ""

    def write(self, come: Mapping[str, int], letters: str) -> None:
        """Keep how far it has come now."""
        held, known = self.read()
        for device, counter in come.items():
            counted = max(counter, held.pop(device, 0))
            held[device] = counted
        words = " ".join(dict.fromkeys((*known.split(), *letters.split())))
        # It is on disk already: whatever becomes of the stamp, it was saved.
        with suppress(OSError):
            self._path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            part = self._path.with_suffix(".part")
            part.write_text(json.dumps({"come": held, "letters": words}), encoding="utf-8")
            part.replace(self._path)


class StampedStore(Store, Protocol):
    """A store that is of a firm, or may become so."""

    @property
    def exchange(self) -> ExchangeStore:
        """What an office and its laptops tell each other."""
        ...


def held_against_stamp(
    stamp: Stamp, store: StampedStore, at: Callable[[], datetime] = lambda: datetime.now(UTC)
) -> bool:
    """Hold a log of a firm against its stamp. True where it was put back from a copy, and goes on under another name."""
    if store.refuses() or not store.exchange.stations():
        return False
    from domain.log.use_cases.laptops import StoredLaptops

    come, letters = stamp.read()
    laptops = StoredLaptops(store, store.exchange)
    return bool(laptops.goes_on_as(secrets.token_hex(8), come, taken=letters, at=at()))


def begin_witness_anew(home: Path) -> None:
    """The log agreed with its witness when it was opened, and has another name since: the next opening begins one for it."""
    (home / WITNESS).unlink(missing_ok=True)
