"""Whether all that is kept for good is still what the ledger says was kept."""

import re
from collections.abc import Iterator

from domain.log.upkeep import LogFault
from storage.ledger import lines_of, rows_of
from storage.ledger_entries import EDIT, KEYS, KINDS
from storage.ledger_faults import faults_of_lines, faults_of_rows
from storage.log_file import LogFile
from storage.upkeep.edits_seen import EditsSeen
from storage.upkeep.whole_file import GO_BACK

_HEAD = re.compile("[0-9a-f]{64}")


def faults_of_ledger(file: LogFile, seen: EditsSeen) -> Iterator[LogFault]:
    """Rows that were altered, put in or taken out, a ledger that does not hold together, and heads it never had.

    `seen` is told of every edit on the way.
    """
    for kind in KINDS:
        rows = seen.all_of(rows_of(file, kind)) if kind == EDIT else rows_of(file, kind)
        yield from faults_of_rows(kind, rows, _taken_out(file, kind, seen), GO_BACK)
    before = (chain for (chain,) in file.run("SELECT chain FROM issued"))
    yield from faults_of_lines(lines_of(file), _heads_named(file), before, GO_BACK)


def _taken_out(file: LogFile, kind: str, seen: EditsSeen) -> Iterator[str]:
    if kind == EDIT:
        yield from seen.taken_out(lines_of(file))
        return
    for (about,) in file.run(
        f"SELECT DISTINCT about FROM ledger WHERE kind = '{kind}' AND row NOT IN (SELECT {KEYS[kind]} FROM {kind})"
    ):
        yield about


def _heads_named(file: LogFile) -> dict[str, bytes]:
    """The head that each issued record says the log had before it; one issued with a laptop names that of its own log."""
    rows = file.run(
        "SELECT number, json_extract(CAST(body AS TEXT), '$.issued.head') FROM issued WHERE json_valid(CAST(body AS TEXT))"
        " AND number NOT IN (SELECT job FROM operation WHERE act = 'issue'"
        " AND device NOT IN (SELECT id FROM device WHERE is_here = 1))"
    )
    return {number: bytes.fromhex(head) if _HEAD.fullmatch(head) else head.encode() for number, head in rows if head}
