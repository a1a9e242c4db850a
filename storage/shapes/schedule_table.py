"""The schedules as one table of comma-separated values: a row a circuit, from the same sheets as the paper."""

import csv
import io

from domain.job.job import Job
from domain.sheets.facts import Facts
from domain.sheets.schedules import schedules_of
from domain.sheets.sheet import ScheduleSheet, SheetColumn, SheetEntry

_STARTS_A_FORMULA = frozenset("=+-@\t\r＝＋－＠")
"""With one of these at its start a spreadsheet takes a cell for a formula; the wide forms count as the narrow ones."""
BYTE_ORDER_MARK = "\ufeff"
"""Without it, spreadsheets on Windows take the text for another encoding."""


def schedule_table(job: Job) -> bytes | None:
    """Every circuit with its board, details and results; None where the papers have no schedules.

    Text in UTF-8 with a byte order mark, lines and quoting by RFC 4180.
    """
    if not job.profile.has_schedules:
        return None
    sheets = schedules_of(Facts(job))
    boards = list(zip(sheets[::2], sheets[1::2], strict=True))
    out = io.StringIO()
    writer = csv.writer(out)
    for at, (details, results) in enumerate(boards):
        if at == 0:
            writer.writerow(map(plain, _heads(details, results)))
        for row in _rows(details, results):
            writer.writerow(map(plain, row))
    return (BYTE_ORDER_MARK + out.getvalue()).encode()


def plain(text: str) -> str:
    """The text so that no spreadsheet takes it for a formula: an apostrophe goes before what could be one."""
    return f"'{text}" if text.lstrip(" \n\u00a0")[:1] in _STARTS_A_FORMULA and text.strip() else text


def _heads(details: ScheduleSheet, results: ScheduleSheet) -> list[str]:
    own = details.columns
    more = [column for column in results.columns if column not in own]
    return ["Board", *(f"Board, {_label(entry)}" for entry in _headers(details, results)), *map(_head, [*own, *more])]


def _rows(details: ScheduleSheet, results: ScheduleSheet) -> list[list[str]]:
    board = [details.subtitle.removeprefix("Board "), *(entry.value for entry in _headers(details, results))]
    kept = [at for at, column in enumerate(results.columns) if column not in details.columns]
    circuits = [
        [*(cell.text for cell in detail), *(result[at].text for at in kept)]
        for detail, result in zip(details.rows, results.rows, strict=True)
    ]
    return [[*board, *circuit] for circuit in circuits]


def _headers(details: ScheduleSheet, results: ScheduleSheet) -> list[SheetEntry]:
    named = {_label(entry): entry for sheet in (details, results) for row in sheet.header for entry in row}
    return list(named.values())


def _label(entry: SheetEntry) -> str:
    return f"{entry.label} ({entry.unit})" if entry.unit else entry.label


def _head(column: SheetColumn) -> str:
    named = f"{column.group}: {column.heading}" if column.group else column.heading
    return f"{named} ({column.unit})" if column.unit else named
