"""Jobs of the log as rows of a list."""

from domain.log.job_log import JobLine, State
from tui import theme
from tui.widgets.pick_list import ListCell, ListRow


def row_for(line: JobLine) -> ListRow:
    """Number, papers, client, place, and how it stands."""
    says, style = _standing(line)
    return ListRow(
        line.number,
        (
            ListCell(line.number, theme.HEAD, 8),
            ListCell(line.form_set, theme.PLAIN, 5),
            ListCell(line.client or "no client yet", theme.PLAIN if line.client else theme.QUIET, 18),
            ListCell(line.premises or "no address yet", theme.PLAIN if line.premises else theme.QUIET),
            ListCell(says, style, 22),
        ),
    )


def _standing(line: JobLine) -> tuple[str, theme.Style]:
    if not line.vouched:
        return f"{theme.SIGN_FAILS} never issued here", theme.FAILS
    if line.open_snags and line.state not in {State.ISSUED, State.REPLACED}:
        return f"{theme.SIGN_SNAG} {line.open_snags} open snag{'s' if line.open_snags > 1 else ''}", theme.FAILS
    if line.put_right and line.state is State.ISSUED:
        return f"{theme.SIGN_GOOD} issued, put right", theme.GOOD
    if line.state is State.ISSUED and line.form_set.profile.states_a_condition and line.outcome:
        return f"{line.state}, {line.outcome}", theme.PLAIN
    if line.state is State.READY:
        return f"{theme.SIGN_GOOD} ready to issue", theme.GOOD
    return line.state, theme.QUIET if line.state is State.REPLACED else theme.PLAIN
