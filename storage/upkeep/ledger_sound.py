"""Whether all that is kept for good is still what the ledger says was kept."""

import re
from collections import defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from domain.log.chain import NO_RECORD, entered
from domain.log.upkeep import Concern, LogFault
from storage.ledger import EDIT, ISSUED, KINDS, NOTE, REGISTER, KeptRow, lines_of, rows_of
from storage.log_file import LogFile
from storage.upkeep.whole_file import GO_BACK

_TOLD_MAX = 5
_HEAD = re.compile("[0-9a-f]{64}")
_KEYS = {EDIT: "seq", ISSUED: "seq", REGISTER: "seq", NOTE: "id"}


class _Wording(NamedTuple):
    """What is said of rows of a table, by what became of them."""

    about: Concern
    altered: str
    slipped_in: str
    taken_out: str


_WORDINGS = {
    EDIT: _Wording(
        Concern.TRAIL,
        "The trail of {about} is not as it was kept: edit {rows}.",
        "Another program put edit {rows} into the trail of {about}.",
        "Edits were taken out of the trail of {about}.",
    ),
    ISSUED: _Wording(
        Concern.RECORDS,
        "The record of {about} is not as it was issued.",
        "{about} stands among the issued records, and this program never issued it: another program put it there.",
        "The issued record of {about} was taken out.",
    ),
    REGISTER: _Wording(
        Concern.REGISTERS,
        "The registers are not as they were kept: {about}, version {rows}.",
        "Another program put version {rows} of {about} into the registers.",
        "Versions of {about} were taken out of the registers.",
    ),
    NOTE: _Wording(
        Concern.NOTES,
        "Notes under {about!r} are not as they were kept.",
        "Another program put notes under {about!r}.",
        "Notes under {about!r} were taken out.",
    ),
}


def faults_of_ledger(file: LogFile) -> Iterator[LogFault]:
    """Rows that were altered, put in or taken out, a ledger that does not hold together, and heads it never had."""
    for kind in KINDS:
        yield from _faults_of_rows(file, kind)
    yield from _faults_of_lines(file)


def _faults_of_rows(file: LogFile, kind: str) -> Iterator[LogFault]:
    altered, slipped_in = defaultdict[str, list[str]](list), defaultdict[str, list[str]](list)
    for row in rows_of(file, kind):
        if row.held != row.sha:
            (altered if row.held else slipped_in)[row.about].append(_named(kind, row))
    wording = _WORDINGS[kind]
    for says, found in ((wording.altered, altered), (wording.slipped_in, slipped_in)):
        for about, rows in found.items():
            yield _fault(kind, about, says.format(about=about, rows=_told(rows)))
    for (about,) in file.run(
        f"SELECT DISTINCT about FROM ledger WHERE kind = '{kind}' AND row NOT IN (SELECT {_KEYS[kind]} FROM {kind})"
    ):
        yield _fault(kind, about, wording.taken_out.format(about=about))


def _faults_of_lines(file: LogFile) -> Iterator[LogFault]:
    heads = _heads_named(file)
    wanted = frozenset(heads.values())
    chain, expected, told = NO_RECORD, 1, False
    known = {NO_RECORD, *(chain for (chain,) in file.run("SELECT chain FROM issued"))}
    for line in lines_of(file):
        if (line.seq != expected or entered(chain, line.sha) != line.chain) and not told:
            # Whatever follows hangs on it.
            told = True
            says = f"The ledger of the log does not hold together from its line {line.seq} on ({line.about})."
            yield LogFault(about=Concern.LEDGER, says=says, do=GO_BACK)
        chain, expected = line.chain, line.seq + 1
        if line.kind == ISSUED and (head := heads.get(line.about)) and head not in known:
            says = f"{line.about} says it was issued after a head of the log that this log never had."
            yield LogFault(about=Concern.RECORDS, says=says, do=GO_BACK, jobs=(line.about,))
        if line.chain in wanted:
            known.add(line.chain)


def _heads_named(file: LogFile) -> dict[str, bytes]:
    """The head that each issued record says the log had before it."""
    rows = file.run(
        "SELECT number, json_extract(CAST(body AS TEXT), '$.issued.head') FROM issued WHERE json_valid(CAST(body AS TEXT))"
    )
    return {number: bytes.fromhex(head) if _HEAD.fullmatch(head) else head.encode() for number, head in rows if head}


def _named(kind: str, row: KeptRow) -> str:
    return str(row.values[1]) if kind in {EDIT, REGISTER} else ""


def _fault(kind: str, about: str, says: str) -> LogFault:
    jobs = (about,) if kind in {EDIT, ISSUED} else ()
    return LogFault(about=_WORDINGS[kind].about, says=says, do=GO_BACK, jobs=jobs)


def _told(rows: list[str]) -> str:
    more = f" and {len(rows) - _TOLD_MAX} more" if len(rows) > _TOLD_MAX else ""
    return f"{', '.join(rows[:_TOLD_MAX])}{more}"
