"""The record of the job: why these papers, and how what was found wrong was put right."""

from domain.dates import written
from domain.job import Job
from domain.sheets.facts import Facts
from domain.sheets.sheet import Block, Cell, Column, Entry, Group, Listing, Row, Standing
from domain.snag import Snag
from domain.whereabouts import described

_SNAG_COLUMNS = (
    Column("Snag", 30, centred=False),
    Column("Where", 15, centred=False),
    Column("Raised", 17, centred=False),
    Column("Put right", 30, centred=False),
    Column("Cleared", 17, centred=False),
)
_EXPLAINED_COLUMNS = (
    Column("What was asked", 46, centred=False),
    Column("Reason given", 44, centred=False),
    Column("By", 19, centred=False),
)


def record_of(facts: Facts) -> tuple[Block, ...]:
    """The choice of form set, what a check asked about and why it is right, and on a certificate the snags."""
    snags = () if facts.job.form_set.is_report else _snags(facts.job)
    return (*_choice(facts.job), *_explained(facts), *snags)


def _choice(job: Job) -> tuple[Group, ...]:
    chosen = job.chosen
    rows: list[tuple[Entry, ...]] = []
    if chosen.advised and chosen.is_override:
        rows.append(
            (
                Entry("Papers advised for this job", chosen.advised.paper, standing=Standing.OURS),
                Entry("Papers used", chosen.form_set.paper, standing=Standing.OURS),
            )
        )
    if chosen.because.strip():
        label = "Why other papers were used than advised" if chosen.is_override else "Reason given for the choice"
        rows.append((Entry(label, chosen.because),))
    return (Group("Why these papers", tuple(rows)),) if rows else ()


def _explained(facts: Facts) -> tuple[Block, ...]:
    rows = tuple(
        (
            Cell(f"{described(facts.job, finding.place)}\n{finding.says}", Standing.OURS),
            Cell(explanation.reason),
            Cell(f"{explanation.by}, {written(explanation.on)}"),
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
    raised = Cell(f"{snag.raised_by}, {written(snag.raised_on)}")
    where = Cell(snag.where) if snag.where.strip() else Cell("not stated", Standing.OURS)
    if snag.cleared is None:
        open_still = Cell("still open", Standing.BLANK)
        return (Cell(snag.what), where, raised, open_still, open_still)
    cleared = Cell(f"{snag.cleared.by}, {written(snag.cleared.on)}")
    return (Cell(snag.what), where, raised, Cell(snag.cleared.how), cleared)
