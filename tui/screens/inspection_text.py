"""What the inspection says: its items as rows, and one of them in full."""

from collections.abc import Iterator, Mapping

from domain.inspection.checklist import BOARDS, ChecklistItem
from domain.inspection.item_outcome import InspectionOutcome, ItemOutcome, lacks_names
from domain.inspection.observation import Observation
from domain.job.job import Job
from tui import theme
from tui.widgets.pick_list import ListCell, ListRow
from tui.widgets.text_page import Paragraph

MEANS: Mapping[InspectionOutcome, str] = {
    InspectionOutcome.PASS: "inspected, acceptable",
    InspectionOutcome.NOT_APPLICABLE: "not applicable here",
    InspectionOutcome.LIMITATION: "not inspected, by a limitation",
    InspectionOutcome.NOT_VERIFIED: "not verified",
}


def outcomes_in(job: Job) -> dict[str, ItemOutcome]:
    """The outcomes by the numbers of their items."""
    return {outcome.item: outcome for outcome in job.inspection}


def observations_on(job: Job, item: str) -> list[Observation]:
    """The observations that name an item."""
    return [each for each in job.observations if item in each.items]


def item_rows(job: Job) -> Iterator[ListRow]:
    """A row an item under the heading of its section, with what is open there; first the list, where it is not that of a home."""
    marked = outcomes_in(job)
    section = ""
    if job.extent:
        named = f"By {job.list_named}, which the boards ask for"
        yield ListRow("the list", (ListCell(named, theme.QUIET),), heading=True)
    for item in job.items:
        if item.section != section:
            section = item.section
            inside = [each for each in job.items if each.section == section]
            left = sum(each.number not in marked for each in inside)
            says = f"{left} of {len(inside)} open" if left else "done"
            cells = (ListCell(section, theme.HEAD), ListCell(says, theme.ASKS if left else theme.GOOD, 14))
            yield ListRow(f"section {section}", cells, heading=True)
        outcome = marked.get(item.number)
        aside = _snagged(job, item) or _aside(job, item, outcome)
        yield ListRow(
            item.number,
            (
                ListCell(outcome.mark if outcome else theme.SIGN_GAP, _style(outcome), 3),
                ListCell(item.number, theme.PLAIN, 5),
                ListCell(item.title),
                ListCell(aside, theme.FAILS if aside.startswith("!") else theme.QUIET, 16),
            ),
        )


def _style(outcome: ItemOutcome | None) -> theme.Style:
    if outcome is None:
        return theme.QUIET
    if outcome.mark.code:
        return theme.FAILS if outcome.mark.code.is_pressing else theme.ASKS
    return theme.GOOD if outcome.mark is InspectionOutcome.PASS else theme.PLAIN


def _is_bare(job: Job, outcome: ItemOutcome | None) -> bool:
    """Coded, and no observation carries the code."""
    code = outcome.mark.code if outcome else None
    return bool(outcome and code and all(each.code is not code for each in observations_on(job, outcome.item)))


def _snagged(job: Job, item: ChecklistItem) -> str:
    """What became of the snags raised from an item."""
    snags = [snag for snag in job.snags if snag.about and snag.about.item == item.number]
    return "" if not snags else "! open snag" if any(snag.is_open for snag in snags) else "snag cleared"


def _aside(job: Job, item: ChecklistItem, outcome: ItemOutcome | None) -> str:
    if outcome is None:
        return ""
    if _is_bare(job, outcome):
        return "! not observed"
    if lacks_names(item, outcome):
        return "! none named"
    if outcome.mark.code:
        return "observed"
    return "remark" if outcome.note.strip() else ""


def about_item(job: Job, item: ChecklistItem) -> Iterator[Paragraph]:
    """What an item asks, and what was found."""
    outcome = outcomes_in(job).get(item.number)
    regulations = f" (BS 7671, {item.regulations})" if item.regulations else ""
    yield Paragraph(f"{item.title}{regulations}", label=item.number)
    if outcome is None:
        yield Paragraph("No outcome yet", theme.QUIET)
        return
    yield Paragraph(outcome.mark.code.meaning if outcome.mark.code else MEANS[outcome.mark], label=outcome.mark)
    if _is_bare(job, outcome):
        yield Paragraph("No observation says so yet; Enter writes it", theme.FAILS)
    elif lacks_names(item, outcome):
        yield Paragraph("Name each of them in a remark, which is printed; Enter writes it", theme.FAILS)
    elif written := "; ".join(each.finding for each in observations_on(job, item.number)) or outcome.note:
        yield Paragraph(written)


def where_looked_at(job: Job, item: ChecklistItem) -> str:
    """Where an item was looked at, as far as the record tells: at the one board; "" where nothing tells."""
    return job.boards[0].location if item.section == BOARDS and len(job.boards) == 1 else ""
