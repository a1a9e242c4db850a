"""`find`: the job log, searched."""

import re
from collections.abc import Iterable, Mapping
from datetime import date

from domain.civil_time import civil_day
from domain.dates import date_in
from domain.forms.form_set import FormSet
from domain.gate.outcome import Outcome
from domain.log.job_log import Found, FoundJob, JobLine, Query, State
from domain.log.ready_lists import ready_lists
from domain.log.times import in_words
from domain.value import cleaned
from tui.commands.command import (
    FINE,
    JSON,
    NO,
    Command,
    CommandAnswer,
    CommandOption,
    Environment,
    TypedArgument,
    UnusableError,
)
from tui.commands.output import columns, one_line
from tui.services import where_drafts_are

LISTS = tuple(ready_lists("", date.min))


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """The lines that match; the newest when nothing is asked for; what one other letter finds when nothing matches."""
    listed, asked = typed.value("--list") or "all", _asked(typed)
    with environment.open_services() as services:
        today = services.now().date()
        query = Query.model_validate({**ready_lists(services.who, today)[listed], **asked, "on": today})
        found = services.log.search(query)
        where = where_drafts_are(services, (job.line for job in found.jobs))
    sought = query != Query(limit=query.limit, on=query.on)
    code = NO if sought and not found.jobs else FINE
    return CommandAnswer([_as_value(job, found, where) for job in found.jobs], _as_text(found, where), code)


def _as_value(job: FoundJob, found: Found, where: Mapping[str, str]) -> dict[str, object]:
    value = line_as_value(job.line)
    if out := where.get(job.line.number):
        value["out"] = out
    if found.is_whole and not found.is_as_typed:
        value["meant"] = _meant(job)
    return value | ({"lacks": list(job.lacks)} if job.lacks else {})


def _meant(job: FoundJob) -> str:
    return " ".join(in_words(each.word) for each in job.by)


def _asked(typed: TypedArgument) -> dict[str, object]:
    """What the options ask for, over and above the list."""
    asked: dict[str, object] = {
        "words": cleaned(" ".join(typed.words)),
        "number": cleaned(typed.value("--number")),
        "client": cleaned(typed.value("--client")),
        "place": " ".join(cleaned(typed.value(name)) for name in ("--place", "--postcode")).strip(),
        "engineer": cleaned(typed.value("--engineer")),
        "form_set": typed.value("--form"),
        "state": typed.value("--state"),
        "outcome": typed.value("--outcome"),
        "open_snags": True if typed.has("--snags") else None,
        "year": _year(typed.value("--year")),
        "due_before": _day(typed.value("--due")),
        "before": cleaned(typed.value("--after")),
        "limit": _limit(typed.value("--limit")),
    }
    return {name: value for name, value in asked.items() if value not in {None, ""}}


_SHOWN = ("number", "client", "premises", "form_set", "state", "outcome", "open_snags", "day", "updated", "due")


def line_as_value(line: JobLine) -> dict[str, object]:
    """A line of the log, for scripts."""
    shown: dict[str, object] = line.model_dump(mode="json", include=set(_SHOWN))
    shown |= {"laid_aside": True} if line.laid_aside else {}
    return shown if line.vouched else {**shown, "vouched": False}


def _year(given: str) -> int | None:
    if given and not re.fullmatch(r"[12][0-9]{3}", given):
        raise UnusableError(f"--year takes a year, such as 2026; not {given!r}")
    return int(given) if given else None


def _day(given: str) -> date | None:
    day = date_in(given)
    if given and day is None:
        raise UnusableError(f"--due takes a date, such as 2026-11-25; not {given!r}")
    return day


def _limit(given: str) -> int:
    if not given:
        return Query().limit
    if not given.isdecimal() or not 0 < len(given) < 7 or int(given) == 0:
        raise UnusableError(f"--limit takes a number of lines, such as 200; not {given!r}")
    return int(given)


def _as_text(found: Found, where: Mapping[str, str]) -> str:
    if not found.jobs:
        return "Nothing found"
    said = ""
    if not found.is_whole:
        said = "No job holds all of that; what holds most of it comes first\n"
    elif not found.is_as_typed:
        said = f"Nothing holds that as typed; shown is what holds: {_meant(found.jobs[0])}\n"
    rows = [
        (
            line.number,
            line.form_set.value,
            f"{line.day or civil_day(line.updated):%d/%m/%Y}",
            "; ".join(filter(None, (_state_in_words(line), where.get(line.number)))),
            f"! {line.open_snags}" if line.open_snags else "",
            "; ".join(filter(None, (one_line(line.client), one_line(line.premises)))) or "no client yet",
        )
        for job in found.jobs
        if (line := job.line)
    ]
    widths = tuple(max(len(row[column]) for row in rows) for column in range(5))
    return said + columns(rows, widths)


def _state_in_words(line: JobLine) -> str:
    """The outcome of a draft is not told: it is only what the paper would say so far."""
    if not line.vouched:
        return "✗ never issued here"
    if line.laid_aside:
        return "laid aside"
    if line.state is State.DRAFT or line.outcome is None:
        return line.state.value
    return f"{line.state}, {line.outcome}"


def _one_of(option: str, takes: str, choices: Iterable[FormSet | State | Outcome]) -> CommandOption:
    known = tuple(choice.value for choice in choices)
    return CommandOption(option, f"{', '.join(known[:-1])} or {known[-1]}", takes, known)


COMMAND = Command(
    name="find",
    run=run,
    words="[WORDS…]",
    most=None,
    options=(
        JSON,
        CommandOption("--number", "by number", "NUMBER"),
        CommandOption("--client", "by client", "WORDS"),
        CommandOption("--place", "by address", "WORDS"),
        CommandOption("--postcode", "by postcode, or how it begins", "POSTCODE"),
        CommandOption("--engineer", "by the name of somebody who tested or signed", "WORDS"),
        _one_of("--form", "FORM", FormSet),
        _one_of("--state", "STATE", State),
        _one_of("--outcome", "OUTCOME", Outcome),
        CommandOption("--snags", "only jobs with open snags"),
        CommandOption("--year", "by the year of the inspection or of the work", "YEAR"),
        CommandOption("--due", "the next inspection is due by then, soonest first", "DATE"),
        CommandOption("--list", f"{', '.join(LISTS)}", "LIST", LISTS),
        CommandOption("--after", "what follows this number in the list", "NUMBER"),
        CommandOption("--limit", f"how many lines at most; {Query().limit} when not given", "LINES"),
    ),
    explains=(
        "By words, client, place, form set, state, outcome or open snags; the newest jobs when nothing is asked for. Words match in any order, the last one by its beginning, and may say when: March, last spring, 2025. Where nothing "
        "matches, each word may have one error, and the answer says what was meant; where no job holds all, those that hold "
        "most come first, each with what it lacks.\n"
        "Filters may stand among the words as on the search line: form:EICR state:draft outcome:unsatisfactory snags:open "
        "remedial:open due:60d year:2026 engineer:NAME client:NAME place:NAME postcode:WQ7 no:NUMBER, and hand:LOGIN for who "
        'changed it, as its trail names people. Several words go in quotes: client:"Hester Quill".\n'
        "Exit 1: something was asked for and nothing is found."
    ),
)
