"""The days that the duties of a job are due, as a log writes them with every edit and finds them by."""

from collections.abc import Mapping
from datetime import date
from functools import cache, lru_cache
from hashlib import sha256
from importlib.resources import files
from typing import NamedTuple

from domain.duties.clock import DueBy
from domain.duties.duty import Duty, DutyKind, duties
from domain.duties.duty_facts import DutyFacts
from domain.duties.next_inspection import RECOMMENDED, recommended_by
from domain.duties.noted import DutyDone, DutyNotes
from domain.duties.of_job import NAMED, owing_by
from domain.duties.owing import Owed
from domain.source import Source, Trust


class DutyDay(NamedTuple):
    """One thing due on a day, or done that was due on it."""

    duty: str
    """Which, as `called` names it."""
    by: date
    counted: str
    other_reading: date | None = None
    kept: bool = False
    """Nothing is to be done by the day; a paper is kept until then."""
    done: DutyDone | None = None

    @property
    def owed(self) -> Owed:
        """The same with the words of its duty."""
        return _owed(self.duty, self.by, self.counted, self.other_reading)


class JobDuties(NamedTuple):
    """All that is due for one job, and what was noted as done."""

    days: tuple[DutyDay, ...] = ()
    asks: str = ""
    """The question that a day more hangs on; "" where there is none."""
    contact: str = ""
    """How the office reaches the client about them."""


def duties_of(
    told: DutyFacts,
    notes: DutyNotes | None = None,
    done: Mapping[tuple[str, date], DutyDone] | None = None,
    *,
    put_right: bool = False,
) -> JobDuties:
    """What is due for a job that was not replaced, from what its duties hang on and what was noted of them."""
    found = owing_by(told, notes, put_right=put_right)
    days = [_day(owed) for owed in found.clocks]
    if done:
        # What was done is due no more, so its day is told from the job as if nothing had been.
        all_told = owing_by(told, DutyNotes(answers=notes.answers) if notes else None)
        days += [
            _day(owed)._replace(done=mark)
            for owed in all_told.clocks
            if owed.due and (mark := done.get((owed.duty.id, owed.due.by)))
        ]
    asks = found.ask_for_days.id if found.ask_for_days else ""
    return JobDuties(days=tuple(days), asks=asks, contact=told.contact)


def called(duty: Duty) -> str:
    """What one row of all tables is called by."""
    return f"{duty.id}|{duty.made_of}" if duty.made_of else duty.id


@cache
def duty_called(key: str) -> Duty:
    """The row that is called so; where no table has it any more, one that says so."""
    name, _, made_of = key.partition("|")
    found = recommended_by(made_of) if name == RECOMMENDED else _by_name().get(name)
    return found or NAMED.model_copy(
        update={
            "id": name,
            "what": f"{name}: the rules of this program no longer have it.",
            "source": Source(standard="An earlier version of this program", trust=Trust.COMMON_PRACTICE),
        }
    )


@cache
def rules_version() -> str:
    """Another text once the rules that days are counted by read otherwise."""
    room = files("domain.duties")
    texts = sorted(each.name for each in room.iterdir() if each.name.endswith(".toml"))
    read = [room.joinpath(name).read_bytes() for name in texts]
    return sha256(b"\0".join(read)).hexdigest()


@cache
def _by_name() -> dict[str, Duty]:
    return {duty.id: duty for duty in (*duties(), NAMED)}


@lru_cache(maxsize=4096)
def _owed(duty: str, by: date, counted: str, other_reading: date | None) -> Owed:
    return Owed(duty=duty_called(duty), due=DueBy(by=by, other_reading=other_reading, counted=counted))


def _day(owed: Owed) -> DutyDay:
    assert owed.due
    return DutyDay(
        called(owed.duty), owed.due.by, owed.due.counted, owed.due.other_reading, owed.duty.kind is DutyKind.KEEP
    )
