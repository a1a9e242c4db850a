"""An office and its laptops, as a log has them: enrolled and joined, jobs taken out and brought back, bundles, what to settle."""

from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, datetime

from domain.editing.commands import Declined, LayAside
from domain.job.job_number import is_prefix
from domain.laptops.bundle import Bundle, TakenIn
from domain.laptops.exchange_store import ExchangeStore, LastHeard
from domain.laptops.holding import Station, StationState
from domain.laptops.making import (
    DAYS_ALONE,
    allow_days,
    ask_for,
    awaited,
    begin_office,
    declare,
    enrol,
    give_back,
    go_on_as,
    grant,
    is_mine,
    name_refused,
)
from domain.laptops.matter import Matter, MatterKind
from domain.laptops.operation import Act, Operation, StreamEnd
from domain.laptops.receiving import bundle_for, take_in, tell_twins_since
from domain.laptops.settling import aside_of, choices, set_aside, settle
from domain.log.job_log import JobLogError
from domain.log.laptops import Unheard
from domain.log.seal_keys import FIRM_KEYS
from domain.log.store import Store
from domain.log.use_cases.drafting import create, edit
from domain.log.use_cases.heard_jobs import HeardJobs
from domain.log.use_cases.into_copy import put_into_copy
from domain.log.use_cases.numbering import letters_after
from domain.log.use_cases.out_with import (
    exchange_of,
    is_laptop,
    keep_note,
    known_here,
    laptop_named,
    office_of,
    sign_of,
    where_are,
    why_not_lent,
    why_out,
)
from domain.log.use_cases.papers_aside import paper_issued_by
from domain.log_note import LogNote


class StoredLaptops:
    """Fulfils `domain.log.laptops.Laptops` over a store."""

    def __init__(self, store: Store, exchange: ExchangeStore) -> None:
        self._store, self._exchange = store, exchange

    @property
    def own(self) -> Station | None:
        """This device; None while the log stands alone."""
        return self._exchange.station(self._exchange.own()) if exchange_of(self._store) else None

    @property
    def office(self) -> Station | None:
        """The office of the firm, as far as this device knows."""
        return self._exchange.station(office_of(self._exchange))

    def note_key(self, device: str, key: str, *, at: datetime) -> None:
        """Keep the key that a laptop seals with, once it is known; from then on every log of the firm knows it."""
        with self._store.transaction():
            station = self._exchange.station(device)
            if station and station.key != key:
                self._exchange.put_station(station._replace(key=key))
                note = LogNote(at=at, who=station.person or station.name, text=key)
                keep_note(self._store, FIRM_KEYS, note, is_rule=True)

    def stations(self) -> tuple[Station, ...]:
        """Every device of the firm."""
        return self._exchange.stations()

    def heard_at(self, device: str) -> str:
        """When a device was heard of last, in ISO 8601; "" where never."""
        return self._exchange.last_heard(device).at

    def named(self, letters: str) -> Station:
        """The laptop that numbers with these letters; JobLogError where there is none."""
        return laptop_named(self._exchange, letters)

    def enrol(self, letters: str, *, device: str, person: str = "", days: int = DAYS_ALONE, at: datetime) -> None:
        """Have a laptop whose numbers begin with these letters; the first one makes this log that of an office."""
        if not is_prefix(letters):
            raise JobLogError(f"Numbers begin with one to four letters from A to Z; not {letters!r}.")
        if is_laptop(self._store):
            raise JobLogError("This is the log of a laptop; the office has the others.")
        with self._store.transaction():
            self._exchange.take_turn()
            if not self._exchange.own():
                now = self._store.numbering()
                begin_office(self._exchange, now.device, now.prefix)
            if why := name_refused(self._exchange, letters):
                raise JobLogError(f"A laptop cannot number with {letters}: {why}.")
            if letters == self._store.numbering().prefix:
                raise JobLogError(f"The office numbers with {letters} itself.")
            enrol(self._exchange, device, letters, person=person, days=days, at=at.isoformat())

    def allow_days(self, letters: str, days: int, *, at: datetime) -> None:
        """Have a laptop issue for so many days without having heard from the office; it does once it has heard of that."""
        self._must_be_office()
        with self._store.transaction():
            allow_days(self._exchange, self.named(letters), days, at=at.isoformat())

    def join(self, *, at: datetime) -> Station:
        """In a log that begins as a copy made for a laptop: be that laptop."""
        with self._store.transaction():
            stations = self._exchange.stations()
            if not stations or stations[-1].is_office or stations[-1].state is not StationState.ACTIVE:
                raise JobLogError(
                    "That file is a copy of a log, and was not made for a laptop: ohmfolio laptop makes one."
                )
            station, office = stations[-1], office_of(self._exchange)
            self._exchange.become(station.device, station.name)
            self._exchange.note_heard(office, LastHeard(dict(self._exchange.ends()), (), at.isoformat()))
        return station

    def goes_on_as(self, device: str, stamped: Mapping[str, int], *, taken: str, at: datetime) -> str:
        """Where the log was put back from a copy, as `stamped` from outside the log tells, the letters it goes on with; else "".

        `device` is the name it would take; `taken` are letters used before, which it does not take again.
        """
        if not self._is_behind(stamped):
            return ""
        exchange = self._exchange
        with self._store.transaction():
            if not self._is_behind(stamped):
                # Somebody else has seen to it meanwhile.
                return ""
            here, stations = self._store.numbering().device, exchange.stations()
            last = next(reversed([each for each in stamped if exchange.station(each)]), "")
            before = exchange.station(here) or exchange.station(last) or stations[0]
            name = letters_after(before.name, taken.split(), {each.name for each in stations})
            if exchange.station(here) is None:
                exchange.become(before.device, before.name)
            go_on_as(exchange, device, name, stamped=stamped, at=at.isoformat())
        return name

    def _is_behind(self, stamped: Mapping[str, int]) -> bool:
        """This log of a firm holds less than it once did, or is not known by the name it has."""
        exchange, here = self._exchange, self._store.numbering().device
        if not exchange.stations():
            return False
        ends, first = exchange.ends(), exchange.operation(here, 1)
        # What was told already when it took the name it has now.
        told: Mapping[str, int] = first.told["to"] if first and first.act is Act.REBORN else {}
        come = {each: max(ends.get(each, StreamEnd()).counter, told.get(each, 0)) for each in stamped}
        return exchange.station(here) is None or any(come[each] < counter for each, counter in stamped.items())

    def declare(self, act: Act, letters: str, *, at: datetime) -> None:
        """Have a laptop count as lost, or shut it out."""
        self._must_be_office()
        with self._store.transaction():
            declare(self._exchange, act, self.named(letters).device, at=at.isoformat())

    def take_out(self, number: str, *, to: str = "", at: datetime) -> str:
        """Lend a job to a laptop, or ask the office for it; what became of that, in a sentence."""
        with self._store.transaction(number):
            known_here(self._store, number)
            now = self._exchange.holding(number)
            if is_laptop(self._store):
                if is_mine(self._exchange, now):
                    return f"{number} is out with you already."
                if why := why_not_lent(self._exchange, number, now):
                    raise JobLogError(f"{why}.")
                ask_for(self._exchange, number, at=at.isoformat())
                return f"{number} is asked for; it comes with what the office sends next, unless somebody else has it."
            self._must_be_office()
            if not to:
                raise JobLogError(f"Say which laptop takes it: ohmfolio take-out {number} --to LETTERS.")
            station = self.named(to)
            if why := grant(self._exchange, number, station.device, at=at.isoformat()):
                raise JobLogError(f"{number} cannot be taken out: {why}.")
            return f"{number} is out with {station.person or station.name}, and can only be read here from now on."

    def out(self, device: str = "") -> tuple[str, ...]:
        """The jobs a laptop holds; this one, where none is named."""
        return self._exchange.held_by(device or self._exchange.own())

    def bring_back(self, number: str, *, at: datetime) -> None:
        """Give a job back to the office; from now on it can only be read here."""
        with self._store.transaction(number):
            known_here(self._store, number)
            now = self._exchange.holding(number)
            if not is_laptop(self._store) or now.holder != self._exchange.own():
                raise JobLogError(f"{number} is not out with this log; nothing was brought back.")
            give_back(self._exchange, number, at=at.isoformat())

    def bundle_for(self, device: str, heard: LastHeard | None = None) -> Bundle:
        """What another device lacks, as far as it said; its operations are read as they are asked for."""
        said = heard or self._exchange.last_heard(device)
        return bundle_for(self._exchange, said.ends, HeardJobs(self._store, _no_paper, _NEVER), said.contested)

    def take_in(self, bundle: Bundle, paper: Callable[[str], bytes], *, at: datetime) -> TakenIn:
        """Take in what another device sent: whole or not at all. GapError where a bundle before it is missing.

        What it says of how far it has come is kept even then, so that the next bundle to it fits.
        """
        heard = LastHeard(dict(bundle.ends), bundle.contested, at.isoformat())
        with self._store.transaction():
            if self._exchange.station(bundle.sender):
                before, jobs = self._exchange.last_heard(bundle.sender), HeardJobs(self._store, paper, at)
                tell_twins_since(self._exchange, jobs, bundle.sender, before.ends)
                self._exchange.note_heard(bundle.sender, heard._replace(at=self.heard_at(bundle.sender)))
        with self._store.transaction():
            taken = take_in(self._exchange, bundle, HeardJobs(self._store, paper, at), at=at.isoformat())
            if not taken.put_back:
                self._exchange.note_heard(bundle.sender, heard)
            return taken

    def paper_of(self, issue: Operation) -> bytes:
        """The paper of an issue, whether it counts here or not; b"" where it is not here."""
        return paper_issued_by(self._store, issue)

    def sign(self, number: str, *, at: datetime) -> str:
        """Where a job is, for the line above it; "" where there is nothing to say."""
        return sign_of(self._store, number, at)

    def where(self, numbers: Sequence[str]) -> Mapping[str, str]:
        """Who has each of several drafts, in a few words, where that is worth saying."""
        return where_are(self._store, numbers)

    def why_not_here(self, number: str) -> str:
        """Why a job cannot be changed here, as a sentence; "" where it can."""
        return why_out(self._store, number)

    def unheard(self) -> Unheard:
        """What was done on this laptop and is not at the office."""
        if not is_laptop(self._store):
            return Unheard(0, "")
        own, heard = self._exchange.own(), self._exchange.last_heard(office_of(self._exchange))
        ends = dict(self._exchange.ends()) | {own: heard.ends.get(own, StreamEnd())}
        return Unheard(sum(each.act.is_of_a_job for each in self._exchange.following(ends)), heard.at)

    def awaited(self) -> tuple[Station, ...]:
        """Whom an office that was put back from a copy has to hear before anything is changed."""
        return awaited(self._exchange)

    def matters(self) -> tuple[Matter, ...]:
        """What has to be settled."""
        return self._exchange.matters()

    def choices(self, matter: Matter) -> tuple[str, str]:
        """The two choices of a matter, in words."""
        return choices(self._exchange, matter, self._is_paper)

    def what_was_done(self, matter: Matter) -> tuple[str, ...]:
        """What was set aside of a job, in the words of its trail."""
        return set_aside(self._exchange, matter)

    def copy_of(self, number: str) -> str:
        """The job that goes on in the place of one that a lost laptop has out."""
        return self._exchange.holding(number).goes_on_as

    def settle(self, matter: Matter, choice: int, *, who: str, at: datetime) -> str:
        """Do what a person chose, 1 or 2; why not, where it cannot be done."""
        self._must_be_office()
        store, copy = self._store, ""
        if choice == 1 and matter.kind is MatterKind.STRANDED:
            # Made before the rest and under a name, so that it is made once whatever happens.
            op = f"copy of {matter.job} from {matter.device}"
            copy = create(store, (known_here(store, matter.job).job,), who=who, at=at, op=op)[0].number
        if choice == 1 and matter.kind is MatterKind.ASIDE and (goes_on := self.copy_of(matter.job)):
            return put_into_copy(store, matter, goes_on, at=at)
        if choice == 1 and (why_not := self._laid_aside(matter, who, at)):
            return why_not
        with store.transaction():
            jobs = HeardJobs(store, _no_paper, at)
            return settle(self._exchange, jobs, matter, choice, at=at.isoformat(), copy=copy)

    def _laid_aside(self, matter: Matter, who: str, at: datetime) -> str:
        """Lay the draft aside that another goes on for; why not, where it cannot be. A paper stays."""
        number = aside_of(self._exchange, matter, self._is_paper)
        stored = self._store.get(number) if number else None
        if stored is None or stored.job.laid_aside:
            return ""
        done = edit(self._store, None, number, LayAside(), phrase="", who=who, at=at, op="")
        return f"{done.says}; settle this once it is back, or let both stand" if isinstance(done, Declined) else ""

    def _is_paper(self, number: str) -> bool:
        return (line := self._store.line(number)) is not None and line.is_issued

    def _must_be_office(self) -> None:
        if (own := self.own) is None or not own.is_office:
            raise JobLogError("This log is not that of an office with laptops; ohmfolio laptop LETTERS makes it one.")


_NEVER = datetime.min.replace(tzinfo=UTC)


def _no_paper(_: str) -> bytes:
    return b""
