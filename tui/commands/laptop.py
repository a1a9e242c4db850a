"""`laptop`: the laptops of an office: which there are, the first file of a new one, and one that was lost."""

from datetime import datetime
from pathlib import Path
from secrets import token_hex
from typing import Any

from domain.civil_time import short_moment
from domain.laptops.holding import Station, StationState
from domain.laptops.making import DAYS_ALONE
from domain.laptops.operation import Act
from domain.log.laptops import Laptops
from domain.value import LINE_MAX, cleaned
from tui.commands.command import JSON, Command, CommandAnswer, CommandOption, Environment, TypedArgument, UnusableError
from tui.commands.firm_words import laptops_of, listed

_TO = CommandOption("--to", "the file to write for the new laptop", "FILE")
_FOR = CommandOption("--for", "who works with it", "NAME")
_DAYS = CommandOption(
    "--days",
    "for so many days it may issue without having heard from the office; 14. Of one there is, changes them",
    "DAYS",
)
_LOST = CommandOption("--lost", "it is lost: what it has out is put on the list to settle")
_SHUT = CommandOption("--shut", "nothing that comes from it counts before a person here says so")
_DAYS_MOST = 365
_STATES = {
    StationState.LOST: "counts as lost",
    StationState.SHUT: "is shut out",
    StationState.REBORN: "was put back from a copy, and has other letters",
}


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """List the laptops, make the file of a new one, or say what became of one."""
    place, at = environment.place(), datetime.now().astimezone()
    letters, allowed = cleaned(typed.words[0]).upper() if typed.words else "", 0
    to = Path(typed.value(_TO.name)).expanduser().absolute() if typed.value(_TO.name) else None
    if to and to.exists():
        raise UnusableError(f"{to} exists already and is not written over; give another name")
    with environment.open_services(place) as services:
        laptops = laptops_of(services)
        if act := Act.LOST if typed.has(_LOST.name) else Act.SHUT if typed.has(_SHUT.name) else None:
            laptops.declare(act, letters, at=at)
        elif letters and to is None and typed.value(_DAYS.name):
            laptops.allow_days(letters, allowed := _days(typed), at=at)
        elif letters:
            if to is None:
                raise UnusableError(f"Say where its first file is to be: ohmfolio laptop {letters} --to FILE")
            person = cleaned(typed.value(_FOR.name))[:LINE_MAX]
            # The laptop knows what comes from the office by its key.
            services.log.begin_seal_key(who=services.who, at=at)
            laptops.enrol(letters, device=token_hex(8), person=person, days=_days(typed), at=at)
        stations, own = [_told(laptops, each) for each in laptops.stations()], laptops.own
    if to and letters:
        environment.firm(place).write_first(to, at=at)
        said = [
            f"{to} is the first file of {letters}, and for that laptop alone: whoever has it has the whole log.",
            f"On the laptop: ohmfolio join {to.name}",
        ]
        return CommandAnswer({"laptop": letters, "file": str(to)}, "\n".join(said))
    lines = [_line(each, is_office=own is not None and own.is_office) for each in stations]
    if act:
        lines.insert(0, f"✓ {letters} {_STATES[StationState(act.value)]}; ohmfolio settle has what comes of that")
    if allowed:
        lines.insert(0, f"✓ {letters} issues for {allowed} days without this office, once it has heard of that")
    return CommandAnswer(stations, "\n".join(lines) or "This office has no laptops yet")


def _days(typed: TypedArgument) -> int:
    given = typed.value(_DAYS.name) or str(DAYS_ALONE)
    if not given.isdecimal() or not 0 < int(given) <= _DAYS_MOST:
        raise UnusableError(f"--days takes a number from 1 to {_DAYS_MOST}; not {given!r}")
    return int(given)


def _told(laptops: Laptops, station: Station) -> dict[str, Any]:
    heard = laptops.heard_at(station.device)
    own = laptops.own
    return {
        "letters": station.name,
        "person": station.person,
        "is_office": station.is_office,
        "is_here": own is not None and station.device == own.device,
        "state": station.state.value,
        "heard_at": heard,
        "days": station.days,
        "out": laptops.out(station.device),
    }


def _line(told: dict[str, Any], *, is_office: bool) -> str:
    what = "the office" if told["is_office"] else told["person"] or "a laptop"
    if told["is_here"]:
        what = f"{what}, here"
    elif told["heard_at"]:
        what = f"{what}, heard {short_moment(datetime.fromisoformat(str(told['heard_at'])))}"
    elif told["state"] == StationState.ACTIVE and is_office:
        what = f"{what}, not heard here yet"
    alone = (
        "" if told["is_office"] or told["days"] == DAYS_ALONE else f"; issues {told['days']} days without the office"
    )
    state = f"; {_STATES[told['state']]}" if told["state"] in _STATES else ""
    out = f"; has out {listed(told['out'])}" if told["out"] else ""
    return f"{told['letters']:<5}{what}{alone}{state}{out}"


COMMAND = Command(
    name="laptop",
    run=run,
    words="[LETTERS]",
    most=1,
    options=(_TO, _FOR, _DAYS, _LOST, _SHUT, JSON),
    explains=(
        "LETTERS are those that its numbers begin with; whatever begins with them is that laptop's from then on.\n"
        "Its first file is a copy of the whole log, papers and all, without the key of the office. It serves one laptop. The "
        "first laptop makes this log that of an office."
    ),
)
