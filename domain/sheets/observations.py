"""Observations of a report, each with its code and what it answers, and the readings outside their limits."""

from collections.abc import Iterator

from domain.inspection.observation import Observation, gravest_first
from domain.job.place_in_words import described, owner_at
from domain.sheets.facts import Facts
from domain.sheets.sheet import Block, Listing, Row, SheetCell, SheetColumn, SheetNote, ValueOrigin

_COLUMNS = (
    SheetColumn("No.", 5),
    SheetColumn("What was found", 52, centred=False),
    SheetColumn("Where", 18, centred=False),
    SheetColumn("Item", 8),
    SheetColumn("Code", 7),
)
_LIMIT_COLUMNS = (
    SheetColumn("Where", 34, centred=False),
    SheetColumn("Measured", 12),
    SheetColumn("Limit", 12),
    SheetColumn("Taken from", 26, centred=False),
    SheetColumn("Observed", 8),
)
_CODES = (
    "**C1** danger present, act at once · **C2** potentially dangerous, urgent · **C3** improvement recommended · "
    "**FI** further investigation without delay. One code is given to each observation."
)

_GENERAL = "General: about no single reading."


def observations_of(facts: Facts) -> tuple[Block, ...]:
    """Every observation, or the statement that there is none; then the readings outside their limits."""
    if not facts.job.observations:
        none = "No item was found that calls for an observation." if facts.job.issued else "None is written yet."
        return (SheetNote(none), *_readings_outside(facts))
    rows = tuple(_row(facts, number, each) for number, each in gravest_first(facts.job.observations))
    return (Listing("", _COLUMNS, rows, _CODES), *_readings_outside(facts))


def _row(facts: Facts, number: int, each: Observation) -> Row:
    return (
        SheetCell(str(number), ValueOrigin.OURS),
        SheetCell("\n".join((each.finding, *_beneath(facts, each)))),
        SheetCell(each.where) if each.where.strip() else SheetCell("None", ValueOrigin.OURS),
        SheetCell(", ".join(each.items)) if each.items else SheetCell("–", ValueOrigin.OURS),
        SheetCell(each.code, ValueOrigin.FAILS if each.code.is_pressing else ValueOrigin.TYPED),
    )


def _beneath(facts: Facts, each: Observation) -> Iterator[str]:
    """Why this code, what was done at once, and what it answers."""
    if each.reason.strip():
        yield f"Why {each.code}: {each.reason}" if each.lowered_from is None else _lowered(each)
    if each.action:
        yield each.action.sentence
    standing = [place for place in each.answers if owner_at(facts.job, place) is not None or place.item]
    yield f"Answers: {'; '.join(described(facts.job, place) for place in standing)}." if standing else _GENERAL


def _lowered(each: Observation) -> str:
    return f"Why {each.code}, and {each.lowered_from} no longer: {each.reason}"


def _readings_outside(facts: Facts) -> tuple[Block, ...]:
    """The failing readings with the limit each was held against and its source."""
    rows = tuple(
        (
            SheetCell(f"{described(facts.job, finding.place)}\n{finding.says}", ValueOrigin.OURS),
            SheetCell(finding.measured or "–", ValueOrigin.OURS),
            SheetCell(finding.limit or "–", ValueOrigin.OURS),
            SheetCell(finding.source.cited if finding.source else "–", ValueOrigin.OURS),
            SheetCell(facts.answered_beside(finding.place) or "–", ValueOrigin.OURS),
        )
        for finding in facts.failing
    )
    if not rows:
        return ()
    note = "These stand in a heavy frame with a cross on the schedules. The observation whose number stands beside each says what it means."
    return (Listing("Readings outside their limits", _LIMIT_COLUMNS, rows, note),)
