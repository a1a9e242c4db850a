"""Jobs that are out: who may change one here, and every change kept as an operation for the office or its laptops."""

import json
from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta

from domain.civil_time import short_moment
from domain.editing.commands import COMMAND
from domain.editing.content_hash import content_hash
from domain.job.job import Job
from domain.job.job_number import prefix_of
from domain.laptops.exchange_store import ExchangeStore
from domain.laptops.holding import OFFICE, Holding, Station, StationState
from domain.laptops.making import awaited, called, is_mine, not_in_use, record
from domain.laptops.operation import Act
from domain.log.job_log import JobLogError, no_such_job
from domain.log.laptops import READ_ONLY, since_when
from domain.log.store import Store, StoredJob, TrailEntry
from domain.log_note import LogNote


def exchange_of(store: Store) -> ExchangeStore | None:
    """What is told to others; None where this log stands alone."""
    if not store.is_of_firm or (exchange := store.exchange) is None:
        return None
    return exchange if exchange.own() else None


def is_laptop(store: Store) -> bool:
    """This log is that of a laptop of an office."""
    exchange = exchange_of(store)
    station = exchange.station(exchange.own()) if exchange else None
    return station is not None and not station.is_office


def why_out(store: Store, number: str) -> str:
    """Why a job cannot be changed here, as a sentence; "" where it can."""
    if (exchange := exchange_of(store)) is None:
        return ""
    if waited := awaited(exchange):
        names = ", ".join(each.person or each.name for each in waited)
        return (
            f"The office was put back from a copy, and {names} may know more of it than it does itself: exchange with them "
            "first (ohmfolio exchange), or say that they are lost (ohmfolio laptop LETTERS --lost)"
        )
    now = exchange.holding(number)
    return "" if not number or is_mine(exchange, now) else said_of(exchange, number, now)


def said_of(exchange: ExchangeStore, number: str, now: Holding) -> str:
    """Who has a job that nobody here may change, and what to do; first what matters, for a line of a screen may end."""
    own = exchange.station(exchange.own())
    if now.goes_on_as:
        return f"{number} can only be read here: it goes on as {now.goes_on_as}"
    if now.holder == OFFICE:
        return f"{number} can only be read: the office has it; ohmfolio take-out asks for it"
    if own is not None and now.holder in own.was:
        return (
            f"{number} was out with this laptop before its log was put back from a copy: a paper may have gone out that it "
            "does not remember, so the office goes on with a copy"
        )
    return f"{number} can only be read here: it is out with {called(exchange, now.holder)}{since(now)}"


def why_not_lent(exchange: ExchangeStore, number: str, now: Holding) -> str:
    """Why a laptop cannot ask for a job, as a sentence without its full stop; "" where it can."""
    if why := not_in_use(exchange.station(exchange.own())):
        return (
            f"{why} at the office, which lends it nothing more. Bring back what it has out and exchange; then have the office "
            "make a new first file (ohmfolio laptop), and join with it in another folder"
        )
    return said_of(exchange, number, now) if now.holder != OFFICE else ""


def known_here(store: Store, number: str) -> StoredJob:
    """A job of the log; JobLogError where it is not here, with what to do where others may have it."""
    if stored := store.get(number):
        return stored
    own = exchange.station(exchange.own()) if (exchange := exchange_of(store)) else None
    if own is None or own.is_office or prefix_of(number) == own.name:
        raise no_such_job(number)
    raise JobLogError(
        f"This laptop has not heard of {number}. Exchange with the office first (ohmfolio exchange); where it is still not "
        "known after that, look at the number."
    )


def sign_of(store: Store, number: str, at: datetime) -> str:
    """Where a job is, for the line above it; "" where there is nothing to say."""
    if (exchange := exchange_of(store)) is None or not number:
        return ""
    now, is_office = exchange.holding(number), not is_laptop(store)
    if is_mine(exchange, now):
        return "" if is_office else "out with you"
    if now.holder == OFFICE:
        return f"at the office, {READ_ONLY}"
    if now.goes_on_as:
        return f"goes on as {now.goes_on_as}, {READ_ONLY}"
    return f"out with {called(exchange, now.holder)} {since_when(now.since, at)}, {READ_ONLY}"


def where_are(store: Store, numbers: Sequence[str]) -> Mapping[str, str]:
    """Who has each of several drafts, in a few words, where that is worth saying."""
    if (exchange := exchange_of(store)) is None:
        return {}
    held, is_office = exchange.holdings_of(numbers), not is_laptop(store)
    own = OFFICE if is_office else exchange.own()
    said: dict[str, str] = {}
    for number in numbers:
        now = held.get(number, Holding())
        if now.holder == own:
            said[number] = "" if is_office else "out with you"
        elif now.goes_on_as:
            said[number] = f"goes on as {now.goes_on_as}"
        else:
            said[number] = "at the office" if now.holder == OFFICE else f"out with {called(exchange, now.holder)}"
    return {number: words for number, words in said.items() if words}


def since(now: Holding) -> str:
    """Since when, as far as anybody's clock said it."""
    return f" since {short_moment(datetime.fromisoformat(now.since))}" if now.since else ""


def note_done(store: Store, before: StoredJob, job: Job, entry: TrailEntry, *, replaced: bool, put_right: bool) -> None:
    """Keep a change of a job for the others. Call it inside the transaction that made it."""
    if (exchange := exchange_of(store)) is None:
        return
    told: dict[str, object] = {"who": entry.who, "what": entry.what}
    told |= {"op": entry.op} if entry.op else {}
    if not before.version:
        act = Act.BEGIN
        told |= {"job": job.model_dump(mode="json"), "replaces": before.replaces}
    elif job.issued and not before.job.issued:
        record_kept = store.papers.record(job.number)
        assert record_kept is not None
        act = Act.ISSUE
        told |= {"job": job.model_dump(mode="json"), "pdf_sha": record_kept.pdf_sha.hex(), "pages": record_kept.pages}
    else:
        act = Act.EDIT
        told |= {"changes": entry.changes, "undoes": entry.undoes, "redoes": entry.redoes, "hash": content_hash(job)}
        told |= {"command": COMMAND.dump_python(entry.command, mode="json")} if entry.command else {}
        told |= {"replaced": True} if replaced else {}
        told |= {"put_right": True} if put_right else {}
    record(exchange, act, job.number, body=_as_json(told), at=entry.at.isoformat())


def keep_note(store: Store, topic: str, note: LogNote, *, is_rule: bool = False) -> None:
    """Keep a note, here and wherever it is heard of; one that is a rule comes from the office alone."""
    store.notes.add(topic, note)
    if exchange := exchange_of(store):
        told = {"topic": topic, "who": note.who, "text": note.text}
        record(exchange, Act.RULE if is_rule else Act.NOTE, body=_as_json(told), at=note.at.isoformat())


def too_long_alone(store: Store, at: datetime) -> str:
    """Why a laptop issues nothing: the office shut it out, or was not heard for too long; "" where it may."""
    exchange = exchange_of(store)
    own = exchange.station(exchange.own()) if exchange else None
    if exchange is None or own is None or own.is_office:
        return ""
    if own.state is StationState.SHUT:
        return "The office shut this laptop out: no paper of it counts before a person there says so"
    heard = exchange.last_heard(office_of(exchange)).at
    if heard and at - datetime.fromisoformat(heard) <= timedelta(days=own.days):
        return ""
    return (
        f"This laptop has not heard from the office for {own.days} days, and somebody may have been struck off since; "
        "exchange with it (ohmfolio exchange), then issue"
    )


def laptop_named(exchange: ExchangeStore, letters: str) -> Station:
    """The laptop that numbers with these letters, one in use before one that was put back; JobLogError where there is none."""
    named = [each for each in exchange.stations() if each.name == letters.upper() and not each.is_office]
    if not named:
        raise JobLogError(f"No laptop of this office numbers with {letters}; ohmfolio laptop lists them.")
    return min(named, key=lambda each: each.state is StationState.REBORN)


def office_of(exchange: ExchangeStore) -> str:
    """The device that is the office now; "" where none is known."""
    offices = [each for each in exchange.stations() if each.is_office and each.state is StationState.ACTIVE]
    return offices[-1].device if offices else ""


def note_rule(store: Store, told: Mapping[str, object], at: str) -> None:
    """Keep what the office changed in the registers for its laptops."""
    if (exchange := exchange_of(store)) and not is_laptop(store):
        record(exchange, Act.RULE, body=_as_json(told), at=at)


def _as_json(told: Mapping[str, object]) -> str:
    return json.dumps(told, ensure_ascii=False, separators=(",", ":"))
