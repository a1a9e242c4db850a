"""What an attacker does to a log with real papers in it, by plain SQL, by files, and with all of this program's source.

None of it is among `forgeries.py`. Each says what must be told of it; the log they are tried on is `real_log` of the conftest.
"""

import hashlib
import json
import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pymupdf

from domain.gate.assessment import Pack
from domain.gate.report_outcome import outcome_of
from domain.job.job import Job, canonical
from domain.log.chain import NO_RECORD, entered, leaf, link
from storage.driver import Connection
from storage.ledger import enter
from storage.ledger_entries import EDIT, ISSUED
from storage.log_file import LogFile
from storage.pdf import bind
from storage.rows import checksum
from storage.witness import WITNESS
from storage.witnessing import begin_witness
from tests.storage.ledger_anew import begin_anew
from tests.storage.upkeep.forging import Forgery


def papers_of(home: Path) -> Path:
    return home / "issued"


def _chained(log: Connection) -> None:
    chain = NO_RECORD
    for seq, body, pdf_sha in log.execute("SELECT seq, body, pdf_sha FROM issued ORDER BY seq").fetchall():
        chain = link(chain, leaf(body), pdf_sha)
        log.execute("UPDATE issued SET sha = ?, chain = ? WHERE seq = ?", (leaf(body), chain, seq))


def _entered_in_place(log: Connection) -> None:
    """Every line of the ledger made to fit its row again, in the order it stands in."""
    file, chain = LogFile(Path(), log), NO_RECORD
    from storage.ledger import _one
    from storage.ledger_entries import entry_of

    for seq, kind, row in log.execute("SELECT seq, kind, row FROM ledger ORDER BY seq").fetchall():
        found = file.first(_one(kind), (row,))
        if found:
            sha = entry_of(kind, row, found[1], found[2:])
            log.execute("UPDATE ledger SET about = ?, sha = ? WHERE seq = ?", (found[1], sha, seq))
        ((sha,),) = log.execute("SELECT sha FROM ledger WHERE seq = ?", (seq,)).fetchall()
        chain = entered(chain, sha)
        log.execute("UPDATE ledger SET chain = ? WHERE seq = ?", (chain, seq))


def _record(log: Connection, number: str) -> Job:
    ((body,),) = log.execute("SELECT body FROM issued WHERE number = ?", (number,)).fetchall()
    return Job.model_validate_json(body)


def _reissued(log: Connection, home: Path, job: Job) -> None:
    """Another record in the place of an issued one, with a real paper of it, and the chain over records."""
    pdf = bind(Pack(job=job, outcome=outcome_of(job))).pdf
    papers_of(home).joinpath(f"{job.number}.pdf").write_bytes(pdf)
    log.execute(
        "UPDATE issued SET body = ?, pdf_sha = ? WHERE number = ?",
        (canonical(job), hashlib.sha256(pdf).digest(), job.number),
    )
    _chained(log)


def _with_client(job: Job, name: str) -> Job:
    return job.model_copy(update={"client": job.client.model_copy(update={"name": name})})


def _remade(log: Connection, home: Path) -> None:
    _reissued(log, home, _with_client(_record(log, "A-0001"), "Somebody Else"))


def _remade_and_entered(log: Connection, home: Path) -> None:
    _remade(log, home)
    _entered_in_place(log)


def _remade_and_witnessed(log: Connection, home: Path) -> None:
    """All that stands beside the record made to fit, the witness too; its trail still gives the job as it was."""
    _remade_and_entered(log, home)
    begin_witness(LogFile(home, log))


def _witness_asked_for(log: Connection, home: Path) -> None:
    """The ledger made anew, and the program asked to begin its witness anew as after a move."""
    _remade_and_entered(log, home)
    log.execute("INSERT INTO pending_task (name) VALUES ('witness')")


def _ledger_and_witness_gone(log: Connection, home: Path) -> None:
    log.execute("DELETE FROM ledger")
    (home / WITNESS).unlink()


def _attachment_swapped(log: Connection, home: Path) -> None:
    """The paper holds another record than the log, and everything else says that it is the paper issued."""
    path = papers_of(home) / "A-0002.pdf"
    with pymupdf.open(path) as pdf:
        held = bytes(pdf.embfile_get(0))
        name = pdf.embfile_names()[0]
        pdf.embfile_del(0)
        pdf.embfile_add(name, held.replace(b"Fairweather", b"Foulweather"))
        changed = pdf.tobytes()
    path.write_bytes(changed)
    log.execute("UPDATE issued SET pdf_sha = ? WHERE number = 'A-0002'", (hashlib.sha256(changed).digest(),))
    _chained(log)
    _entered_in_place(log)
    begin_witness(LogFile(home, log))


def slipped_in(log: Connection, home: Path, number: str = "A-0005") -> None:
    """A draft made an issued paper by plain SQL, with a real paper, a record in the chain, a line and a trail."""
    ((job_id, body),) = log.execute(
        "SELECT job_id, body FROM draft JOIN job ON job.id = job_id WHERE number = ?", (number,)
    ).fetchall()
    _, last = log.execute("SELECT 1, body FROM issued ORDER BY seq DESC LIMIT 1").fetchall()[0]
    stamp = json.loads(last)["issued"]
    job = Job.model_validate_json(body)
    job = Job.model_validate(job.model_dump(mode="json") | {"issued": stamp})
    pdf = bind(Pack(job=job, outcome=outcome_of(job))).pdf
    (papers_of(home) / f"{number}.pdf").write_bytes(pdf)
    ((at,),) = log.execute("SELECT max(issued_at) FROM issued").fetchall()
    log.execute(
        "INSERT INTO issued (job_id, number, body, sha, chain, pdf_sha, pages, issued_by, issued_at)"
        " VALUES (?, ?, ?, x'00', x'00', ?, 3, ?, ?)",
        (job_id, number, canonical(job), hashlib.sha256(pdf).digest(), stamp["by"], at),
    )
    _chained(log)
    log.execute("DELETE FROM draft WHERE job_id = ?", (job_id,))
    log.execute("UPDATE job SET state = 'issued', version = version + 1, updated = ? WHERE id = ?", (at, job_id))
    log.execute(
        "INSERT INTO edit (op, job_id, version, at, who, what)"
        " SELECT 'z:1', id, version, ?, ?, 'Issued' FROM job WHERE id = ?",
        (at, stamp["by"], job_id),
    )


def _slipped_in_and_entered(log: Connection, home: Path) -> None:
    """A draft that has gaps, slipped in and entered at the end of the ledger as the program itself would have."""
    slipped_in(log, home, "A-0006")
    file = LogFile(home, log)
    ((seq,),) = log.execute("SELECT seq FROM issued WHERE number = 'A-0006'").fetchall()
    enter(file, ISSUED, seq)
    ((seq,),) = log.execute("SELECT seq FROM edit WHERE op = 'z:1'").fetchall()
    enter(file, EDIT, seq)


def _head_of_another_day(log: Connection, home: Path) -> None:
    """A record that names a head of a later day than it was issued."""
    ((head,),) = log.execute("SELECT hex(chain) FROM ledger ORDER BY seq DESC LIMIT 1").fetchall()
    job = _record(log, "A-0001")
    _reissued(log, home, job.model_copy(update={"issued": job.issued.model_copy(update={"head": head.lower()})}))
    _entered_in_place(log)
    begin_witness(LogFile(home, log))


def _last_line_off(log: Connection, home: Path) -> None:
    """The last thing kept taken out with its line, and nothing left that names it."""
    ((kind, row),) = log.execute("SELECT kind, row FROM ledger ORDER BY seq DESC LIMIT 1").fetchall()
    log.execute("DELETE FROM ledger WHERE seq = (SELECT max(seq) FROM ledger)")
    log.execute(f"DELETE FROM {kind} WHERE {'id' if kind == 'note' else 'seq'} = ?", (row,))


def _lines_swapped(log: Connection, home: Path) -> None:
    (a, b) = log.execute("SELECT seq, row FROM ledger WHERE kind = 'edit' ORDER BY seq LIMIT 2").fetchall()
    for seq, row in ((a[0], -1), (b[0], a[1]), (a[0], b[1])):
        log.execute("UPDATE ledger SET row = ? WHERE seq = ?", (row, seq))


def _snag_taken_off(log: Connection, home: Path) -> None:
    """The snag of a draft and the edit that raised it, both gone, and the line says that none is open."""
    ((job_id, body),) = log.execute(
        "SELECT job_id, body FROM draft JOIN job ON job.id = job_id WHERE number = 'A-0007'"
    ).fetchall()
    body = json.dumps(json.loads(body) | {"snags": []})
    log.execute("UPDATE draft SET body = ?, crc = ? WHERE job_id = ?", (body, checksum(body), job_id))
    log.execute("UPDATE job SET open_snags = 0, state = 'ready' WHERE id = ?", (job_id,))


def _file(name: str, change: Callable[[Path], object]) -> Callable[[Connection, Path], None]:
    return lambda log, home: change(papers_of(home) / name) and None


def _linked(path: Path) -> None:
    path.unlink()
    path.symlink_to("A-0002.pdf")


def _witness_of_another(log: Connection, home: Path) -> None:
    seen = (home / WITNESS).read_bytes()
    ((own,),) = log.execute("SELECT id FROM device WHERE is_here = 1").fetchall()
    assert own.encode() in seen
    log.execute("UPDATE device SET id = 'f0f0f0f0f0f0f0f0' WHERE is_here = 1")


def _guard_hollow(log: Connection, home: Path) -> None:
    log.execute("DROP VIEW log_issued")
    log.execute("CREATE VIEW log_issued AS SELECT seq, number FROM issued WHERE number <> 'A-0001'")


def _begin_anew(log: Connection, home: Path) -> None:
    log.execute("DELETE FROM ledger")
    begin_anew(LogFile(home, log))


def _newest_version_off(log: Connection, home: Path) -> None:
    log.execute("UPDATE register_now SET seq = seq - 1 WHERE entry = 2")


ATTACKS = (
    # papers
    Forgery("a real paper of another client with its record and chain", _remade, "record of A-0001 is not as it was issued"),
    Forgery("the same, every line of the ledger fitted in its place", _remade_and_entered, "rewritten by another program"),
    Forgery("the same, and the witness written anew", _remade_and_witnessed, "record A-0001|record of A-0001"),
    Forgery("the same, and the program asked to begin its witness anew", _witness_asked_for, "rewritten by another program"),
    Forgery("the record inside a paper swapped, all else fitted to it", _attachment_swapped, "paper of A-0002 was not made from the record"),
    Forgery("a bit of a paper turned", _file("A-0001.pdf", lambda path: path.write_bytes(path.read_bytes()[:-9] + b"\1" + path.read_bytes()[-8:])), "A-0001.pdf is not the one", "papers"),
    Forgery("a paper cut short", _file("A-0002.pdf", lambda path: os.truncate(path, 5000)), "A-0002.pdf is not the one", "papers"),
    Forgery("a paper emptied", _file("A-0002.pdf", lambda path: os.truncate(path, 0)), "A-0002.pdf is not the one"),
    Forgery("a paper taken away", _file("A-0004.pdf", Path.unlink), "A-0004.pdf is missing", "papers"),
    Forgery("a paper that is only a link to another", _file("A-0001.pdf", _linked), "A-0001.pdf is not the one"),
    Forgery("a paper put beside them", _file("A-0099.pdf", lambda path: shutil.copy(path.with_name("A-0001.pdf"), path)), "A-0099.pdf lies among", "papers"),
    Forgery("a paper put there for a draft", _file("A-0005.pdf", lambda path: shutil.copy(path.with_name("A-0001.pdf"), path)), "A-0005.pdf lies among", "papers"),
    # records
    Forgery("a draft slipped in with a real paper", slipped_in, "A-0005 stands among the issued records, and this program never"),
    Forgery("a draft with gaps slipped in and entered as by the program", _slipped_in_and_entered, "A-0006 stands there as issued, and the gate cannot"),
    Forgery("a head of another day in a record", _head_of_another_day, "A-0001 says it was issued after a head|record of A-0001"),
    Forgery("blanks in the bytes of a record", "UPDATE issued SET body = CAST(body || ' ' AS BLOB) WHERE number = 'A-0002'", "record of A-0002 is not as it was issued"),
    Forgery("a correction that corrects nothing any more", "UPDATE issued SET replaces = NULL WHERE number = 'A-0004'", "record of A-0004"),
    Forgery("a correction of another job", "UPDATE job SET replaces = 1 WHERE number = 'A-0004'", "A-0004 and its trail do not name the same job"),
    Forgery("records in another order", "UPDATE issued SET seq = 100 WHERE number = 'A-0001'", "A-0001"),
    Forgery("the hash of a paper emptied", "UPDATE issued SET pdf_sha = zeroblob(32) WHERE number = 'A-0004'", "record of A-0004 is not as it was issued"),
    # lines
    Forgery("a replaced paper shown as standing", "UPDATE job SET state = 'issued' WHERE number = 'A-0003'", "line of A-0003 .*state", "lines"),
    Forgery("a standing paper shown as replaced", "UPDATE job SET state = 'replaced' WHERE number = 'A-0001'", "line of A-0001 .*state"),
    Forgery("an issued paper laid out of every list", "UPDATE job SET laid_aside = 1 WHERE number = 'A-0002'", "line of A-0002 .*laid aside", "lines"),
    Forgery("the day of a paper moved", "UPDATE job SET day = day - 400 WHERE number = 'A-0001'", "line of A-0001 .*day of the work", "lines"),
    Forgery("a job under another form set", "UPDATE job SET form_set = 'EIC' WHERE number = 'A-0001'", "line of A-0001 .*form set", "lines"),
    Forgery("a job at another address", "UPDATE job SET premises = 'Elsewhere' WHERE number = 'A-0001'", "line of A-0001 .*premises", "lines"),
    Forgery("a job moved down the lists", "UPDATE job SET updated = 1 WHERE number = 'A-0002'", "line of A-0002 .*touched last", "lines"),
    Forgery("an inspection never due", "UPDATE job SET due = NULL WHERE number = 'A-0002'", "line of A-0002 .*due", "lines"),
    Forgery("an outcome taken off a line", "UPDATE job SET outcome = NULL WHERE number = 'A-0002'", "line of A-0002 .*outcome", "lines"),
    Forgery("a line that no program reads", "UPDATE job SET form_set = 'x', due = 999999999 WHERE number = 'A-0001'", "line of A-0001 holds what no line holds"),
    Forgery("a moment that never was", "UPDATE edit SET at = 9223372036854775807 WHERE job_id = 6 AND version = 2", "trail of A-0006 is not as it was kept: edit 2"),
    Forgery("a version more than there are edits", "UPDATE job SET version = version + 1 WHERE number = 'A-0006'", "trail of A-0006 has gaps", "lines"),
    # duties
    Forgery("the days of a duty taken out", "DELETE FROM duty_day WHERE job_id = 2", "something is due for A-0002"),
    Forgery("a duty marked as done", "UPDATE duty_day SET done_on = 739000, done_who = 'x' WHERE job_id = 2", "something is due for A-0002"),
    Forgery("a duty that nobody asked for", "UPDATE duty_job SET contact = 'x@example.org' WHERE job_id = 2", "something is due for A-0002"),
    Forgery("a duty noted as done", "INSERT INTO note (topic, who, at, text) SELECT 'duties', 'x', at, '{\"number\":\"A-0002\"}' FROM edit LIMIT 1", "put notes under 'duties'"),
    # search
    Forgery("a job that no word finds", "UPDATE job_text SET client = 'nobody', place = '', other = '' WHERE id = 2", "A-0002 cannot be found by the words"),
    Forgery("words taken out of the index alone", "INSERT INTO job_fts (job_fts) VALUES ('delete-all')", "search index does not hold|cannot be found"),
    Forgery("words whose beginnings find nothing", "DELETE FROM term", "not found by the beginning"),
    Forgery("a hand that had none in it", "INSERT INTO hand SELECT id, 'rufus', updated FROM job WHERE number = 'A-0001'", "hand in A-0001"),
    Forgery("a hand taken out", "DELETE FROM hand WHERE job_id = 2", "hand in A-0002"),
    # trails and drafts
    Forgery("what an undo took back", "UPDATE edit SET undoes = 1 WHERE job_id = 6 AND version = 3", "trail of A-0006 is not as it was kept: edit 3"),
    Forgery("the name of an edit", "UPDATE edit SET op = 'z:9' WHERE job_id = 6 AND version = 2", "trail of A-0006 is not as it was kept: edit 2"),
    Forgery("the moments of two edits", "UPDATE edit SET at = CASE version WHEN 2 THEN at + 5 ELSE at - 5 END WHERE job_id = 6 AND version IN (2, 3)", "trail of A-0006 is not as it was kept: edit 2, 3"),
    Forgery("edits in another order", "UPDATE edit SET seq = seq + 1000 WHERE job_id = 6 AND version = 2", "edit 2 into the trail of A-0006"),
    Forgery("a snag taken off a draft", _snag_taken_off, "draft A-0007 is not what its trail gives"),
    Forgery("an edit handed to another job", "UPDATE edit SET job_id = 7, version = 99 WHERE job_id = 6 AND version = 3", "A-0007"),
    Forgery("a draft without its trail", "DELETE FROM edit WHERE job_id = 5", "Edits were taken out of the trail of A-0005"),
    Forgery("a draft taken out", "DELETE FROM draft WHERE job_id = 6", "draft A-0006 is not as it was saved"),
    # registers and notes
    Forgery("a role given to a person", "UPDATE register SET body = replace(body, 'Sorrel Wick', 'Sorrel Wicked')", "registers are not as they were kept: entry 2", "people"),
    Forgery("a version of a person put in", "INSERT INTO register (entry, version, kind, at, who, retired, body) SELECT entry, 9, kind, at, who, retired, body FROM register WHERE entry = 1 AND version = 1", "put version 9 of entry 1", "people"),
    Forgery("an older version shown as the newest", _newest_version_off, "registers do not show what was kept"),
    Forgery("a person that no word finds", "DELETE FROM register_word WHERE entry = 2", "registers do not show what was kept"),
    Forgery("a signing phrase taken out", "DELETE FROM note WHERE topic LIKE 'signing phrase%'", "Notes under 'signing phrase.* taken out"),
    Forgery("a signing phrase of the attacker's", "UPDATE note SET text = replace(text, 'a', 'b') WHERE topic LIKE 'signing phrase%'", "Notes under 'signing phrase.* not as they were kept", "people"),
    Forgery("a key that the firm never had", "UPDATE note SET text = replace(text, '1', '2') WHERE topic = 'keys of the seal'", "Notes under 'keys of the seal' are not", "people"),
    # ledger, witness, layout, machine
    Forgery("the last thing kept taken out without a trace", _last_line_off, "last change that was kept is missing"),
    Forgery("the rows of two lines swapped", _lines_swapped, "not as it was kept"),
    Forgery("the ledger and the witness taken away", _ledger_and_witness_gone, "is missing or damaged"),
    Forgery("the ledger begun anew by the program's own hand", _begin_anew, "rewritten by another program|missing from the job log"),
    Forgery("a log made another machine's", _witness_of_another, "not the one that was kept here"),
    Forgery("the layout with a view that leaves a paper out", _guard_hollow, "altered how the log is laid out; not as made here: log_issued"),
    Forgery("the layout with a trigger of the attacker's", "CREATE TRIGGER mine AFTER INSERT ON note BEGIN DELETE FROM left_off; END", "did not make: mine"),
    Forgery("the layout without an index", "DROP INDEX job_state", "not as made here: job_state"),
    Forgery("numbers left out", "UPDATE device SET next_number = next_number + 3", "A-00(08|10)"),
    Forgery("a number that no machine gives", "UPDATE job SET number = 'Q-0007' WHERE number = 'A-0007'", "Q-0007"),
    Forgery("edits counted anew", "UPDATE device SET next_op = 1", "number or a name twice"),
)  # fmt: skip
