"""Operating times of RCDs at their rated residual current."""

from collections.abc import Iterator
from decimal import Decimal

from domain.checks.bands import look
from domain.checks.residual import main_switch_is_rcd
from domain.checks.slips import did_you_mean
from domain.checks.ways import ways_in_use
from domain.circuit import Circuit
from domain.finding import Finding, Severity
from domain.job import Job
from domain.limits.device import RCBO, is_time_delayed, standard_in
from domain.limits.limit import Limit
from domain.limits.loader import table
from domain.limits.table import Row
from domain.place import Place
from domain.reading import Meaning, Reading

_CHECK = "rcd-time"
_READ = {Meaning.VALUE, Meaning.OVER, Meaning.UNDER}
_ONCE = Decimal(1)
_IN_SECONDS = (3, 1, 2)
"""The places a point moves to make milliseconds of what was read in seconds, and the lesser slips."""


def rcd_time(job: Job) -> Iterator[Finding]:
    """One test at the rated residual current: not too slow, and a selective one not too fast."""
    for way in ways_in_use(job):
        circuit = way.circuit
        if circuit.rcd_time.meaning not in _READ:
            continue
        if circuit.has_rcd or not circuit.rcd_standard.strip():
            yield from _judged(job, way.at("rcd_time"), circuit.rcd_time, _standard(circuit), circuit.rcd_type)
        elif main_switch_is_rcd(job):
            switch = job.main_switch
            yield from _judged(job, way.at("rcd_time"), circuit.rcd_time, switch.standard, switch.rcd_type)
        else:
            says = f"{circuit.rcd_time.shown} ms is typed, but no RCD is recorded for this circuit"
            yield _finding(way.at("rcd_time"), circuit.rcd_time, Severity.ASK, says)
    switch = job.main_switch
    if job.form_set.has_schedules and main_switch_is_rcd(job) and switch.rcd_time.meaning in _READ:
        place = Place(section="main_switch", box="rcd_time")
        yield from _judged(job, place, switch.rcd_time, switch.standard, switch.rcd_type)


def _standard(circuit: Circuit) -> str:
    if circuit.rcd_standard.strip():
        return circuit.rcd_standard
    return circuit.device_standard if standard_in(circuit.device_standard) == RCBO else ""


def _judged(job: Job, place: Place, time: Reading, standard: str, rcd_type: str) -> Iterator[Finding]:
    if not standard.strip():
        return
    kind = "S" if is_time_delayed(rcd_type) else "general"
    row = table("rcd_times", job.edition).row(standard_in(standard) or "", kind, _ONCE)
    if row is None:
        says = f"No operating time known for an RCD to {standard.strip()}, {'time-delayed' if kind == 'S' else 'general type'}"
        yield _finding(place, time, Severity.NOTE, says)
        return
    soonest = look("an RCD opens no sooner than", job.edition)
    if time.figure is not None and time.figure < soonest.value:
        longest = row.figures["at_most"].value
        slip = did_you_mean(time, "ms", lambda moved: soonest.value <= moved <= longest, _IN_SECONDS)
        says = f"{time.shown} ms is sooner than any RCD opens, about {soonest.shown} (common practice). {slip or 'Was it tested?'}"
        yield _finding(place, time, Severity.ASK, says, soonest)
        return
    yield from _against(place, time, row, _named(row))


def _named(row: Row) -> str:
    kind = "a selective (S)" if row.texts["kind"] == "S" else "a general type"
    return f"{kind} RCD to {row.texts['standard']} at its rated residual current"


def _against(place: Place, time: Reading, row: Row, rcd: str) -> Iterator[Finding]:
    longest, shortest = row.figures["at_most"], row.figures.get("at_least")
    assert time.value is not None
    if time.meaning is Meaning.OVER:
        says = f"{time.shown} ms shows no opening within {longest.shown}, the longest for {rcd}{longest.caution}"
        yield _finding(place, time, Severity.FAILS, says, longest)
    elif time.value > longest.value:
        says = f"{time.shown} ms is over {longest.shown}, the longest for {rcd}{longest.caution}"
        yield _finding(place, time, Severity.FAILS, says, longest)
    elif shortest and (time.value < shortest.value or time.meaning is Meaning.UNDER):
        says = f"{time.shown} ms is under {shortest.shown}, the shortest for {rcd}: it would not wait for the one after it{shortest.caution}"
        yield _finding(place, time, Severity.FAILS, says, shortest)
    elif time.meaning is Meaning.UNDER:
        says = f"{time.shown} ms names no time; an RCD takes a few milliseconds at least. Was it tested?"
        yield _finding(place, time, Severity.ASK, says)


def _finding(place: Place, time: Reading, severity: Severity, says: str, limit: Limit | None = None) -> Finding:
    return Finding(
        check=_CHECK,
        place=place,
        severity=severity,
        measured=f"{time.shown} ms",
        limit=limit.shown if limit else "",
        source=limit.source if limit else None,
        says=says,
    )
