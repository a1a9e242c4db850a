"""What is due, as a table of comma-separated values and as a calendar.

The calendar is set by the icalendar library (RFC 5545); every day is a whole-day entry with a reminder a week before.
"""

import csv
import io
from collections.abc import Iterable, Mapping
from datetime import datetime, timedelta

from domain.log.due_list import DueLine
from storage.shapes.schedule_table import BYTE_ORDER_MARK, plain

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
    calendar.add("prodid", "-//Ohmfolio//what is due//EN")
    calendar.add("version", "2.0")
    for line in lines:
        duty = line.owed.duty
        event = Event()
        event.add("uid", f"{line.number}-{duty.id.replace(' ', '-').replace(',', '')}-{line.by.isoformat()}@ohmfolio")
        event.add("dtstamp", at)
        event.add("dtstart", line.by)
        event.add("dtend", line.by + timedelta(days=1))
        event.add("summary", f"{line.number} {line.client or 'no client yet'}: {duty.what}")
        event.add("location", line.premises)
        about = (line.owed.due.counted if line.owed.due else "", duty.source.cited, line.contact)
        event.add("description", "\n".join(filter(None, about)))
        event.add("transp", "TRANSPARENT")
        if not line.is_kept_until:
            alarm = Alarm()
            alarm.add("action", "DISPLAY")
            alarm.add("description", f"{line.number}: {duty.what}")
            alarm.add("trigger", -_REMINDED)
            event.add_component(alarm)
        calendar.add_component(event)
    return calendar.to_ical()
