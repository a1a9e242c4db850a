"""The visit sheet: what to have in hand before anything is switched off, drawn from the job on one page."""

from collections.abc import Iterator
from datetime import date

from domain.coach.danger import dangers_of
from domain.coach.danger_conditions import hangs_on
from domain.coach.orders import orders
from domain.dates import date_in, written
from domain.job.board import Board
from domain.job.instrument import INSTRUMENTS, due_box
from domain.job.job import Job
from domain.job.logo import Logo
from domain.job.reading import Meaning, Reading
from domain.value import Value, says_nothing
from domain.words import capitalised, on_one_line

TITLE = "Visit sheet"
DEFERS = (
    "For whoever is competent to do this work. It repeats what the job tells and knows nothing else: look for yourself. The "
    "current standard, the rules of the site and licensed practice come first; if in doubt, switch nothing off and ask."
)
DANGERS, ORDER = "What can hurt here", "In this order"
"""Parts in our own words."""
_NOT_TOLD = "not told yet: find it, and write it here"
BOARDS_SHOWN = 8
"""Boards, and circuits that are asked about first, named at the most; more are counted: a sheet in the hand is one page."""


class Visit(Value):
    """What a visit sheet is made from."""

    job: Job
    on: date
    logo: Logo | None = None
    """Of the job's firm."""


class VisitPart(Value):
    """One part of the sheet: lines, each with what it is about."""

    heading: str
    lines: tuple[tuple[str, str], ...]


def visit_parts(visit: Visit, most: int = BOARDS_SHOWN) -> tuple[VisitPart, ...]:
    """The parts of the sheet in the order in which they are wanted on site; none is ever empty; `most` boards are named."""
    job = visit.job
    return (
        VisitPart(heading="Where, and who is asked", lines=tuple(_where(job))),
        VisitPart(heading="Isolation points", lines=tuple(_isolation(job, most))),
        VisitPart(heading="Not to be switched off without asking", lines=tuple(_ask_first(job, most))),
        VisitPart(heading=DANGERS, lines=tuple(_dangers(job))),
        VisitPart(heading=ORDER, lines=tuple(_order(job))),
        VisitPart(heading="Instruments", lines=tuple(_instruments(visit))),
        VisitPart(heading="Agreed", lines=tuple(_agreed(job))),
    )


def visit_text(visit: Visit) -> str:
    """The sheet as plain text."""
    lines = [f"{TITLE} for {visit.job.number or 'a job without a number'}, {written(visit.on)}", DEFERS]
    for part in visit_parts(visit):
        lines += ["", part.heading, *(f"  {label}: {text}" for label, text in part.lines)]
    return "\n".join(lines) + "\n"


def _where(job: Job) -> Iterator[tuple[str, str]]:
    premises, client = job.premises, job.client
    yield "Premises", _told(", ".join(filter(None, (premises.address, premises.postcode))))
    yield "Client", _told("; ".join(filter(None, (client.name, client.contact))))
    if not says_nothing(premises.occupier):
        yield "Occupier", _told(premises.occupier)


def _isolation(job: Job, most: int) -> Iterator[tuple[str, str]]:
    switch = job.main_switch
    poles, rating = _figure(switch.poles, "poles"), _figure(switch.current_rating, "A")
    yield "Main switch", _told("; ".join(filter(None, (switch.location, switch.standard, poles, rating))))
    for board in job.boards[:most]:
        yield f"Board {board.name}", _told(_of_board(board))
    if more := len(job.boards[most:]):
        yield "Boards", f"and {more} more; see the schedules"
    others = job.supply.other_sources
    if others.strip():
        said = "none, says the job; look for inverters and changeover switches" if says_nothing(others) else others
        yield "Other sources", on_one_line(said)
    else:
        yield "Other sources", _NOT_TOLD


def _of_board(board: Board) -> str:
    fed = "" if says_nothing(board.supplied_from) else f"fed from {board.supplied_from}"
    switch = "" if says_nothing(board.main_switch) else board.main_switch
    return "; ".join(filter(None, (board.location, fed, switch)))


def _ask_first(job: Job, most: int) -> Iterator[tuple[str, str]]:
    hanging = [(board, circuit) for board, circuit in job.circuits() if hangs_on(circuit)]
    for board, circuit in hanging[:most]:
        yield f"{board.name}, {circuit.name}", "life or goods may hang on it: agree the moment, have a stand-in running"
    if more := len(hanging[most:]):
        yield "Circuits", f"and {more} more of that kind"
    if not says_nothing(job.report.operational_limitations):
        yield "Told beforehand", on_one_line(job.report.operational_limitations)
    vulnerable = "; ".join(each.vulnerable for each in job.boards if not says_nothing(each.vulnerable))
    if vulnerable:
        yield "Off for insulation tests", on_one_line(vulnerable)
    yield "Ask on site", "medical equipment, lifts, alarms, servers, freezers, fish tanks, screens in use"


def _dangers(job: Job) -> Iterator[tuple[str, str]]:
    found = dangers_of(job)
    yield from ((f"Mind {number}", danger.says) for number, danger in enumerate(found, start=1))
    if not found:
        yield "Mind", "Nothing beyond what every visit asks, by what the job tells so far"


def _order(job: Job) -> Iterator[tuple[str, str]]:
    yield "Make dead", _in_turn([step.says for step in orders()["isolation"].steps])
    tests = orders()["tests"]
    yield "Test", _in_turn([step.says for step in tests.steps if step.id not in _not_here(job)])
    yield "If one fails", tests.after_failing


def _not_here(job: Job) -> set[str]:
    """Steps of the order about what the job does not have, as far as it tells."""
    circuits = [circuit for _, circuit in job.circuits() if not circuit.is_spare]
    left = set[str]()
    if circuits and all(circuit.shape.strip() for circuit in circuits) and not any(each.is_ring for each in circuits):
        left.add("ring")
    if job.supply.live_conductors and "3-phase" not in job.supply.live_conductors:
        left.add("sequence")
    if job.supply.system.startswith("TN"):
        left.add("electrode")
    return left


def _in_turn(steps: list[str]) -> str:
    return "; ".join(f"({number}) {says}" for number, says in enumerate(steps, start=1))


def _instruments(visit: Visit) -> Iterator[tuple[str, str]]:
    held = visit.job.instruments
    yield "Voltage tester", "two-pole, to GS38, with its proving unit: proved before and after every test for dead"
    for name, what in INSTRUMENTS.items():
        serial, due = getattr(held, name), getattr(held, due_box(name))
        if not says_nothing(serial):
            day = date_in(due)
            late = ": PAST ITS DAY" if day and day < visit.on else ""
            yield capitalised(what), serial + (f"; calibration due {due}{late}" if due.strip() else "")
    if not any(not says_nothing(getattr(held, name)) for name in INSTRUMENTS):
        yield "Multifunction tester", _NOT_TOLD


def _agreed(job: Job) -> Iterator[tuple[str, str]]:
    report, work = job.report, job.work
    is_report = job.profile.states_a_condition
    yield "Work" if not is_report else "Reason", _told(report.reason if is_report else work.description)
    yield "Extent", _told(report.extent if is_report else work.extent)
    yield "Left out", _told(report.agreed_limitations if is_report else work.limitations)
    if not says_nothing(report.agreed_with):
        yield "Agreed with", on_one_line(", ".join(filter(None, (report.agreed_with, report.agreed_position))))
    yield "Off from … to …", "agreed with (name, time): "


def _told(text: str) -> str:
    return on_one_line(text) if text.strip() else _NOT_TOLD


def _figure(reading: Reading, unit: str) -> str:
    return f"{reading.typed} {unit}" if reading.meaning is Meaning.VALUE else ""
