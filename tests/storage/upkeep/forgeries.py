"""What somebody with a general tool, patience and all our source does to a log: each with what tells it."""

import json
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import NamedTuple

from domain.log.chain import NO_RECORD, entered, entry_hash, leaf, link
from storage.driver import Connection, sqlite3
from storage.log_file import FILE_NAME
from storage.rows import checksum

Act = Callable[[Connection, Path], None]


class Forgery(NamedTuple):
    """What was done, and what must be said of it."""

    what: str
    done: Act | str
    told: str
    """A pattern that one of the sentences holds."""
    together: str = ""
    """Those of one word may be done to one log, since each is told in words of its own."""


def forge(home: Path, forgery: Forgery) -> None:
    """Do it with the guards taken away, and put those back after, with the number by which SQLite counts such changes."""
    with closing(sqlite3.connect(home / FILE_NAME, isolation_level=None)) as log:
        ((counted,),) = log.execute("PRAGMA schema_version").fetchall()
        guards = log.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
        words = {"job_text_insert", "job_text_delete", "job_text_update"}
        for name, _ in guards:
            if name not in words:
                log.execute(f"DROP TRIGGER {name}")
        if isinstance(forgery.done, str):
            log.executescript(forgery.done)
        else:
            forgery.done(log, home)
        for name, made in guards:
            if name not in words:
                log.execute(made)
        if "layout" not in forgery.what:
            log.execute(f"PRAGMA schema_version = {counted}")


def _rebuilt(log: Connection) -> None:
    """The chain over the records made anew, so that it holds together."""
    chain = NO_RECORD
    for seq, body, pdf_sha in log.execute("SELECT seq, body, pdf_sha FROM issued ORDER BY seq").fetchall():
        chain = link(chain, leaf(body), pdf_sha)
        log.execute("UPDATE issued SET sha = ?, chain = ? WHERE seq = ?", (leaf(body), chain, seq))


def _ledger_rebuilt(log: Connection) -> None:
    """The ledger made anew over what stands there now, by the program's own hand."""
    from storage.ledger import begin
    from storage.log_file import LogFile

    log.execute("DELETE FROM ledger")
    begin(LogFile(Path(), log))


def _record_changed(log: Connection, number: str, **fields: object) -> None:
    ((body,),) = log.execute("SELECT body FROM issued WHERE number = ?", (number,)).fetchall()
    record = json.loads(body)
    for name, value in fields.items():
        held = record
        *way, last = name.split("__")
        for step in way:
            held = held[step]
        held[last] = value
    body = json.dumps(record, ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode()
    log.execute("UPDATE issued SET body = ? WHERE number = ?", (body, number))
    _rebuilt(log)


def _client_of_record(log: Connection, home: Path) -> None:
    _record_changed(log, "A-0002", client__name="Somebody Else")
    log.execute("UPDATE job SET client = 'Somebody Else' WHERE number = 'A-0002'")


def _record_and_ledger(log: Connection, home: Path) -> None:
    _client_of_record(log, home)
    _ledger_rebuilt(log)


def _snag_gone(log: Connection, home: Path) -> None:
    _record_changed(log, "A-0001", signatures=[])


def _stamp(log: Connection, home: Path) -> None:
    _record_changed(log, "A-0001", issued__by="Nobody")
    log.execute("UPDATE issued SET issued_by = 'Nobody' WHERE number = 'A-0001'")


def _head(log: Connection, home: Path) -> None:
    _record_changed(log, "A-0003", issued__head="ab" * 32)
    _ledger_rebuilt(log)


def _slipped_in(log: Connection, home: Path) -> None:
    """A draft made an issued paper without the gate: record, chain, line, state, trail and paper."""
    ((job_id, body),) = log.execute(
        "SELECT job_id, body FROM draft JOIN job ON job.id = job_id WHERE number = 'A-0004'"
    ).fetchall()
    record = json.loads(body)
    record["issued"] = {"at": "2026-03-02T11:00:00Z", "by": "Nobody", "head": ""}
    body = json.dumps(record, ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode()
    pdf = b"%PDF-1.7 A-0004"
    (home / "issued" / "A-0004.pdf").write_bytes(pdf)
    log.execute(
        "INSERT INTO issued (job_id, number, body, sha, chain, pdf_sha, pages, issued_by, issued_at)"
        " VALUES (?, 'A-0004', ?, x'00', x'00', ?, 3, 'Nobody', 1772449200000000)",
        (job_id, body, __import__("hashlib").sha256(pdf).digest()),
    )
    _rebuilt(log)
    log.execute("DELETE FROM draft WHERE job_id = ?", (job_id,))
    log.execute("UPDATE job SET state = 'issued', version = version + 1 WHERE id = ?", (job_id,))
    log.execute(
        "INSERT INTO edit (op, job_id, version, at, who, what) SELECT 'x:1', id, version, 1772449200000000, 'Nobody',"
        " 'Issued' FROM job WHERE id = ?",
        (job_id,),
    )


def _slipped_in_and_entered(log: Connection, home: Path) -> None:
    """The same, with a line of the ledger for it: only the witness beside the log and its trail are left to tell."""
    _slipped_in(log, home)
    _ledger_rebuilt(log)


def _tail_off(log: Connection, home: Path) -> None:
    """The newest paper taken out with all that the log knows of it, and its number given anew."""
    ((job_id,),) = log.execute("SELECT id FROM job WHERE number = 'A-0005'").fetchall()
    log.execute("DELETE FROM ledger WHERE kind = 'edit' AND row IN (SELECT seq FROM edit WHERE job_id = ?)", (job_id,))
    for table in ("hand", "edit", "draft", "left_off"):
        log.execute(f"DELETE FROM {table} WHERE job_id = ?", (job_id,))
    log.execute("DELETE FROM job_text WHERE id = ?", (job_id,))
    log.execute("DELETE FROM job WHERE id = ?", (job_id,))
    log.execute("UPDATE device SET next_number = 5")


def _issue_off(log: Connection, home: Path) -> None:
    log.execute("DELETE FROM ledger WHERE seq >= (SELECT seq FROM ledger WHERE kind = 'issued' AND about = 'A-0003')")
    log.execute("DELETE FROM issued WHERE number = 'A-0003'")
    (home / "issued" / "A-0003.pdf").unlink()


def _draft(log: Connection, home: Path) -> None:
    ((job_id, body),) = log.execute(
        "SELECT job_id, body FROM draft JOIN job ON job.id = job_id WHERE number = 'A-0005'"
    ).fetchall()
    body = body.replace("the 39th", "the 40th")
    log.execute("UPDATE draft SET body = ?, crc = ? WHERE job_id = ?", (body, checksum(body), job_id))


def _draft_of_another(log: Connection, home: Path) -> None:
    ((body,),) = log.execute("SELECT body FROM draft JOIN job ON job.id = job_id WHERE number = 'A-0004'").fetchall()
    log.execute(
        "UPDATE draft SET body = ?, crc = ? WHERE job_id = (SELECT id FROM job WHERE number = 'A-0005')",
        (body, checksum(body)),
    )


def _draft_and_trail(log: Connection, home: Path) -> None:
    _draft(log, home)
    log.execute("UPDATE edit SET command = replace(command, 'the 39th', 'the 40th') WHERE command LIKE '%the 39th%'")


def _edit_put_in(log: Connection, home: Path) -> None:
    log.execute(
        "INSERT INTO edit (op, job_id, version, at, who, what) SELECT 'x:1', id, version + 1, updated, 'nobody',"
        " 'Client name: nothing changed' FROM job WHERE number = 'A-0005'"
    )
    log.execute("UPDATE job SET version = version + 1 WHERE number = 'A-0005'")
    log.execute("INSERT INTO hand SELECT id, 'nobody', updated FROM job WHERE number = 'A-0005'")


def _edit_and_ledger(log: Connection, home: Path) -> None:
    """An edit of another hand, and every line of the ledger made anew from there on."""
    log.execute("UPDATE edit SET who = 'rufus' WHERE job_id = 5 AND version = 7")
    _ledger_rebuilt(log)


def _line_of_ledger(log: Connection, home: Path) -> None:
    ((seq, chain),) = log.execute("SELECT seq, chain FROM ledger ORDER BY seq DESC LIMIT 1").fetchall()
    sha = entry_hash(b"made up")
    log.execute("INSERT INTO ledger VALUES (?, 'edit', 9999, 'A-0005', ?, ?)", (seq + 1, sha, entered(chain, sha)))


def _paper_swapped(log: Connection, home: Path) -> None:
    one, other = (home / "issued" / f"A-000{count}.pdf" for count in (1, 3))
    held = one.read_bytes()
    one.write_bytes(other.read_bytes())
    other.write_bytes(held)


def _paper_and_its_hash(log: Connection, home: Path) -> None:
    import hashlib

    pdf = b"%PDF-1.7 another altogether"
    (home / "issued" / "A-0001.pdf").write_bytes(pdf)
    log.execute("UPDATE issued SET pdf_sha = ? WHERE number = 'A-0001'", (hashlib.sha256(pdf).digest(),))
    _rebuilt(log)


def _numbers_swapped(log: Connection, home: Path) -> None:
    for old, new in (("A-0004", "A-9999"), ("A-0005", "A-0004"), ("A-9999", "A-0005")):
        log.execute("UPDATE job SET number = ? WHERE number = ?", (new, old))


FORGERIES = (
    Forgery(
        "an issued record changed with its line, and the chain made anew",
        _client_of_record,
        "record of A-0002 is not as it was issued",
    ),
    Forgery("the same, and the ledger made anew", _record_and_ledger, "rewritten by another program"),
    Forgery(
        "a record changed alone",
        "UPDATE issued SET body = CAST(replace(CAST(body AS TEXT), '0.49', '0.31') AS BLOB) WHERE number = 'A-0001'",
        "record of A-0001 is not as it was issued",
    ),
    Forgery("the signatures taken off a record", _snag_gone, "A-0001"),
    Forgery("another named as who issued it", _stamp, "record of A-0001"),
    Forgery(
        "issued on another day",
        "UPDATE issued SET issued_at = issued_at - 86400000000 WHERE number = 'A-0002'",
        "record of A-0002",
    ),
    Forgery(
        "more pages than there were",
        "UPDATE issued SET pages = 9 WHERE number = 'A-0001'",
        "record of A-0001 is not as it was issued",
    ),
    Forgery("a head that the log never had", _head, "A-0003 says it was issued after a head"),
    Forgery(
        "a record said to replace another",
        "UPDATE issued SET replaces = 'A-0001' WHERE number = 'A-0003'",
        "record of A-0003",
    ),
    Forgery(
        "a draft made an issued paper",
        _slipped_in,
        "A-0004 stands among the issued records, and this program never issued it",
    ),
    Forgery("the same, entered into the ledger", _slipped_in_and_entered, "rewritten by another program"),
    Forgery("a record deleted", "DELETE FROM issued WHERE number = 'A-0002'", "record of A-0002 was taken out"),
    Forgery("the last record deleted with the end of the ledger", _issue_off, "missing from the job log"),
    Forgery("the newest job taken out with all its traces", _tail_off, "missing from the job log"),
    Forgery(
        "the chain of a record cut",
        "UPDATE issued SET chain = zeroblob(32) WHERE number = 'A-0002'",
        "chain over issued records is broken at A-0002",
    ),
    Forgery("records renumbered", "UPDATE issued SET seq = seq + 10 WHERE number = 'A-0003'", "A-0003"),
    Forgery(
        "an edit deleted",
        "DELETE FROM edit WHERE job_id = 5 AND version = 7",
        "Edits were taken out of the trail of A-0005",
    ),
    Forgery("an edit put in", _edit_put_in, "put edit 42 into the trail of A-0005"),
    Forgery(
        "the author of an edit changed",
        "UPDATE edit SET who = 'rufus' WHERE job_id = 5 AND version = 7",
        "trail of A-0005 is not as it was kept: edit 7",
    ),
    Forgery("the same, and the ledger made anew", _edit_and_ledger, "rewritten by another program"),
    Forgery(
        "the moment of an edit changed",
        "UPDATE edit SET at = at - 3600000000 WHERE job_id = 5 AND version = 8",
        "trail of A-0005 is not as it was kept: edit 8",
    ),
    Forgery(
        "the words of an edit changed",
        "UPDATE edit SET what = 'Nothing of note' WHERE job_id = 5 AND version = 9",
        "edit 9",
    ),
    Forgery(
        "what an edit did changed",
        "UPDATE edit SET command = replace(command, 'the 5th', 'the 6th') WHERE job_id = 5",
        "trail of A-0005 is not as it was kept",
    ),
    Forgery(
        "how a job began changed",
        "UPDATE edit SET begun = replace(begun, '0.49', '0.48') WHERE job_id = 4",
        "trail of A-0004 is not as it was kept: edit 1",
    ),
    Forgery(
        "who issued a paper changed in its trail",
        "UPDATE edit SET who = 'nobody' WHERE job_id = 1 AND what = 'Issued'",
        "trail of A-0001",
    ),
    Forgery(
        "edits of two jobs swapped",
        "UPDATE edit SET job_id = 9 - job_id, version = version + 100 WHERE job_id IN (4, 5)",
        "trail of A-000",
    ),
    Forgery("a draft altered with its checksum", _draft, "draft A-0005 is not what its trail gives"),
    Forgery("a draft altered with its trail", _draft_and_trail, "trail of A-0005 is not as it was kept"),
    Forgery("the draft of another job", _draft_of_another, "A-0005"),
    Forgery(
        "a register entry changed",
        "UPDATE register SET body = replace(body, 'Orchard', 'Orchid')",
        "registers are not as they were kept",
    ),
    Forgery("a register entry retired", "UPDATE register_now SET retired = 1", "registers do not show what was kept"),
    Forgery(
        "a register entry deleted",
        "DELETE FROM register_now WHERE entry = 1; DELETE FROM register_word WHERE entry = 1; DELETE FROM register WHERE entry = 1",
        "taken out of the registers",
    ),
    Forgery(
        "a due date moved",
        "UPDATE job SET due = due + 3650 WHERE number = 'A-0002'",
        "line of A-0002 does not say what the job does: when the next inspection is due",
    ),
    Forgery(
        "a report said to be put right",
        "UPDATE job SET put_right = 1 WHERE number = 'A-0002'",
        "whether it was put right",
    ),
    Forgery(
        "the outcome of a report in its line",
        "UPDATE job SET outcome = 'satisfactory' WHERE number = 'A-0002'",
        "line of A-0002 .*outcome",
    ),
    Forgery("snags closed in a line", "UPDATE job SET open_snags = 3 WHERE number = 'A-0004'", "open snags"),
    Forgery(
        "a client's name in a line",
        "UPDATE job SET client = 'Somebody Else' WHERE number = 'A-0003'",
        "line of A-0003 .*client",
    ),
    Forgery("a note altered", "UPDATE note SET text = 'all well'", "Notes under 'a topic' are not as they were kept"),
    Forgery(
        "a note put in",
        "INSERT INTO note (topic, who, at, text) VALUES ('signing phrase of zoe', 'zoe', 1, 'scrypt')",
        "put notes under 'signing phrase of zoe'",
    ),
    Forgery("a note deleted", "DELETE FROM note", "Notes under 'a topic' were taken out"),
    Forgery("papers swapped", _paper_swapped, "A-0001.pdf is not the one that was issued"),
    Forgery("a paper swapped with its hash", _paper_and_its_hash, "record of A-0001 is not as it was issued"),
    Forgery("numbers of two jobs swapped", _numbers_swapped, "A-0004"),
    Forgery(
        "a job said to be ready again",
        "UPDATE job SET state = 'ready' WHERE number = 'A-0001'",
        "log calls A-0001 ready",
    ),
    Forgery("guards, part of the layout, dropped and put back", "SELECT 1", "took away what protects the log"),
    Forgery("the version of the layout set back", "PRAGMA user_version = 1", "did not make: .*duty_day"),
    Forgery("the counter of numbers set back", "UPDATE device SET next_number = 2", "number or a name twice"),
    Forgery("a line of the ledger deleted", "DELETE FROM ledger WHERE seq = 12", "does not hold together"),
    Forgery("a line of the ledger made up", _line_of_ledger, "taken out of the trail of A-0005"),
)
"""Fifty ways; the log holds A-0001 to A-0003 issued, and the drafts A-0004 and A-0005."""
