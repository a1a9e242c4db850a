"""What is measured of a log of one size: edits, lists, words, opening."""

import random
from collections.abc import Callable
from datetime import UTC, date, datetime
from pathlib import Path

from domain.editing.commands import Enter
from domain.forms.form_set import FormSet
from domain.gate.outcome import Outcome
from domain.log.job_log import Query, State
from domain.place import Place
from storage.sqlite_job_log import SqliteJobLog
from tests.ladder.many_jobs import PEOPLE, word
from tests.ladder.stopwatch import Times, timed

GOES = 200
EDITS = 2_000
DRAFTS = 50
LISTS = {
    "newest": Query(),
    "mine": Query(hand=PEOPLE[0]),
    "snagged": Query(open_snags=True),
    "ready to issue": Query(state=State.READY),
    "due": Query(due_before=date(2031, 6, 1)),
    "to put right": Query(to_put_right=True),
    "of a form set": Query(form_set=FormSet.EICR),
    "unsatisfactory": Query(outcome=Outcome.UNSATISFACTORY),
}


def measured(home: Path, count: int) -> dict[str, Times]:
    """Every measure of a log that `many_jobs` made, by its name."""
    opened = timed([lambda: SqliteJobLog.open(home).close()] * 20)
    log = SqliteJobLog.open(home)
    chance = random.Random(count)
    taken = {"program opens the log": opened}
    taken |= {f"list: {name}": timed([_find(log, query)] * GOES) for name, query in LISTS.items()}
    taken |= {"list: next page, anywhere": timed(_pages(log, count, chance))}
    taken |= {f"words: {name}": timed(goes) for name, goes in _searches(log, chance).items()}
    taken |= {"open a job": timed([_load(log, chance.randint(1, count)) for _ in range(GOES)])}
    taken |= {"edit saved": timed(_edits(log, count, chance))}
    log.close()
    return taken


def _find(log: SqliteJobLog, query: Query) -> Callable[[], object]:
    return lambda: log.find(query)


def _search(log: SqliteJobLog, query: Query) -> Callable[[], object]:
    return lambda: log.search(query)


def _load(log: SqliteJobLog, at: int) -> Callable[[], object]:
    return lambda: log.load(f"A-{at:04d}")


def _pages(log: SqliteJobLog, count: int, chance: random.Random) -> list[Callable[[], object]]:
    return [_find(log, Query(before=f"A-{chance.randint(50, count):04d}")) for _ in range(GOES)]


def _searches(log: SqliteJobLog, chance: random.Random) -> dict[str, list[Callable[[], object]]]:
    def many(make: Callable[[], str]) -> list[Callable[[], object]]:
        return [_find(log, Query(words=make())) for _ in range(GOES)]

    def misspelt() -> Query:
        typed = word(chance)
        at = chance.randrange(1, len(typed))
        return f"{typed[:at]}{chance.choice('bcdfgklmnprst')}{typed[at + 1 :]}"

    def half(make: Callable[[], str]) -> list[Callable[[], object]]:
        return [_search(log, Query(words=make(), on=date(2026, 3, 2))) for _ in range(GOES)]

    return {
        "two rare, the last begun": many(lambda: f"{word(chance)} {word(chance)[:4]}"),
        "four, some common": many(lambda: f"lane kitchen {word(chance)} harebell"),
        "one common": many(lambda: "kitchen"),
        "common and a filter": many(lambda: f"kitchen form:EICR year:{chance.choice((2026, 2025))}"),
        "engineer and snags": many(lambda: "engineer:tamsin snags:open"),
        "no hit": many(lambda: f"lane kitchen zz{word(chance)}zz"),
        "postcode begun": many(lambda: f"postcode:{chance.choice('BCDEGHKLMNPRSTW')}Q{chance.randint(1, 29)}"),
        "as typed, with what matched": half(lambda: f"{word(chance)} kitchen"),
        "one letter wrong": half(misspelt),
        "a wrong word among four": half(lambda: f"{word(chance)}'s {word(chance)} lane zz{word(chance)}"),
        "a wrong letter, a season and a town": half(lambda: f"the {misspelt()} kitchen near bramford last spring"),
        "half a postcode and a month": half(
            lambda: f"{chance.choice('BCDEG')}Q{chance.randint(1, 29)} march {misspelt()}"
        ),
        "six, all common but two": half(lambda: f"kitchen lane lights sockets {misspelt()} {word(chance)} spring"),
        "common ones and what nobody holds": half(lambda: "kitchen lane lights harebell zzzzq winter"),
    }


def _edits(log: SqliteJobLog, count: int, chance: random.Random) -> list[Callable[[], object]]:
    numbers = [f"A-{count - at:04d}" for at in range(min(DRAFTS, count // 5))]
    at = datetime.now(UTC)

    def edit(turn: int) -> Callable[[], object]:
        typed = f"{word(chance)} {turn}"
        command = Enter(place=Place(section="premises", box="address"), text=typed)
        return lambda: log.edit(numbers[turn % len(numbers)], command, who=PEOPLE[turn % 4], at=at)

    return [edit(turn) for turn in range(EDITS)]
