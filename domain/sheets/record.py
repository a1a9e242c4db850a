"""The record of the job: why these papers, and how what was found wrong was put right."""

from domain.dates import written
from domain.job.job import Job
from domain.job.place_in_words import described
from domain.job.snag import Snag
from domain.sheets.facts import Facts
from domain.sheets.sheet import Block, Listing, Row, SheetCell, SheetColumn, SheetEntry, SheetGroup, ValueOrigin

_SNAG_COLUMNS = (
    SheetColumn("Snag", 30, centred=False),
    SheetColumn("Where", 15, centred=False),
    SheetColumn("Raised", 17, centred=False),
    SheetColumn("Put right", 30, centred=False),
    SheetColumn("Cleared", 17, centred=False),
)
_EXPLAINED_COLUMNS = (
    SheetColumn("What was asked", 46, centred=False),
    SheetColumn("Reason given", 44, centred=False),
    SheetColumn("By", 19, centred=False),
)


def record_of(facts: Facts) -> tuple[Block, ...]:
    """The choice of form set, what a check asked about and why it is right, and on a certificate the snags."""
    snags = _snags(facts.job) if facts.job.profile.takes_snags else ()
    return (*_choice(facts.job), *_explained(facts), *snags)


def _choice(job: Job) -> tuple[SheetGroup, ...]:
    chosen = job.chosen
    rows: list[tuple[SheetEntry, ...]] = []
    if chosen.advised and chosen.is_override:
        rows.append(
            (
                SheetEntry("Papers advised for this job", chosen.advised.profile.title, origin=ValueOrigin.OURS),
                SheetEntry("Papers used", chosen.form_set.profile.title, origin=ValueOrigin.OURS),
            )
        )
    if chosen.because.strip():
        label = "Why other papers were used than advised" if chosen.is_override else "Reason given for the choice"
        rows.append((SheetEntry(label, chosen.because),))
    return (SheetGroup("Why these papers", tuple(rows)),) if rows else ()


def _explained(facts: Facts) -> tuple[Block, ...]:
    rows = tuple(
        (
            SheetCell(f"{described(facts.job, finding.place)}\n{finding.says}", ValueOrigin.OURS),
            SheetCell(explanation.reason),
            SheetCell(f"{explanation.by}, {written(explanation.on)}"),
        )
        for finding, explanation in facts.explained
    )
    if not rows:
        return ()
    return (Listing("Readings that were asked about", _EXPLAINED_COLUMNS, rows, "Unusual, and right for this reason."),)


def _snags(job: Job) -> tuple[Block, ...]:
    if not job.snags:
        return ()
    note = "Found while the work was inspected and tested. The certificate is kept back while any of them is open."
    return (Listing("How this job was put right", _SNAG_COLUMNS, tuple(_snag(snag) for snag in job.snags), note),)


def _snag(snag: Snag) -> Row:
    raised = SheetCell(f"{snag.raised_by}, {written(snag.raised_on)}")
    where = SheetCell(snag.where) if snag.where.strip() else SheetCell("None", ValueOrigin.OURS)
    if snag.cleared is None:
        open_still = SheetCell("still open", ValueOrigin.BLANK)
        return (SheetCell(snag.what), where, raised, open_still, open_still)
    cleared = SheetCell(f"{snag.cleared.by}, {written(snag.cleared.on)}")
    return (SheetCell(snag.what), where, raised, SheetCell(snag.cleared.how), cleared)
