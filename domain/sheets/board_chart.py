"""What is fixed at a board: its chart of circuits, and the notices beside it, from the values of the papers.

What they have to tell is asked by BS 7671: charts 514.9.1, periodic inspection 514.12.1, residual current devices 514.12.2,
isolation 514.11.1, other sources 514.15.1; the numbers from memory. Where the standard gives a notice its very words, the
printed notice is to be used; the sentences here are the program's own.
"""

from dataclasses import dataclass

from domain.dates import written
from domain.job.board import Board
from domain.job.box import shown_in
from domain.job.circuit import Circuit
from domain.job.job import Job
from domain.job.next_due import done_on, next_due, next_inspection_typed
from domain.sheets.schedules import WIRING
from domain.value import says_nothing

COLUMNS = ("No.", "What it feeds", "Points", "Device", "RCD", "Cable")
SPARE = "Spare"
_RCD_WORKS = (
    "The residual current devices at this board switch off when current leaks to earth. Press the button marked T on each "
    "about every six months: it must switch off at once. If it does not, use nothing it feeds and call an electrician."
)
_SOURCES = "Another source feeds this installation. Isolate every source before working on it, and prove it dead."
_USED = "Made from {number}. Where the standard gives a notice its own words, fix the printed notice."


@dataclass(frozen=True, slots=True)
class Chart:
    """The chart to fix inside one board: labelled facts, and a row for each way under `COLUMNS`."""

    board: str
    facts: tuple[tuple[str, str], ...]
    rows: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Notice:
    """A label to cut out."""

    heading: str
    facts: tuple[tuple[str, str], ...]
    says: str = ""


@dataclass(frozen=True, slots=True)
class BoardPapers:
    """Charts of the boards asked for, and the notices of the installation."""

    number: str
    firm: str
    is_issued: bool
    charts: tuple[Chart, ...]
    notices: tuple[Notice, ...]


def board_papers(job: Job, boards: tuple[Board, ...]) -> BoardPapers:
    """The charts of these boards of a job, with the notices that go beside them."""
    return BoardPapers(
        number=job.number,
        firm=job.firm.name,
        is_issued=job.issued is not None,
        charts=tuple(_chart(job, board) for board in boards),
        notices=tuple(_notices(job, boards)),
    )


def _chart(job: Job, board: Board) -> Chart:
    facts = (
        ("Where", board.location),
        ("Supplied from", board.supplied_from),
        ("System", job.supply.system),
        ("Main switch", job.main_switch.location),
    )
    sensitive = board.vulnerable
    notes = (
        *(
            ()
            if says_nothing(sensitive) or sensitive.casefold().startswith("none ")
            else (f"Take out or bridge before an insulation test: {sensitive}",)
        ),
        "Points: outlets and fittings served. Cable: line and protective conductor, type of wiring by its letter.",
        WIRING,
        _USED.format(number=job.number or "a job without a number"),
    )
    return Chart(board.name, _told(facts), tuple(_row(each) for each in board.circuits), notes)


def _row(circuit: Circuit) -> tuple[str, ...]:
    if circuit.is_spare:
        return (circuit.number, SPARE, "", "", "", "")
    return (
        circuit.number,
        circuit.description,
        _said(circuit, "points"),
        _put_together(circuit, "device_standard", "device_type", "rating", unit="A"),
        _put_together(circuit, "rcd_type", "rcd_idn", unit="mA"),
        _cable(circuit),
    )


def _cable(circuit: Circuit) -> str:
    sizes = " / ".join(size for name in ("live_csa", "cpc_csa") if (size := _said(circuit, name)))
    return ", ".join(part for part in (f"{sizes} mm²" if sizes else "", _said(circuit, "wiring")) if part)


def _put_together(circuit: Circuit, *names: str, unit: str) -> str:
    parts = [said for name in names if (said := _said(circuit, name))]
    return f"{' '.join(parts)} {unit}" if _said(circuit, names[-1]) else " ".join(parts)


def _said(circuit: Circuit, name: str) -> str:
    shown = shown_in(circuit, name)
    return "" if says_nothing(shown) else shown


def _notices(job: Job, boards: tuple[Board, ...]) -> list[Notice]:
    day, due = done_on(job), next_due(job)
    inspection = (
        ("Inspected and tested on", written(day) if day else ""),
        ("Next inspection recommended by", written(due) if due else next_inspection_typed(job)),
        ("By", job.firm.name),
        ("Telephone or e-mail", job.firm.contact),
        ("Number of the paper", job.number),
    )
    made = [Notice("Inspection of this installation", _told(inspection))]
    if any(_has_rcd(board) for board in boards):
        made.append(Notice("Residual current devices", (), _RCD_WORKS))
    points = (("Main switch", job.main_switch.location), *((f"Board {each.name}", each.location) for each in boards))
    made.append(Notice("Where to switch off", _told(points)))
    if not says_nothing(job.supply.other_sources):
        made.append(Notice("More than one source", (("Other sources", job.supply.other_sources),), _SOURCES))
    return made


def _has_rcd(board: Board) -> bool:
    return board.has_rcd or any(not says_nothing(shown_in(each, "rcd_idn")) for each in board.circuits)


def _told(facts: tuple[tuple[str, str], ...]) -> tuple[tuple[str, str], ...]:
    return tuple((label, value) for label, value in facts if not says_nothing(value))
