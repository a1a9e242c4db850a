"""The inspection schedule: every item with its outcome."""

from domain.inspection.checklist import Item, items_for
from domain.inspection.outcome import ItemOutcome
from domain.sheets.facts import Facts
from domain.sheets.sheet import Cell, Column, Divider, Listing, Note, Row, Standing, TextSheet

TITLE = "Inspection schedule"
_COLUMNS = (
    Column("Item", 9),
    Column("Looked at", 56, centred=False),
    Column("Regulations", 26, centred=False),
    Column("Outcome", 11),
    Column("Remark or reason", 26, centred=False),
)
_CERTIFICATE_KEY = "**✓** inspected and in order · **N/A** not part of this installation or of this work"
_REPORT_KEY = (
    "**✓** acceptable · **C1 C2 C3 FI** see the observation with that item and code · **N/V** applies but could not "
    "be verified · **LIM** left out or restricted by a limitation · **N/A** not present"
)


def inspection_schedule(facts: Facts) -> TextSheet:
    """Items of the checklist in walking order, then rows that the checklist does not know."""
    job = facts.job
    outcomes = {outcome.item: outcome for outcome in job.inspection}
    items = items_for(job.form_set, job.edition)
    rows: list[Row | Divider] = []
    section = ""
    for item in items:
        if item.section != section:
            section = item.section
            rows.append(Divider(section))
        rows.append(_row(item, outcomes.get(item.number)))
    known = {item.number for item in items}
    added = [outcome for outcome in job.inspection if outcome.item not in known]
    if added:
        rows.append(Divider("Added for these premises"))
        rows += [_row(Item(number=each.item, section="", title=""), each) for each in added]
    key = _REPORT_KEY if job.form_set.is_report else _CERTIFICATE_KEY
    return TextSheet(TITLE, f"Items inspected under {job.edition}", (Note(key), Listing("", _COLUMNS, tuple(rows))))


def _row(item: Item, outcome: ItemOutcome | None) -> Row:
    return (
        Cell(item.number, Standing.OURS),
        Cell(item.title, Standing.OURS),
        Cell(item.regulations, Standing.OURS),
        _mark(outcome),
        Cell(outcome.note if outcome else ""),
    )


def _mark(outcome: ItemOutcome | None) -> Cell:
    if outcome is None:
        return Cell("", Standing.BLANK)
    code = outcome.mark.code
    return Cell(outcome.mark, Standing.FAILS if code and code.is_unsatisfactory else Standing.TYPED)
