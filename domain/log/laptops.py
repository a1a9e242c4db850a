"""The office and its laptops, as what the rest of the program may ask of a log that is one of them or may become one."""

from collections.abc import Callable, Mapping, Sequence
from datetime import datetime
from typing import NamedTuple, Protocol

from domain.civil_time import in_civil_time
from domain.laptops.bundle import Bundle, TakenIn
from domain.laptops.exchange_store import LastHeard
from domain.laptops.holding import Station
from domain.laptops.making import DAYS_ALONE, not_in_use
from domain.laptops.matter import Matter
from domain.laptops.operation import Act, Operation

_WEEK = 7


class Unheard(NamedTuple):
    """What the office has not heard of yet."""

    edits: int
    since: str
    """When it was heard of last, in ISO 8601; "" where never."""


READ_ONLY = "read only"
"""Ends the sign of a job that nobody may change here."""


def since_when(moment: str, now: datetime) -> str:
    """Such as "since 09:12", "since Tuesday" or "since 02/03/2026"; "" where no clock said it."""
    return f"since {_when(moment, now)}" if moment else ""


def heard_when(moment: str, now: datetime) -> str:
    """Such as "at 09:12", "on Tuesday", "on 02/03/2026" or "never"."""
    if not moment:
        return "never"
    when = _when(moment, now)
    return f"at {when}" if ":" in when else f"on {when}"


def _when(moment: str, now: datetime) -> str:
    then = in_civil_time(datetime.fromisoformat(moment))
    days = (in_civil_time(now).date() - then.date()).days
    return f"{then:%H:%M}" if days <= 0 else f"{then:%A}" if days < _WEEK else f"{then:%d/%m/%Y}"


def unheard_in_words(unheard: Unheard, now: datetime) -> str:
    """Such as "14 edits not at the office since Tuesday"; "" where all is there."""
    if not unheard.edits:
        return ""
    edits = f"{unheard.edits} edit{'' if unheard.edits == 1 else 's'} not at the office"
    return f"{edits} {since_when(unheard.since, now)}".strip()


def quiet_sign(firm: "Laptops", now: datetime) -> str:
    """What every screen says quietly of the firm: what the office has not heard, or what waits there for a person."""
    own = firm.own
    if own is None or not own.is_office:
        gone = f"{why} at the office" if own and (why := not_in_use(own)) else ""
        return "; ".join(filter(None, (gone, unheard_in_words(firm.unheard(), now))))
    waited, matters = ", ".join(each.person or each.name for each in firm.awaited()), len(firm.matters())
    signs = (f"waits to hear from {waited}" if waited else "", f"{matters} to settle" if matters else "")
    return "; ".join(filter(None, signs))


class Laptops(Protocol):
    """What may be asked of the firm that a log belongs to. Raises JobLogError."""

    @property
    def own(self) -> Station | None:
        """This device; None while the log stands alone."""
        ...

    @property
    def office(self) -> Station | None:
        """The office of the firm, as far as this device knows."""
        ...

    def note_key(self, device: str, key: str, *, at: datetime) -> None:
        """Keep the key that a laptop seals with, once it is known; from then on every log of the firm knows it."""
        ...

    def stations(self) -> tuple[Station, ...]:
        """Every device of the firm."""
        ...

    def heard_at(self, device: str) -> str:
        """When a device was heard of last, in ISO 8601; "" where never."""
        ...

    def named(self, letters: str) -> Station:
        """The laptop in use that numbers with these letters; JobLogError where there is none."""
        ...

    def enrol(self, letters: str, *, device: str, person: str = "", days: int = DAYS_ALONE, at: datetime) -> None:
        """Have a laptop whose numbers begin with these letters; the first one makes this log that of an office."""
        ...

    def allow_days(self, letters: str, days: int, *, at: datetime) -> None:
        """Have a laptop issue for so many days without having heard from the office."""
        ...

    def join(self, *, at: datetime) -> Station:
        """In a log that begins as a copy made for a laptop: be that laptop."""
        ...

    def goes_on_as(self, device: str, stamped: Mapping[str, int], *, taken: str, at: datetime) -> str:
        """Where the log was put back from a copy, as `stamped` from outside the log tells, the letters it goes on with; else "".

        `device` is the name it would take; `taken` are letters used before, which it does not take again.
        """
        ...

    def declare(self, act: Act, letters: str, *, at: datetime) -> None:
        """Have a laptop count as lost, or shut it out."""
        ...

    def take_out(self, number: str, *, to: str = "", at: datetime) -> str:
        """Lend a job to a laptop, or ask the office for it; what became of that, in a sentence."""
        ...

    def out(self, device: str = "") -> tuple[str, ...]:
        """The jobs a laptop holds; this one, where none is named."""
        ...

    def bring_back(self, number: str, *, at: datetime) -> None:
        """Give a job back to the office; from now on it can only be read here."""
        ...

    def bundle_for(self, device: str, heard: LastHeard | None = None) -> Bundle:
        """What another device lacks, as far as it said; its operations are read as they are asked for."""
        ...

    def take_in(self, bundle: Bundle, paper: Callable[[str], bytes], *, at: datetime) -> TakenIn:
        """Take in what another device sent: whole or not at all. GapError where a bundle before it is missing.

        `paper` is the paper that came with an issue, b"" where none did.
        What it says of how far it has come is kept even then, so that the next bundle to it fits.
        """
        ...

    def paper_of(self, issue: Operation) -> bytes:
        """The paper of an issue, whether it counts here or not; b"" where it is not here."""
        ...

    def sign(self, number: str, *, at: datetime) -> str:
        """Where a job is, for the line above it; "" where there is nothing to say."""
        ...

    def where(self, numbers: Sequence[str]) -> Mapping[str, str]:
        """Who has each of several drafts, in a few words, where that is worth saying."""
        ...

    def why_not_here(self, number: str) -> str:
        """Why a job cannot be changed here, as a sentence; "" where it can."""
        ...

    def unheard(self) -> Unheard:
        """What was done on this laptop and is not at the office."""
        ...

    def awaited(self) -> tuple[Station, ...]:
        """Whom an office that was put back from a copy has to hear before anything is changed."""
        ...

    def matters(self) -> tuple[Matter, ...]:
        """What has to be settled."""
        ...

    def choices(self, matter: Matter) -> tuple[str, str]:
        """The two choices of a matter, in words."""
        ...

    def what_was_done(self, matter: Matter) -> tuple[str, ...]:
        """What was set aside of a job, in the words of its trail; () for any other matter."""
        ...

    def copy_of(self, number: str) -> str:
        """The job that goes on in the place of one that a lost laptop has out; "" where none does."""
        ...

    def settle(self, matter: Matter, choice: int, *, who: str, at: datetime) -> str:
        """Do what a person chose, 1 or 2; why not, where it cannot be done."""
        ...
