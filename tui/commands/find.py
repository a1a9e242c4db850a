"""`find`: the job log, searched."""

from enum import StrEnum
from typing import TypeVar

from domain.form_set import FormSet
from domain.gate import Outcome
from domain.job_log import JobLine, Query, State
from domain.value import cleaned
from tui.commands.command import FINE, JSON, NO, Answer, Command, Option, Typed, UnusableError, Wiring
from tui.commands.plain import columns, one_line

_Choice = TypeVar("_Choice", bound=StrEnum)


def run(typed: Typed, wiring: Wiring) -> Answer:
    """The lines that match; the newest when nothing is asked for."""
    query = Query(
        words=cleaned(" ".join(typed.words)),
        number=cleaned(typed.value("--number")),
        client=cleaned(typed.value("--client")),
        place=cleaned(typed.value("--place")),
        form_set=_one_of(FormSet, typed, "--form"),
        state=_one_of(State, typed, "--state"),
        outcome=_one_of(Outcome, typed, "--outcome"),
        open_snags=True if typed.has("--snags") else None,
        limit=_limit(typed.value("--limit")),
    )
    with wiring.at_desk() as desk:
        lines = desk.log.find(query)
    sought = query != Query(limit=query.limit)
    code = NO if sought and not lines else FINE
    return Answer([line_as_value(line) for line in lines], _as_text(lines), code)


_SHOWN = ("number", "client", "premises", "form_set", "state", "outcome", "open_snags", "updated")


def line_as_value(line: JobLine) -> dict[str, object]:
    """A line of the log, for scripts."""
    return line.model_dump(mode="json", include=set(_SHOWN))


def _one_of(choices: type[_Choice], typed: Typed, option: str) -> _Choice | None:
    given = typed.value(option)
    if not given:
        return None
    for choice in choices:
        if choice.value.casefold() == given.casefold():
            return choice
    raise UnusableError(f"{option} takes {', '.join(choice.value for choice in choices)}; not {given!r}")


def _limit(given: str) -> int:
    if not given:
        return Query().limit
    if not given.isdecimal() or not 0 < len(given) < 7 or int(given) == 0:
        raise UnusableError(f"--limit takes a number of lines, such as 200; not {given!r}")
    return int(given)


def _as_text(lines: tuple[JobLine, ...]) -> str:
    if not lines:
        return "Nothing found"
    rows = [
        (
            line.number,
            line.form_set.value,
            _standing(line),
            f"! {line.open_snags}" if line.open_snags else "",
            "; ".join(filter(None, (one_line(line.client), one_line(line.premises)))) or "no client yet",
        )
        for line in lines
    ]
    widths = tuple(max(len(row[column]) for row in rows) for column in range(4))
    return columns(rows, widths)


def _standing(line: JobLine) -> str:
    """The outcome of a draft is not told: it is only what the paper would say so far."""
    if line.state is State.DRAFT or line.outcome is None:
        return line.state.value
    return f"{line.state}, {line.outcome}"


COMMAND = Command(
    name="find",
    summary="jobs of the log by words, client, place, form set, state, outcome or open snags",
    run=run,
    words="[WORDS…]",
    most=None,
    options=(
        JSON,
        Option("--number", "by number", "NUMBER"),
        Option("--client", "by client", "WORDS"),
        Option("--place", "by address", "WORDS"),
        Option("--form", "EIC, MEIWC or EICR", "FORM"),
        Option("--state", "draft, ready, issued or replaced", "STATE"),
        Option("--outcome", "complies, satisfactory or unsatisfactory", "OUTCOME"),
        Option("--snags", "only jobs with open snags"),
        Option("--limit", f"how many lines at most; {Query().limit} when not given", "LINES"),
    ),
    explains="The newest jobs when nothing is asked for. Exit 1: something was asked for and nothing is found.",
)
