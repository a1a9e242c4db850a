"""`due`: what is due for the jobs of the log, soonest first."""

from datetime import date
from pathlib import Path

from domain.dates import date_in, written
from domain.log.due_list import DueLine, DueList, due_in
from tui.commands.advice import due_in_words, owed_as_value
from tui.commands.command import JSON, Command, CommandAnswer, CommandOption, Environment, TypedArgument, UnusableError
from tui.services import Services

_ON = CommandOption("--on", "the day it is looked at; today when not given", "DATE")
_UNTIL = CommandOption("--until", "only what is due by then", "DATE")
_FILES = {
    "csv": CommandOption("--csv", "write the list as a table into a new file besides", "FILE"),
    "ics": CommandOption("--ics", "write it as a calendar (iCalendar) into a new file besides", "FILE"),
}


def run(typed: TypedArgument, wiring: Environment) -> CommandAnswer:
    """Everything due, overdue first."""
    with wiring.at_desk() as desk:
        on = _day(typed, _ON) or desk.now().date()
        found = due_in(desk.log)
        until = _day(typed, _UNTIL)
        lines = tuple(line for line in found.lines if until is None or line.by <= until)
        _written(typed, lines, desk)
    return CommandAnswer([_as_value(line, on) for line in lines], _as_text(lines, found, on))


def _written(typed: TypedArgument, lines: tuple[DueLine, ...], desk: Services) -> None:
    """Write the files asked for; none that is there is written over."""
    asked = {ending: typed.value(f"--{ending}") for ending in _FILES}
    if not any(asked.values()):
        return
    for ending, content in desk.due_files(lines, desk.now()).items():
        if asked[ending]:
            try:
                desk.write_new(Path(asked[ending]), content)
            except FileExistsError:
                raise UnusableError(f"{asked[ending]} exists already and is not written over") from None


def _day(typed: TypedArgument, option: CommandOption) -> date | None:
    given = typed.value(option.name)
    day = date_in(given)
    if given and day is None:
        raise UnusableError(f"{option.name} takes a date, such as 2026-11-25; not {given!r}")
    return day


def _as_value(line: DueLine, on: date) -> dict[str, object]:
    about = {
        "number": line.number,
        "form_set": line.form_set.value,
        "client": line.client,
        "premises": line.premises,
        "contact": line.contact,
        "overdue": line.is_late(on),
        "days_left": (line.by - on).days,
    }
    return about | owed_as_value(line.owed)


def _as_text(lines: tuple[DueLine, ...], found: DueList, on: date) -> str:
    said = [text for line in lines for text in _line_as_text(line, on)] or ["Nothing is due"]
    if found.untold:
        numbers = ", ".join(each.number for each in found.untold[:10])
        more = f" and {len(found.untold) - 10} more" if len(found.untold) > 10 else ""
        said += ["", f"More may be due for {numbers}{more}: what the law asks hangs on an answer not given yet"]
    return "\n".join(said)


def _line_as_text(line: DueLine, on: date) -> tuple[str, ...]:
    duty = line.owed.duty
    left = (line.by - on).days
    late = f"✗ {_days(-left)} late" if left < 0 else "! today" if left == 0 else f"in {_days(left)}"
    who = "" if duty.who == "you" else f"{duty.who}: "
    where = "; ".join(filter(None, (line.client, line.premises)))
    return (
        f"{written(line.by)}, {late}  {line.number} {line.form_set}  {where}".rstrip(),
        f"    {who}{duty.what}",
        f"    {due_in_words(line.owed)}",
        f"    {duty.source.cited}",
    )


def _days(count: int) -> str:
    return f"{count} day{'' if count == 1 else 's'}"


COMMAND = Command(
    name="due",
    run=run,
    options=(JSON, _ON, _UNTIL, *_FILES.values()),
    explains="Each line says what is due, by which day, how it was counted and by which rule; work to the day named.",
)
