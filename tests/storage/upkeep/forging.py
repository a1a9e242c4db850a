"""How somebody with a general tool, patience and all our source forges a log."""

import json
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import NamedTuple

from domain.log.chain import NO_RECORD, entered, entry_hash, leaf, link
from storage.driver import Connection, sqlite3
from storage.log_file import FILE_NAME
from storage.rows import checksum
from storage.trail_block import COLUMNS, EditRow, folded, unfolded
from storage.trails import folded_trails
from tests.storage.ledger_anew import begin_anew

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
    """The ledger made anew over what stands there now, by the program's own hand, with every trail unfolded."""
    from storage.log_file import LogFile

    file = LogFile(Path(), log)
    for trail in folded_trails(file):
        for edit in trail.edits or ():
            places = ", ".join("?" * (len(edit) + 1))
            log.execute(f"INSERT INTO edit (job_id, {COLUMNS}) VALUES ({places})", (trail.job_id, *edit))
    log.execute("DELETE FROM folded_trail")
    log.execute("DELETE FROM ledger")
    begin_anew(file)


def folded_anew(job_id: int, change: Callable[[list[EditRow]], list[EditRow]]) -> Act:
    """The block of a trail folded anew with something else in it."""

    def act(log: Connection, home: Path) -> None:
        ((block,),) = log.execute("SELECT edits FROM folded_trail WHERE job_id = ?", (job_id,)).fetchall()
        rows = change(unfolded(block, "it"))
        log.execute("UPDATE folded_trail SET edits = ?, last = ? WHERE job_id = ?", (folded(rows), len(rows), job_id))

    return act


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


def client_of_record(log: Connection, home: Path) -> None:
    _record_changed(log, "A-0002", client__name="Somebody Else")
    log.execute("UPDATE job SET client = 'Somebody Else' WHERE number = 'A-0002'")


def record_and_ledger(log: Connection, home: Path) -> None:
    client_of_record(log, home)
    _ledger_rebuilt(log)


def snag_gone(log: Connection, home: Path) -> None:
    _record_changed(log, "A-0001", signatures=[])


def stamp(log: Connection, home: Path) -> None:
    _record_changed(log, "A-0001", issued__by="Nobody")
    log.execute("UPDATE issued SET issued_by = 'Nobody' WHERE number = 'A-0001'")


def head(log: Connection, home: Path) -> None:
    _record_changed(log, "A-0003", issued__head="ab" * 32)
    _ledger_rebuilt(log)


def slipped_in(log: Connection, home: Path) -> None:
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


def slipped_in_and_entered(log: Connection, home: Path) -> None:
    """The same, with a line of the ledger for it: only the witness beside the log and its trail are left to tell."""
    slipped_in(log, home)
    _ledger_rebuilt(log)


def tail_off(log: Connection, home: Path) -> None:
    """The newest paper taken out with all that the log knows of it, and its number given anew."""
    ((job_id,),) = log.execute("SELECT id FROM job WHERE number = 'A-0005'").fetchall()
    log.execute("DELETE FROM ledger WHERE kind = 'edit' AND row IN (SELECT seq FROM edit WHERE job_id = ?)", (job_id,))
    for table in ("hand", "edit", "draft", "left_off"):
        log.execute(f"DELETE FROM {table} WHERE job_id = ?", (job_id,))
    log.execute("DELETE FROM job_text WHERE id = ?", (job_id,))
    log.execute("DELETE FROM job WHERE id = ?", (job_id,))
    log.execute("UPDATE device SET next_number = 5")


def issue_off(log: Connection, home: Path) -> None:
    log.execute("DELETE FROM ledger WHERE seq >= (SELECT seq FROM ledger WHERE kind = 'issued' AND about = 'A-0003')")
    log.execute("DELETE FROM issued WHERE number = 'A-0003'")
    (home / "issued" / "A-0003.pdf").unlink()


def draft(log: Connection, home: Path) -> None:
    ((job_id, body),) = log.execute(
        "SELECT job_id, body FROM draft JOIN job ON job.id = job_id WHERE number = 'A-0005'"
    ).fetchall()
    body = body.replace("the 39th", "the 40th")
    log.execute("UPDATE draft SET body = ?, crc = ? WHERE job_id = ?", (body, checksum(body), job_id))


def draft_of_another(log: Connection, home: Path) -> None:
    ((body,),) = log.execute("SELECT body FROM draft JOIN job ON job.id = job_id WHERE number = 'A-0004'").fetchall()
    log.execute(
        "UPDATE draft SET body = ?, crc = ? WHERE job_id = (SELECT id FROM job WHERE number = 'A-0005')",
        (body, checksum(body)),
    )


def draft_and_trail(log: Connection, home: Path) -> None:
    draft(log, home)
    log.execute("UPDATE edit SET command = replace(command, 'the 39th', 'the 40th') WHERE command LIKE '%the 39th%'")


def edit_put_in(log: Connection, home: Path) -> None:
    log.execute(
        "INSERT INTO edit (op, job_id, version, at, who, what) SELECT 'x:1', id, version + 1, updated, 'nobody',"
        " 'Client name: nothing changed' FROM job WHERE number = 'A-0005'"
    )
    log.execute("UPDATE job SET version = version + 1 WHERE number = 'A-0005'")
    log.execute("INSERT INTO hand SELECT id, 'nobody', updated FROM job WHERE number = 'A-0005'")


def edit_and_ledger(log: Connection, home: Path) -> None:
    """An edit of another hand, and every line of the ledger made anew from there on."""
    log.execute("UPDATE edit SET who = 'rufus' WHERE job_id = 5 AND version = 7")
    _ledger_rebuilt(log)


def line_of_ledger(log: Connection, home: Path) -> None:
    ((seq, chain),) = log.execute("SELECT seq, chain FROM ledger ORDER BY seq DESC LIMIT 1").fetchall()
    sha = entry_hash(b"made up")
    log.execute("INSERT INTO ledger VALUES (?, 'edit', 9999, 'A-0005', ?, ?)", (seq + 1, sha, entered(chain, sha)))


def paper_swapped(log: Connection, home: Path) -> None:
    one, other = (home / "issued" / f"A-000{count}.pdf" for count in (1, 3))
    held = one.read_bytes()
    one.write_bytes(other.read_bytes())
    other.write_bytes(held)


def paper_and_its_hash(log: Connection, home: Path) -> None:
    import hashlib

    pdf = b"%PDF-1.7 another altogether"
    (home / "issued" / "A-0001.pdf").write_bytes(pdf)
    log.execute("UPDATE issued SET pdf_sha = ? WHERE number = 'A-0001'", (hashlib.sha256(pdf).digest(),))
    _rebuilt(log)


def numbers_swapped(log: Connection, home: Path) -> None:
    for old, new in (("A-0004", "A-9999"), ("A-0005", "A-0004"), ("A-9999", "A-0005")):
        log.execute("UPDATE job SET number = ? WHERE number = ?", (new, old))
