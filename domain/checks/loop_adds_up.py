"""Zs against the sum of its parts: what lies before the circuit, and R1+R2."""

from collections.abc import Iterator
from decimal import Decimal

from domain.checks.bands import about, look, loop_margin
from domain.checks.cables import runs_in_earthed_metal
from domain.checks.expected import impedance_before
from domain.checks.slips import did_you_mean
from domain.checks.system import is_tt
from domain.checks.ways import Way, ways_in_use
from domain.finding import Finding, Severity
from domain.formulas.loop import zs as sum_of
from domain.job import Job
from domain.limits.source import Source
from domain.reading import Reading

_CHECK = "loop-adds-up"


def loop_adds_up(job: Job) -> Iterator[Finding]:
    """Zs is about Ze or Zdb + R1+R2. More asks for the joints, less for parallel paths, either for the decimal point."""
    for way in ways_in_use(job):
        yield from _part_and_whole(way)
        before, name = impedance_before(job, way.board)
        if before.figure is not None and before.figure > 0:
            yield from _against_parts(job, way, before.figure, name)


def _part_and_whole(way: Way) -> Iterator[Finding]:
    whole, part = way.circuit.r1_r2, way.circuit.r2
    if whole.figure is not None and part.figure is not None and part.figure >= whole.figure > 0:
        says = f"R2 {part.shown} Ω is a part of R1+R2 {whole.shown} Ω and must be less"
        yield _finding(way, "r2", part, f"under {whole.shown} Ω", says)


def _against_parts(job: Job, way: Way, before: Decimal, name: str) -> Iterator[Finding]:
    zs, inside = way.circuit.zs, way.circuit.r1_r2
    if zs.figure is None or inside.figure is None or inside.figure <= 0 or zs.figure < before:
        return
    total = before + inside.figure
    is_higher = zs.figure > total
    by_rcd = is_higher and bool(way.rcds)
    apart = abs(zs.figure - total)
    if apart <= loop_margin(total, job.edition, on_tt=is_tt(job)):
        return
    box, reading, slip = _slip(job, way, before, total)
    margin = loop_margin(total, job.edition, by_rcd=by_rcd and not slip, on_tt=is_tt(job))
    if apart <= margin:
        return
    severity = Severity.ASK
    if not slip and not is_higher and runs_in_earthed_metal(way.circuit):
        severity = Severity.NOTE
    more = "more" if is_higher else "less"
    says = (
        f"Zs {zs.shown} Ω is {apart} Ω {more} than {name} and R1+R2 together, "
        f"{sum_of(before, inside.figure).sum}; up to {margin} Ω is put down to measuring"
        f"{' through an RCD' if by_rcd and not slip else ''}. {slip or _why(is_higher=is_higher)}"
    )
    source = look("Zs and its parts, apart by", job.edition).source
    yield _finding(way, box, reading, f"{total} ± {margin} Ω", says, source, severity=severity)


def _slip(job: Job, way: Way, before: Decimal, total: Decimal) -> tuple[str, Reading, str]:
    """The reading whose point may have slipped, and what it would have been. On TT, R1+R2 is lost in the scatter."""
    zs, inside = way.circuit.zs, way.circuit.r1_r2
    if slip := did_you_mean(zs, "Ω", about(total, job.edition)):
        return "zs", zs, slip
    left = zs.figure - before if zs.figure is not None else Decimal(0)
    if left > 0 and not is_tt(job) and (slip := did_you_mean(inside, "Ω", about(left, job.edition))):
        return "r1_r2", inside, f"For R1+R2: {slip[0].lower()}{slip[1:]}"
    return "zs", zs, ""


def _why(*, is_higher: bool) -> str:
    if is_higher:
        return "Is a joint loose, or one of the figures wrong?"
    return "Parallel earth paths can do that; otherwise one of the figures is wrong"


def _finding(
    way: Way,
    box: str,
    reading: Reading,
    limit: str,
    says: str,
    source: Source | None = None,
    *,
    severity: Severity = Severity.ASK,
) -> Finding:
    return Finding(
        check=_CHECK,
        place=way.at(box),
        severity=severity,
        measured=f"{reading.shown} Ω",
        limit=limit,
        source=source,
        says=says,
    )
