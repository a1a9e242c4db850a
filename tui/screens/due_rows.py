"""What the list of what is due shows of each line, and says of the one under the cursor."""

from collections.abc import Iterable, Iterator, Mapping
from datetime import date

from domain.dates import written
from domain.log.due_list import DueLine, DueSection, Untold, sections_of
from tui import theme
from tui.keys import key_name
from tui.screens.owed_text import about
from tui.widgets.pick_list import ListCell, ListRow
from tui.widgets.text_page import Paragraph

_SOON, _DONE = 13, 15


def rows_of(
    lines: Mapping[str, DueLine], untold: Iterable[Untold], today: date, *, counts: Mapping[str, int] | None
) -> Iterator[ListRow]:
    """What is late, then month by month, what is only kept, and what needs an answer, each under its heading.

    `counts` says how many there are in all, by their titles; None where all were done, which need no heading.
    """
    keys = {id(line): key for key, line in lines.items()}
    sections = [DueSection("", tuple(lines.values()))] if counts is None else sections_of(lines.values(), today, counts)
    for section in sections:
        if section.title:
            yield _heading(section.title)
        yield from (_row_of(keys[id(line)], line, today) for line in section.lines)
    if asked := tuple(untold):
        yield _heading(f"An answer is needed to tell more ({(counts or {}).get('asked', len(asked)):,})")
    yield from (_untold_row(line) for line in asked)


def _heading(title: str) -> ListRow:
    return ListRow(f"heading {title}", (ListCell(title, theme.HEAD),), heading=True)


def _row_of(row_id: str, line: DueLine, today: date) -> ListRow:
    """The day, how soon, the job, what, for whom and where."""
    sign, says, style = _how_soon(line, today)
    return ListRow(
        row_id,
        (
            ListCell(sign, style, 1),
            ListCell(f"{line.by:%d/%m/%Y}", theme.PLAIN, 10),
            ListCell(says, style, _DONE if line.done else _SOON),
            ListCell(line.number, theme.HEAD, 7),
            ListCell(f"{line.owed.duty.what} {_for_whom(line)}"),
        ),
    )


def _untold_row(line: Untold) -> ListRow:
    """The job, for whom, and what has to be answered."""
    return ListRow(
        line.number,
        (
            ListCell(theme.SIGN_ASKS, theme.ASKS, 1),
            ListCell(line.number, theme.HEAD, 7),
            ListCell(line.client or "no client yet", least=16),
            ListCell(line.ask.words, theme.QUIET),
        ),
    )


def about_line(line: DueLine | Untold) -> Iterator[Paragraph]:
    """Whom to reach and how, then what is due or asked."""
    whom = " · ".join(filter(None, (line.client or "no client yet", line.premises)))
    yield Paragraph(f"{whom} · {line.contact or 'no telephone or e-mail kept'}", theme.HEAD)
    if isinstance(line, Untold):
        yield Paragraph(f"{line.ask.words} W asks it: what the law wants for this job hangs on it.")
        return
    if done := line.done:
        word = f": {done.word}" if done.word else ""
        yield Paragraph(
            f"Done on {written(done.on)}, as {done.who} noted{word}. {key_name('due-met')} takes it back.", theme.GOOD
        )
    yield from about(line.owed)


def _how_soon(line: DueLine, today: date) -> tuple[str, str, theme.Style]:
    if line.done:
        return theme.SIGN_GOOD, f"done {line.done.on:%d/%m/%Y}", theme.GOOD
    left = (line.by - today).days
    says = f"{-left} days late" if left < 0 else "today" if left == 0 else f"in {left} days"
    if left < 0:
        return theme.SIGN_FAILS, says, theme.FAILS
    return (theme.SIGN_SNAG, says, theme.ASKS) if left <= 7 else ("", says, theme.QUIET)


def _for_whom(line: DueLine) -> str:
    return f"({', '.join(filter(None, (line.client or 'no client yet', line.premises)))})"
