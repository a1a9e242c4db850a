"""What is due, as a table of comma-separated values and as a calendar.

The calendar is set by the icalendar library (RFC 5545); every day is a whole-day entry with a reminder a week before.
"""

import csv
import io
from collections.abc import Iterable, Mapping
from datetime import date, datetime, timedelta
from typing import TYPE_CHECKING

from domain.log.due_list import DueLine
from storage.shapes.schedule_table import BYTE_ORDER_MARK, plain

if TYPE_CHECKING:
    from icalendar import Component

_HEADS = (
    "By",
    "Days left",
    "Number",
    "Papers",
    "Client",
    "Premises",
    "Telephone or e-mail",
    "Who",
    "What",
    "Counted",
    "Rule",
)
_REMINDED = timedelta(days=7)


def due_files(lines: Iterable[DueLine], at: datetime) -> Mapping[str, bytes]:
    """Both, by the endings of their names."""
    kept = tuple(lines)
    return {"csv": due_table(kept, at), "ics": due_calendar(kept, at)}


def due_table(lines: Iterable[DueLine], at: datetime) -> bytes:
    """One row a thing due. Text in UTF-8 with a byte order mark, days as ISO 8601, lines and quoting by RFC 4180."""
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(_HEADS)
    for line in lines:
        duty, due = line.owed.duty, line.owed.due
        left = str((line.by - at.date()).days)
        told = (line.number, line.form_set.value, line.client, line.premises, line.contact, duty.who, duty.what)
        counted = due.counted if due else ""
        writer.writerow([line.by.isoformat(), left, *map(plain, told), plain(counted), plain(duty.source.cited)])
    return (BYTE_ORDER_MARK + out.getvalue()).encode()


def due_calendar(lines: Iterable[DueLine], at: datetime) -> bytes:
    """One whole-day entry a thing due. Taken in again, an entry takes the place of itself."""
    from icalendar import Alarm, Calendar, Event

    calendar = Calendar()
    _put(calendar, prodid="-//Ohmfolio//what is due//EN", version="2.0")
    for line in lines:
        duty = line.owed.duty
        event, said = Event(), (line.owed.due.counted if line.owed.due else "", duty.source.cited, line.contact)
        _put(
            event,
            uid=f"{line.number}-{duty.id.replace(' ', '-').replace(',', '')}-{line.by.isoformat()}@ohmfolio",
            dtstamp=at,
            dtstart=line.by,
            dtend=line.by + timedelta(days=1),
            summary=f"{line.number} {line.client or 'no client yet'}: {duty.what}",
            location=line.premises,
            description="\n".join(filter(None, said)),
            transp="TRANSPARENT",
        )
        if not line.is_kept_until:
            alarm = Alarm()
            _put(alarm, action="DISPLAY", description=f"{line.number}: {duty.what}", trigger=-_REMINDED)
            event.add_component(alarm)
        calendar.add_component(event)
    return calendar.to_ical()


def _put(component: "Component", **values: str | date | timedelta) -> None:
    """Give an entry its properties."""
    for name, value in values.items():
        component.add(name, value)  # pyright: ignore[reportUnknownMemberType] - the library leaves values untyped
