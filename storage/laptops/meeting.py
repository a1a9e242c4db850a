"""Two stations of a firm meet: by a folder that both see, or over a line; each hands over all that the other lacks."""

import json
import secrets
from collections.abc import Callable, Generator, Iterable, Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import IO, Any

from domain.job.seal_key import fingerprint_of, in_groups
from domain.laptops.bundle import Exchanged, GapError
from domain.laptops.holding import Station, StationState
from domain.laptops.operation import Operation, StreamEnd
from domain.log.job_log import JobLog, JobLogError
from domain.log.laptops import Laptops
from storage.keys.ed25519 import is_signed, public_key, signature
from storage.keys.key_file import KeyFile
from storage.laptops.bundle_file import BundleHead, bundle_in, head_of, write_bundle
from storage.laptops.line import received, send
from storage.laptops.strange_bundle import examined
from storage.stamp import Stamp, stamps_folder

_ENDING = ".ohmfolio-bundle"
_OFFICE_KEYS = "keys of the office"
"""The topic under which a laptop keeps keys of the office that came after those in its first file."""


class Meeting:
    """What one station does when it meets others."""

    def __init__(
        self, home: Path, log: JobLog, stamp: Stamp, *, renamed: Callable[[], object], trust: str = ""
    ) -> None:
        """`home` has the key; `renamed` is called once the log goes on under another name.

        `trust` is the fingerprint of a new key that a person had from the other side.
        """
        if log.laptops is None or log.laptops.own is None:
            raise JobLogError(
                "This log is neither that of an office with laptops nor of a laptop: ohmfolio laptop and ohmfolio join begin that."
            )
        self._home, self._log, self._stamp, self._trust = home, log, stamp, trust
        self._renamed = renamed
        self._laptops: Laptops = log.laptops
        self.own: Station = log.laptops.own

    def in_folder(self, folder: Path, *, at: datetime) -> list[Exchanged]:
        """Take in whatever lies there for this station, and leave there what the others lack."""
        if not folder.is_dir():
            raise JobLogError(f"There is no folder {folder}.")
        met: list[Exchanged] = []
        for path in sorted(folder.glob(f"*{_ENDING}")):
            with path.open("rb") as file:
                head = head_of(file, path.name)
            if head.to in (self.own.device, *self.own.was):
                taken = self.take(path, at=at)
                # What was left under a name that somebody had before is passed over, unless it tells more.
                if taken.new or taken.put_back or not self._is_of_before(head):
                    met.append(taken)
        for peer in self._peers():
            self.write(peer, folder / f"{self.own.name}-to-{peer.name}{_ENDING}")
        return met

    def by_line(self, incoming: IO[bytes], outgoing: IO[bytes], *, at: datetime, calls: bool) -> list[Exchanged]:
        """Exchange over a line; the one who calls sends first. Cut anywhere, each side has all of a bundle or nothing."""
        office = self._laptops.office
        if calls and office is None:
            raise JobLogError("This laptop knows of no office.")
        unfinished = stamps_folder() / "unfinished"
        if calls and office is not None:
            self._send(office, incoming, outgoing)
            with received(incoming, outgoing, unfinished, at=at) as got:
                return [self.take(got, at=at)]
        with received(incoming, outgoing, unfinished, at=at) as got:
            with got.open("rb") as file:
                caller = head_of(file, got.name).sender
            met = self.take(got, at=at)
        if (peer := self._station_or_heir(caller)) is None:
            raise JobLogError("Whoever called is no laptop of this office.")
        self._send(peer, incoming, outgoing)
        return [met]

    def write(self, peer: Station, path: Path) -> None:
        """Write what a station lacks, in the place of what was there for it."""
        part = path.with_name(f".{secrets.token_hex(8)}.part")
        try:
            write_bundle(part, self._laptops.bundle_for(peer.device), peer.device, self._laptops.paper_of, self._sign)
            part.replace(path)
        except OSError as trouble:
            raise JobLogError(f"{path} cannot be written: {trouble.strerror or trouble}.") from trouble
        finally:
            part.unlink(missing_ok=True)

    def take(self, path: Path, *, at: datetime) -> Exchanged:
        """Take in a bundle that anybody may have made."""
        with _examined(path) as (head, lines):
            bundle, paper = bundle_in(lines, head.sender)
            sender = self._known(head, path)
            own_only = bundle._replace(operations=self._theirs(bundle.operations, head, path))
            try:
                taken = self._laptops.take_in(own_only, paper, at=at)
            except GapError:
                return Exchanged(sender, is_gap=True)
        if taken.put_back:
            self._go_on(bundle.ends.get(self.own.device, StreamEnd()).counter, at)
            return Exchanged(sender, put_back=True)
        self._note_key(head, at)
        return Exchanged(sender, taken.new, taken.repeated, taken.jobs, taken.aside)

    def _known(self, head: BundleHead, path: Path) -> str:
        """What people call the sender; JobLogError where the bundle is not theirs to send."""
        if not is_signed(head.key, head.signed_text, head.signature) or head.sender == self.own.device:
            raise JobLogError(f"{path.name} is not signed by whoever it says it is from. Nothing was taken in.")
        stations = self._laptops.stations()
        station = next((each for each in stations if each.device == head.sender), None)
        if self.own.is_office:
            known = {each.key for each in stations if each.key}
            is_first = station is not None and not station.key
            name = station.person or station.name if station else "a laptop put back from a copy"
            trusted = is_first or head.key in known
        else:
            trusted = head.key in {
                *(each.key for each in self._log.seal_keys()),
                *(each.text for each in self._log.notes(_OFFICE_KEYS)),
            }
            name = "the office"
        if not trusted and fingerprint_of(head.key) != self._trust:
            raise JobLogError(
                f"{path.name} is signed with a key that is not known here, {in_groups(fingerprint_of(head.key))}. Nothing was "
                "taken in. Where the other side read that to you, give it with --trust."
            )
        return name

    def _theirs(self, operations: Iterable[Operation], head: BundleHead, path: Path) -> Iterator[Operation]:
        """What a laptop did itself; the rest of what it knows only for an office that was put back from a copy."""
        stations = {each.device: each for each in self._laptops.stations()}
        for operation in operations:
            station = stations.get(operation.device)
            is_own = operation.device == head.sender or station is None or station.key == head.key
            if self.own.is_office and not self.own.was and not is_own:
                raise JobLogError(f"{path.name} says that somebody else did something. Nothing was taken in.")
            yield operation

    def _note_key(self, head: BundleHead, at: datetime) -> None:
        if self.own.is_office:
            self._laptops.note_key(head.sender, head.key, at=at)
        elif fingerprint_of(head.key) == self._trust:
            self._log.add_note(_OFFICE_KEYS, head.key, who=self.own.person or self.own.name, at=at)

    def _go_on(self, known: int, at: datetime) -> None:
        """Go on under another name: what lies outside the log was put back with it, and only the other side noticed."""
        letters = f"{self._stamp.read()[1]} {self.own.name}"
        self._laptops.goes_on_as(secrets.token_hex(8), {self.own.device: known}, taken=letters, at=at)
        self._renamed()

    def _is_of_before(self, head: BundleHead) -> bool:
        """It is to or from somebody under a name they have no more."""
        named = {each.device: each for each in self._laptops.stations()}
        sender = named.get(head.sender)
        return head.to != self.own.device or (sender is not None and sender.state is StationState.REBORN)

    def _peers(self) -> tuple[Station, ...]:
        if not self.own.is_office:
            return (office,) if (office := self._laptops.office) else ()
        return tuple(
            each for each in self._laptops.stations() if not each.is_office and each.state is not StationState.REBORN
        )

    def _station_or_heir(self, device: str) -> Station | None:
        return next((each for each in self._laptops.stations() if each.device == device), None)

    def _send(self, peer: Station, incoming: IO[bytes], outgoing: IO[bytes]) -> None:
        with TemporaryDirectory() as folder:
            path = Path(folder, "sent")
            self.write(peer, path)
            send(path, incoming, outgoing)

    def _sign(self, text: bytes) -> tuple[str, str]:
        secret = KeyFile(self._home).secret()
        if not secret:
            raise JobLogError(
                "The key that this log seals with is not here, so nothing can be sent; see ohmfolio keys."
            )
        return public_key(secret), signature(secret, text)


@contextmanager
def _examined(path: Path) -> Generator[tuple[BundleHead, Iterator[list[Any]]]]:
    with TemporaryDirectory() as folder:
        part = Path(folder, "lines")
        head = examined(path.absolute(), part)
        with part.open("rb") as lines:
            yield head, (json.loads(line) for line in lines)
