"""Whether a ledger agrees with what is kept, whatever keeps both."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from domain.log.chain import NO_RECORD, entered
from domain.log.upkeep import Concern, LogFault
from storage.ledger_entries import EDIT, ISSUED, KINDS, NOTE, REGISTER, KeptRow, LedgerLine

_TOLD_MAX = 5


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


def faults_of_rows(kind: str, rows: Iterable[KeptRow], taken_out: Iterable[str], do: str) -> Iterator[LogFault]:
    """Rows of a table that were altered or put in, and what those that were taken out were about.

    `do` is what the person can do about it. Rows are read one by one: all of them together may not fit into memory.
    """
    altered, slipped_in = defaultdict[str, list[str]](list), defaultdict[str, list[str]](list)
    for row in rows:
        if row.held != row.sha:
            (altered if row.held else slipped_in)[row.about].append(_named(kind, row))
    wording = _WORDINGS[kind]
    for says, found in ((wording.altered, altered), (wording.slipped_in, slipped_in)):
        for about, which in found.items():
            yield _fault(kind, about, says.format(about=about, rows=_told(which)), do)
    for about in taken_out:
        yield _fault(kind, about, wording.taken_out.format(about=about), do)


def faults_of_lines(
    lines: Iterable[LedgerLine], heads: Mapping[str, bytes], before: Iterable[bytes], do: str
) -> Iterator[LogFault]:
    """A ledger that does not hold together, and records that name a head it never had.

    `heads` are those that issued records say the log had before them; `before` is what they may name besides, for papers
    issued before there was a ledger print the chain over the records.
    """
    wanted = frozenset(heads.values())
    chain, expected, told = NO_RECORD, 1, False
    known = {NO_RECORD, *before}
    for line in lines:
        if line.kind not in KINDS:
            says = f"The ledger of the log has a line {line.seq} of a kind that this program never keeps."
            yield LogFault(about=Concern.LEDGER, says=says, do=do)
        if (line.seq != expected or entered(chain, line.sha) != line.chain) and not told:
            # Whatever follows hangs on it.
            told = True
            says = f"The ledger of the log does not hold together from its line {line.seq} on ({line.about})."
            yield LogFault(about=Concern.LEDGER, says=says, do=do)
        chain, expected = line.chain, line.seq + 1
        if line.kind == ISSUED and (head := heads.get(line.about)) and head not in known:
            says = f"{line.about} says it was issued after a head of the log that this log never had."
            yield LogFault(about=Concern.RECORDS, says=says, do=do, jobs=(line.about,))
        if line.chain in wanted:
            known.add(line.chain)


def _named(kind: str, row: KeptRow) -> str:
    return str(row.values[1]) if kind in {EDIT, REGISTER} else ""


def _fault(kind: str, about: str, says: str, do: str) -> LogFault:
    jobs = (about,) if kind in {EDIT, ISSUED} else ()
    return LogFault(about=_WORDINGS[kind].about, says=says, do=do, jobs=jobs)


def _told(rows: list[str]) -> str:
    more = f" and {len(rows) - _TOLD_MAX} more" if len(rows) > _TOLD_MAX else ""
    return f"{', '.join(rows[:_TOLD_MAX])}{more}"
