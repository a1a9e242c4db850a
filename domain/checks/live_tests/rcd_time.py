"""Operating times of RCDs at their rated residual current."""

from collections.abc import Iterator
from decimal import Decimal

from domain.checks.shared.circuits_in_use import Way, board_place
from domain.checks.shared.decimal_slip import did_you_mean
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.part_by_part import of_each_way
from domain.checks.shared.phrases import phrase
from domain.checks.shared.rcds import USUAL_STANDARD, Rcd, board_rcd, own_rcd, switch_rcd
from domain.checks.shared.tolerances import tolerance
from domain.edition import Edition
from domain.figures.limits.device import RCBO, is_time_delayed, standard_in
from domain.figures.limits.loader import table
from domain.figures.limits.table import LimitRow
from domain.figures.units import Milliseconds
from domain.forms.box_group import BoxGroup
from domain.job.circuit import Circuit
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.reading import Meaning, Reading
from domain.place import Place

_found = FindingFactory("rcd-time")
_READ = {Meaning.VALUE, Meaning.OVER, Meaning.UNDER}
_ONCE = Decimal(1)
_IN_SECONDS = (3, 1, 2)
"""The places a point moves to make milliseconds of what was read in seconds, and the lesser slips."""


def rcd_time(job: Job) -> Iterator[Finding]:
    """One test at the rated residual current: not too slow, and a selective one not too fast."""
    yield from _of_a_circuit(job)
    for board in job.boards if job.profile.takes(BoxGroup.BOARD_FEED) else ():
        yield from _of_one(job, board_place(board, "rcd_time"), board.rcd_time, board_rcd(board))
    if job.profile.takes(BoxGroup.ORIGIN):
        yield from _of_one(job, Place(section="main_switch", box="rcd_time"), job.main_switch.rcd_time, switch_rcd(job))


@of_each_way
def _of_a_circuit(job: Job, way: Way) -> Iterator[Finding]:
    """The time belongs to the circuit's own RCD, or to the nearest before it."""
    circuit, place = way.circuit, way.at("rcd_time")
    if circuit.rcd_time.meaning not in _READ:
        return
    rcd = own_rcd(circuit) or _rcbo(circuit)
    if rcd or way.rcds:
        yield from _of_one(job, place, circuit.rcd_time, rcd or way.rcds[0])
    elif circuit.rcd_standard.strip():
        typed = {"rcd_standard": circuit.rcd_standard.strip()}
        yield _found(job, place, Severity.ASK, "no-rcd", typed=typed, time=circuit.rcd_time)


def _rcbo(circuit: Circuit) -> Rcd | None:
    """The device itself, while the boxes of the RCD are not filled in yet."""
    if circuit.rcd_standard.strip() or standard_in(circuit.device_standard) != RCBO:
        return None
    return Rcd(
        phrase("own-rcbo"), RCBO, circuit.rcd_type, circuit.rcd_idn, is_delayed=is_time_delayed(circuit.rcd_type)
    )


def _of_one(job: Job, place: Place, time: Reading[Milliseconds], rcd: Rcd | None) -> Iterator[Finding]:
    if rcd is None or time.meaning not in _READ:
        return
    row = row_for(rcd, job.edition)
    if row is None:
        kind = phrase("time-delayed" if rcd.is_delayed else "general-type")
        yield _found(job, place, Severity.NOTE, "no-limit", time=time, standard=rcd.standard.strip(), kind=kind)
        return
    too_soon = _too_soon(job, place, time, row)
    yield from (too_soon,) if too_soon else _against(job, place, time, row)


def row_for(rcd: Rcd, edition: Edition) -> LimitRow | None:
    """The times of an RCD at its rated residual current; None where the table does not know its like."""
    return table("rcd_times", edition).row(_standard_of(rcd), "S" if rcd.is_delayed else "general", _ONCE)


def _standard_of(rcd: Rcd) -> str:
    """Words such as `RCCB` name no standard, and the usual one is meant; a number no table knows is not guessed at."""
    names_a_number = any(letter.isdigit() for letter in rcd.standard)
    return standard_in(rcd.standard) or ("" if names_a_number else USUAL_STANDARD)


def _too_soon(job: Job, place: Place, time: Reading[Milliseconds], row: LimitRow) -> Finding | None:
    soonest, longest = tolerance("an RCD opens no sooner than", job.edition), row.figures["at_most"]
    if time.figure is None or time.figure >= soonest.value:
        return None
    slip = did_you_mean(time, "ms", lambda moved: soonest.value <= moved <= longest.value, _IN_SECONDS)
    return _found(job, place, Severity.ASK, "too-soon", limit=soonest, time=time, next=slip or phrase("was-it-tested"))


def _named(row: LimitRow) -> str:
    return phrase("rcd-selective" if row.texts["kind"] == "S" else "rcd-general", standard=row.texts["standard"])


def _against(job: Job, place: Place, time: Reading[Milliseconds], row: LimitRow) -> Iterator[Finding]:
    longest, shortest, rcd = row.figures["at_most"], row.figures.get("at_least"), _named(row)
    assert time.value is not None
    if time.meaning is Meaning.OVER or time.value > longest.value:
        case = "over-range" if time.meaning is Meaning.OVER else "too-slow"
        yield _found(job, place, Severity.FAILS, case, limit=longest, time=time, rcd=rcd, caution=longest.caution)
    elif shortest and (time.value < shortest.value or time.meaning is Meaning.UNDER):
        yield _found(
            job, place, Severity.FAILS, "too-fast", limit=shortest, time=time, rcd=rcd, caution=shortest.caution
        )
    elif time.meaning is Meaning.UNDER:
        yield _found(job, place, Severity.ASK, "no-time", time=time)
