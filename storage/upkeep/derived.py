"""Whether what the log keeps to find things by is what follows from what it keeps for good."""

import json
from collections.abc import Iterator
from itertools import groupby
from operator import itemgetter

from domain.log.upkeep import Concern, LogFault, Unproven
from domain.register.entries import identity_of, title_of, words_in
from domain.words import counted, folded
from storage.log_file import LogFile
from storage.register_rows import entry_in
from storage.registers import find_by
from storage.trails import folded_trails
from storage.upkeep.edits_seen import EditsSeen
from storage.upkeep.job_history import REBUILD, told
from storage.upkeep.ledger_sound import faults_of_ledger
from storage.upkeep.whole_file import GO_BACK

_HANDS = "SELECT number, who, hand.updated = job.updated FROM job LEFT JOIN hand ON hand.job_id = job.id ORDER BY job.id, who"
_NEWEST = """
SELECT register.seq, register.entry, register.kind, register.retired, register.body,
    register_now.seq, register_now.kind, register_now.retired, register_now.title, register_now.identity
FROM register LEFT JOIN register_now ON register_now.entry = register.entry
WHERE register.version = (SELECT max(version) FROM register AS other WHERE other.entry = register.entry)
ORDER BY register.entry
"""


def faults_of_what_was_kept(file: LogFile) -> Iterator[LogFault | Unproven]:
    """The ledger, and what follows from the edits, each of which is read once for it."""
    seen = EditsSeen()
    yield from faults_of_ledger(file, seen)
    yield from faults_of_devices(file, seen)
    yield from machines_of_nothing(file, seen)
    yield from faults_of_beginnings(file, seen)
    yield from faults_of_hands(file, seen)


def faults_of_hands(file: LogFile, seen: EditsSeen) -> Iterator[LogFault]:
    """Whom the list of a person's own jobs shows jobs of, against the edits that were seen."""
    wrong = list[str]()
    for number, rows in groupby(file.run(_HANDS), key=itemgetter(0)):
        hands = {who: as_job for _, who, as_job in rows if who is not None}
        if hands.keys() != seen.hands.get(number, set()) or not all(hands.values()):
            wrong.append(number)
    if wrong:
        says = f"Who had a hand in {told(wrong)} is not what their trails say."
        yield LogFault(about=Concern.LINES, says=says, do=REBUILD)


def faults_of_registers(file: LogFile) -> Iterator[LogFault]:
    """Register entries as they are now, against the versions that were kept of them."""
    wrong: list[str] = []
    for seq, entry, kind, retired, body, *now in file.run(_NEWEST):
        kept = entry_in(entry, body)
        words = {*file.run("SELECT kind, word FROM register_word WHERE entry = ?", (entry,))}
        expected = [seq, kind, retired, folded(title_of(kept)), identity_of(kept)]
        if now != expected or words != {(kind, word) for word in words_in(kept)}:
            wrong.append(f"entry {entry}")
    strangers = file.run("SELECT entry FROM register_now WHERE entry NOT IN (SELECT entry FROM register)")
    wrong += [f"entry {entry}" for (entry,) in strangers]
    if wrong:
        says = f"The registers do not show what was kept in them last: {told(wrong)}."
        yield LogFault(about=Concern.REGISTERS, says=says, do=REBUILD)


def faults_of_devices(file: LogFile, seen: EditsSeen) -> Iterator[LogFault]:
    """Counters that would give a number or the name of an edit twice, and numbers that no machine of this log gives."""
    # With an office and laptops, jobs numbered elsewhere come in; only what is given here could be given twice.
    given_here = (
        "SELECT id, prefix, next_number, next_op FROM device WHERE is_here = 1 OR NOT EXISTS (SELECT 1 FROM station)"
    )
    for device, prefix, following, next_op in file.run(given_here):
        first = len(prefix) + 2
        ((given,),) = file.run(
            "SELECT coalesce(max(CAST(substr(number, ?) AS INTEGER)), 0) FROM job WHERE substr(number, 1, ?) = ?",
            (first, first - 1, f"{prefix}-"),
        )
        if given >= following or seen.counters.get(device, 0) >= next_op:
            says = f"The log would give a number or a name twice: it is at {prefix}-{given:04d} and counts on from {prefix}-{following:04d}."
            yield LogFault(about=Concern.RECORDS, says=says, do=GO_BACK)
    # Each edit counts one on where it was kept; a log that was moved counts on from what its edits are named by, which is less.
    if file.first("SELECT 1 WHERE (SELECT sum(next_op - 1) FROM device) > ?", (seen.count,)):
        says = f"The log holds {counted(seen.count, 'edit')}, and its counter of edits stands beyond them."
        yield LogFault(about=Concern.RECORDS, says=says, do=GO_BACK)
    astray = file.run(
        "SELECT number FROM job WHERE substr(number, 1, instr(number, '-') - 1) NOT IN"
        " (SELECT prefix FROM device UNION SELECT name FROM station)"
    )
    if astray:
        says = f"{told([number for (number,) in astray])}: no machine of this log gives such numbers."
        yield LogFault(about=Concern.RECORDS, says=says, do=GO_BACK)


def faults_of_beginnings(file: LogFile, seen: EditsSeen) -> Iterator[LogFault]:
    """Folded trails that are found by another name than that of their first edit: the same asked again would begin a job twice."""
    folded_as = file.run("SELECT number, begun_as FROM folded_trail JOIN job ON job.id = job_id ORDER BY job_id")
    wrong = [number for number, begun_as in folded_as if seen.begun.get(number, begun_as) != begun_as]
    if wrong:
        says = f"The trail of {told(wrong)} is kept under another name than it began with."
        yield LogFault(about=Concern.TRAIL, says=says, do=GO_BACK, jobs=tuple(wrong))


def machines_of_nothing(file: LogFile, seen: EditsSeen) -> Iterator[Unproven]:
    """Machines that are not this one, and that gave neither a number nor the name of an edit: going back to a copy twice leaves one."""
    for device, prefix in file.run(
        "SELECT id, prefix FROM device WHERE is_here = 0 AND id NOT IN (SELECT device FROM station)"
        " AND NOT EXISTS (SELECT 1 FROM job WHERE substr(number, 1, length(prefix) + 1) = prefix || '-') ORDER BY prefix"
    ):
        if not seen.counters.get(device):
            yield Unproven(
                says=f"a machine that numbers with {prefix} is named in the log, and nothing was numbered or kept by it: a copy "
                "gone back to and not used leaves such a one, and so might another program."
            )


def write_registers_anew(file: LogFile) -> None:
    """What register entries are found by, from the versions that were kept. Call it inside a write."""
    file.run("DELETE FROM register_word")
    file.run("DELETE FROM register_now")
    for seq, entry, _, retired, body, *_ in file.run(_NEWEST):
        find_by(file, entry_in(entry, body), {"entry": entry, "seq": seq, "kind": None, "retired": retired})


def write_hands_anew(file: LogFile) -> None:
    """Who had a hand in which job, from the trails. Call it inside a write."""
    file.run("DELETE FROM hand")
    file.run(
        "INSERT INTO hand (job_id, who, updated)"
        " SELECT DISTINCT edit.job_id, edit.who, job.updated FROM edit JOIN job ON job.id = edit.job_id"
    )
    for job_id, _, _, edits in folded_trails(file):
        file.run(
            "INSERT OR IGNORE INTO hand (job_id, who, updated)"
            " SELECT job.id, value, job.updated FROM json_each(?2), job WHERE job.id = ?1",
            (job_id, json.dumps(sorted({each.who for each in edits or ()}))),
        )
