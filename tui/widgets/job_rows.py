"""Jobs of the log as rows of a list."""

from datetime import date

from domain.civil_time import civil_day
from domain.log.job_log import JobLine, State
from tui import theme
from tui.widgets.pick_list import ListCell, ListRow

_CLIENT, _STANDING = 14, 14


def row_for(line: JobLine, day: date | None = None, where: str = "") -> ListRow:
    """Number, papers, the day that matters, client, place, and how it stands; `day` is what another list goes by.

    `where` says who has it, where that is not whoever looks.
    """
    says, style = _state_in_words(line)
    return ListRow(
        line.number,
        (
            ListCell(line.number, theme.HEAD, 7),
            ListCell(line.form_set, theme.PLAIN, 5),
            ListCell(f"{day or day_of(line):%d/%m/%Y}", theme.PLAIN if day or line.day else theme.QUIET, 10),
            ListCell(line.client or "no client yet", theme.PLAIN if line.client else theme.QUIET, least=_CLIENT),
            ListCell(line.premises or "no address yet", theme.PLAIN if line.premises else theme.QUIET),
            ListCell(f"{says}, {where}" if where else says, style, least=_STANDING),
        ),
    )


def day_of(line: JobLine) -> date:
    """The day of the inspection or the work; while that is not typed, the day it was touched last."""
    return line.day or civil_day(line.updated)


def _state_in_words(line: JobLine) -> tuple[str, theme.Style]:
    if not line.vouched:
        return f"{theme.SIGN_FAILS} never issued here", theme.FAILS
    if line.laid_aside:
        return "laid aside", theme.QUIET
    if line.open_snags and line.state not in {State.ISSUED, State.REPLACED}:
        return f"{theme.SIGN_SNAG} {line.open_snags} open snag{'s' if line.open_snags > 1 else ''}", theme.FAILS
    if line.put_right and line.state is State.ISSUED:
        return f"{theme.SIGN_GOOD} issued, put right", theme.GOOD
    if line.state is State.ISSUED and line.form_set.profile.states_a_condition and line.outcome:
        return f"{line.state}, {line.outcome}", theme.PLAIN
    if line.state is State.READY:
        return f"{theme.SIGN_GOOD} ready", theme.GOOD
    return line.state, theme.QUIET if line.state is State.REPLACED else theme.PLAIN
