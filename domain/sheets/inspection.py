"""The inspection schedule: every item with its outcome."""

from domain.checks.whole_paper.new_in_edition import subjects_of
from domain.figures.limits.loader import named_figure
from domain.inspection.checklist import ChecklistItem, checklist_for
from domain.inspection.item_outcome import ItemOutcome
from domain.job.job import Job
from domain.sheets.facts import Facts
from domain.sheets.sheet import Divider, Listing, Row, SheetCell, SheetColumn, SheetNote, TextSheet, ValueOrigin

TITLE = "Inspection schedule"
_COLUMNS = (
    SheetColumn("Item", 9),
    SheetColumn("Looked at", 63, centred=False),
    SheetColumn("Regulations", 26, centred=False),
    SheetColumn("Outcome", 11),
    SheetColumn("Remark or reason", 23, centred=False),
)
_CERTIFICATE_KEY = "**✓** inspected and in order · **N/A** not part of this installation or of this work"
_REPORT_KEY = (
    "**✓** acceptable · **C1 C2 C3 FI** see the observation with that item and code · **N/V** applies but could not "
    "be verified · **LIM** left out or restricted by a limitation · **N/A** not present"
)


def inspection_schedule(facts: Facts) -> TextSheet:
    """Items in walking order, those added for the premises last; then outcomes the list does not know."""
    job = facts.job
    outcomes = {outcome.item: outcome for outcome in job.inspection}
    rows: list[Row | Divider] = []
    section = ""
    for item in job.items:
        if item.section != section:
            section = item.section
            rows.append(Divider(section))
        rows.append(_row(job, item, outcomes.pop(item.number, None)))
    if outcomes:
        rows.append(Divider("Not on the list of this edition"))
        rows += [
            _row(job, ChecklistItem(number=each.item or "?", section="", title="–"), each) for each in outcomes.values()
        ]
    key = _REPORT_KEY if job.profile.takes_observations else _CERTIFICATE_KEY
    return TextSheet(
        TITLE,
        f"Items inspected under {job.edition_in_full}, by {job.list_named}",
        (SheetNote(key), *_of_the_edition(job), Listing("", _COLUMNS, tuple(rows))),
    )


def _of_the_edition(job: Job) -> tuple[SheetNote, ...]:
    """That the list is an older edition's, and which rows are this program's own for what the edition has new."""
    checklist = checklist_for(job.form_set, job.edition)
    of_older = job.edition.of_older(checklist.edition) if checklist else ""
    said = [f"The list is that of {checklist.edition}: {of_older}."] if checklist and of_older else []
    titles = {own.title for own in job.own_items}
    rows = [each for each in subjects_of(job) if titles & {item.title for item in each.items}]
    said += [
        f"Rows on {each.about} are worded here, not taken from {each.source.table}: not re-checked." for each in rows
    ]
    said += [_on_paper(job, each.on_paper) for each in rows if each.on_paper]
    return (SheetNote(" ".join(said)),) if said else ()


def _on_paper(job: Job, says: str) -> str:
    groups = {f"group_{each}": named_figure("medical_bonding", f"group {each}", job.edition).shown for each in (1, 2)}
    return says.format(**groups)


def _row(job: Job, item: ChecklistItem, outcome: ItemOutcome | None) -> Row:
    return (
        SheetCell(item.number, ValueOrigin.OURS),
        SheetCell(item.title, ValueOrigin.OURS),
        SheetCell(item.regulations, ValueOrigin.OURS),
        _mark(outcome),
        SheetCell(_remark(job, outcome) if outcome else ""),
    )


def _remark(job: Job, outcome: ItemOutcome) -> str:
    """The inspector's own words, and which observations name the item."""
    numbers = [f"{at}" for at, each in enumerate(job.observations, start=1) if outcome.item in each.items]
    see = f"see observation {', '.join(numbers)}" if numbers else ""
    return "; ".join(part for part in (outcome.note, see) if part.strip())


def _mark(outcome: ItemOutcome | None) -> SheetCell:
    if outcome is None:
        return SheetCell("", ValueOrigin.BLANK)
    code = outcome.mark.code
    return SheetCell(outcome.mark, ValueOrigin.FAILS if code and code.is_pressing else ValueOrigin.TYPED)
