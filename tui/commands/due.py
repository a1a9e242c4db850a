"""`due`: what is due for the jobs of the log, soonest first."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

from domain.dates import date_in, written
from domain.duties.owing import Owed
from domain.log.due_days import DueAsked
from domain.log.due_list import due_in, untold_in
from domain.log.job_log import JobLog
from tui.commands.advice import due_in_words, owed_as_value
from tui.commands.command import JSON, Command, CommandOption, Environment, StreamedAnswer, TypedArgument, UnusableError
from tui.services import Services

_ON = CommandOption("--on", "the day it is looked at; today when not given", "DATE")
_FROM = CommandOption("--from", "nothing that was due before that day", "DATE")
_UNTIL = CommandOption("--until", "only what is due by then", "DATE")
_TOLD_MAX = 10
_AT_ONCE = 100
"""Lines that are told together."""
_FILES = {
    "csv": CommandOption("--csv", "write the list as a table into a new file besides", "FILE"),
    "ics": CommandOption("--ics", "write it as a calendar (iCalendar) into a new file besides", "FILE"),
}


def run(typed: TypedArgument, environment: Environment) -> StreamedAnswer:
    """Everything due, overdue first."""
    given, asked = _day(typed, _ON), DueAsked(first=_day(typed, _FROM), until=_day(typed, _UNTIL))
    with environment.open_services() as services:
        _written(typed, asked, services)

    def values() -> Iterator[object]:
        with environment.open_services() as services:
            yield from _as_values(services.log, asked, given or services.now().date())

    def lines() -> Iterator[str]:
        with environment.open_services() as services:
            yield from _in_words(services.log, asked, given or services.now().date())

    return StreamedAnswer(values, lines)


def _written(typed: TypedArgument, asked: DueAsked, services: Services) -> None:
    """Write the files asked for; none that is there is written over."""
    names = {ending: typed.value(f"--{ending}") for ending in _FILES}
    if not any(names.values()):
        return
    for ending, content in services.due_files(due_in(services.log, asked), services.now()).items():
        if names[ending]:
            try:
                services.write_new(Path(names[ending]), content)
            except FileExistsError:
                raise UnusableError(f"{names[ending]} exists already and is not written over") from None


def _day(typed: TypedArgument, option: CommandOption) -> date | None:
    given = typed.value(option.name)
    day = date_in(given)
    if given and day is None:
        raise UnusableError(f"{option.name} takes a date, such as 2026-11-25; not {given!r}")
    return day


def _as_values(log: JobLog, asked: DueAsked, on: date) -> Iterator[object]:
    by, told = None, dict[object, dict[str, object]]()
    for number, form_set, client, premises, contact, day in log.due(asked):
        if day.by != by:
            # Of one day many are due alike: they are put together once.
            by, told = day.by, {}
        key = day.duty, day.counted, day.other_reading
        about = {
            "number": number,
            "form_set": form_set.value,
            "client": client,
            "premises": premises,
            "contact": contact,
            "overdue": day.by < on,
            "days_left": (day.by - on).days,
        }
        yield about | (told.get(key) or told.setdefault(key, owed_as_value(day.owed)))


def _in_words(log: JobLog, asked: DueAsked, on: date) -> Iterator[str]:
    by, when, said, block = None, "", dict[object, str](), list[str]()
    for number, form_set, client, premises, _, day in log.due(asked):
        if day.by != by:
            by, when, said = day.by, _when(day.by, on), {}
        key = day.duty, day.counted, day.other_reading
        words = said.get(key) or said.setdefault(key, _in_full(day.owed))
        where = f"{client}; {premises}" if client and premises else client or premises
        block.append(f"{when}  {number} {form_set}  {where}".rstrip() + words)
        if len(block) >= _AT_ONCE:
            yield "\n".join(block)
            block.clear()
    if block or by is None:
        yield "\n".join(block) or "Nothing is due"
    if counted := log.count_unanswered():
        numbers = ", ".join(each.number for each in untold_in(log, limit=_TOLD_MAX))
        more = f" and {counted - _TOLD_MAX} more" if counted > _TOLD_MAX else ""
        yield f"\nMore may be due for {numbers}{more}: what the law asks hangs on an answer not given yet"


def _when(by: date, on: date) -> str:
    left = (by - on).days
    late = f"✗ {_days(-left)} late" if left < 0 else "! today" if left == 0 else f"in {_days(left)}"
    return f"{written(by)}, {late}"


def _in_full(owed: Owed) -> str:
    duty = owed.duty
    who = "" if duty.who == "you" else f"{duty.who}: "
    return "".join(f"\n    {text}" for text in (f"{who}{duty.what}", due_in_words(owed), duty.source.cited))


def _days(count: int) -> str:
    return f"{count} day{'' if count == 1 else 's'}"


COMMAND = Command(
    name="due",
    run=run,
    options=(JSON, _ON, _FROM, _UNTIL, *_FILES.values()),
    explains="Each line says what is due, by which day, how it was counted and by which rule; work to the day named.",
)
