"""Observations of a report, each with its code, and the readings outside their limits."""

from domain.observation import Observation
from domain.sheets.facts import Facts
from domain.sheets.sheet import Block, Cell, Column, Listing, Note, Row, Standing
from domain.whereabouts import described

_COLUMNS = (
    Column("No.", 5),
    Column("What was found", 52, centred=False),
    Column("Where", 18, centred=False),
    Column("Item", 8),
    Column("Code", 7),
)
_LIMIT_COLUMNS = (
    Column("Where", 34, centred=False),
    Column("Measured", 12),
    Column("Limit", 12),
    Column("Taken from", 34, centred=False),
)
_CODES = (
    "**C1** danger present, act at once · **C2** potentially dangerous, urgent · **C3** improvement recommended · "
    "**FI** further investigation without delay. One code is given to each observation."
)


def observations_of(facts: Facts) -> tuple[Block, ...]:
    """Every observation, or the statement that there is none; then the readings outside their limits."""
    if not facts.job.observations:
        none = "No item was found that calls for an observation." if facts.job.issued else "None is written yet."
        return (Note(none, "Observations"), *_readings_outside(facts))
    rows = tuple(_row(number, each) for number, each in enumerate(facts.job.observations, start=1))
    return (Listing("Observations", _COLUMNS, rows, _CODES), *_readings_outside(facts))


def _row(number: int, each: Observation) -> Row:
    finding = f"{each.finding}\n{each.reason}" if each.reason.strip() else each.finding
    return (
        Cell(str(number), Standing.OURS),
        Cell(finding),
        Cell(each.where) if each.where.strip() else Cell("not stated", Standing.OURS),
        Cell(", ".join(each.items)) if each.items else Cell("–", Standing.OURS),
        Cell(each.code, Standing.FAILS if each.code.is_unsatisfactory else Standing.TYPED),
    )


def _readings_outside(facts: Facts) -> tuple[Block, ...]:
    """The failing readings with the limit each was held against and its source."""
    rows = tuple(
        (
            Cell(f"{described(facts.job, finding.place)}\n{finding.says}", Standing.OURS),
            Cell(finding.measured or "–", Standing.OURS),
            Cell(finding.limit or "–", Standing.OURS),
            Cell(finding.source.cited if finding.source else "–", Standing.OURS),
        )
        for finding in facts.failing
    )
    if not rows:
        return ()
    note = "These stand in a heavy frame with a cross on the schedules. The observations say what each means."
    return (Listing("Readings outside their limits", _LIMIT_COLUMNS, rows, note),)
