"""What the registers list of an entry, and say of the one under the cursor."""

from collections.abc import Iterator
from datetime import date

from domain.civil_time import civil_day
from domain.dates import date_in, written
from domain.register.entries import Instrument, Kept, Person, RegisterEntry
from domain.register.filling import about
from domain.register.signing import signs_shown
from tui import theme
from tui.keys import key_name
from tui.screens.register_forms import typed_of
from tui.widgets.pick_list import ListCell, ListRow
from tui.widgets.text_page import Paragraph


def row_of(kept: Kept, today: date) -> ListRow:
    """An entry as one row; an instrument past its day has a cross."""
    entry = kept.entry
    sign, style = "", theme.PLAIN
    if isinstance(entry, Instrument) and (due := date_in(entry.due)) is not None and due < today:
        sign, style = theme.SIGN_FAILS, theme.FAILS
    more = _in_short(entry)
    return ListRow(
        kept.id,
        (ListCell(sign, style, 1), ListCell(about(entry)), *((ListCell(more, theme.QUIET, 28),) if more else ())),
    )


def _in_short(entry: RegisterEntry) -> str:
    return (signs_shown(entry.signs) or "in training") if isinstance(entry, Person) else ""


def told(kept: Kept, today: date) -> Iterator[Paragraph]:
    """An entry in full."""
    entry = kept.entry
    yield Paragraph(about(entry), theme.HEAD)
    if isinstance(entry, Person):
        yield Paragraph(signs_shown(entry.signs) or "nothing: in training", label="May sign:")
    elif isinstance(entry, Instrument):
        yield from _told_of_instrument(entry, today)
    else:
        parts = (typed for name, typed in typed_of(entry).items() if name not in {"name", "address", "postcode"})
        yield Paragraph("  ".join(filter(None, parts)))
    yield Paragraph(f"Version {kept.version}, by {kept.who} on {written(civil_day(kept.at))}", theme.QUIET)


def _told_of_instrument(instrument: Instrument, today: date) -> Iterator[Paragraph]:
    due = date_in(instrument.due)
    if due is not None and due < today:
        yield Paragraph(f"Calibration was due on {written(due)}", theme.FAILS, theme.SIGN_FAILS, theme.FAILS)
    if not instrument.checks:
        yield Paragraph(f"No cross-check kept yet; {key_name('register-check')} notes one", theme.QUIET)
    for check in reversed(instrument.checks[-3:]):
        yield Paragraph(f"read {check.read} where {check.known} was known ({check.by})", label=f"{check.on:%d/%m/%Y}")
