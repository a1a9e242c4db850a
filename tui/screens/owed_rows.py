"""What is owed for one job and by when, in short: the whole of it stands on the list of what is due."""

from collections.abc import Iterator
from typing import NamedTuple

from rich.style import Style

from domain.duties.duty import DutyKind
from domain.duties.of_job import owing_for
from domain.duties.owing import Owed
from domain.job.job import Job
from domain.log.due_list import owing_in
from domain.log.job_log import JobLog, JobLogError
from domain.words import capitalised
from tui import theme
from tui.screens.told_text import WHO_ASKS
from tui.widgets.pick_list import ListCell, ListRow
from tui.widgets.text_page import Paragraph

HEADING = "Owed, and by when"
_DAYS = 10


class OwedLine(NamedTuple):
    """One thing owed: the day, or a word where there is none yet, and what."""

    by: str
    says: str
    style: Style = theme.PLAIN


def owed_lines(log: JobLog, job: Job) -> list[OwedLine]:
    """What has a day, soonest first; what will have one once an event has come; and the question that more hangs on.

    Papers that are only kept come last of each. Nothing where the log cannot tell.
    """
    try:
        owing = owing_in(log, job) if job.number else owing_for(job)
    except JobLogError:
        return []
    to_come = sorted((each for each in owing.owed if each.duty.clock and not each.due), key=_is_kept)
    lines = [
        OwedLine(f"{each.due.by:%d/%m/%Y}", _what(each)) for each in sorted(owing.clocks, key=_is_kept) if each.due
    ]
    lines += [OwedLine("no day yet", f"{_what(each)}: {_time_of(each)}", theme.QUIET) for each in to_come]
    if ask := owing.ask_for_days:
        lines.append(OwedLine("not told", f"More hangs on: {ask.words} {WHO_ASKS}.", theme.ASKS))
    return lines


def owed_rows(log: JobLog, job: Job) -> Iterator[ListRow]:
    """The same as rows under a heading; the cursor passes over them."""
    for at, line in enumerate(owed_lines(log, job)):
        if not at:
            yield ListRow("owed", (ListCell(HEADING, theme.HEAD),), heading=True)
        cells = (ListCell("", width=1), ListCell(line.by, line.style, _DAYS), ListCell(line.says, line.style))
        yield ListRow(f"owed {at}", cells, heading=True)


def owed_paragraphs(log: JobLog, job: Job) -> Iterator[Paragraph]:
    """The same as paragraphs."""
    for at, line in enumerate(owed_lines(log, job)):
        if not at:
            yield Paragraph(HEADING, theme.HEAD)
        yield Paragraph(line.says, line.style, line.by, line.style, _DAYS + 1)


def _time_of(owed: Owed) -> str:
    return owed.duty.clock.says if owed.duty.clock else ""


def _is_kept(owed: Owed) -> bool:
    return owed.duty.kind is DutyKind.KEEP


def _what(owed: Owed) -> str:
    """Its first sentence: the whole of it stands on the list of what is due."""
    duty = owed.duty
    first = duty.what.partition("; ")[0].partition(". ")[0].rstrip(".")
    return first if duty.who == "you" else f"{capitalised(duty.who)}: {first}"
