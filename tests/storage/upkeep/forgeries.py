"""What somebody with a general tool, patience and all our source does to a log: each with what tells it."""

from tests.storage.upkeep import forging
from tests.storage.upkeep.forging import Forgery

FORGERIES = (
    Forgery(
        "an issued record changed with its line, and the chain made anew",
        forging.client_of_record,
        "record of A-0002 is not as it was issued",
    ),
    Forgery("the same, and the ledger made anew", forging.record_and_ledger, "rewritten by another program"),
    Forgery(
        "a record changed alone",
        "UPDATE issued SET body = CAST(replace(CAST(body AS TEXT), '0.49', '0.31') AS BLOB) WHERE number = 'A-0001'",
        "record of A-0001 is not as it was issued",
    ),
    Forgery("the signatures taken off a record", forging.snag_gone, "A-0001"),
    Forgery("another named as who issued it", forging.stamp, "record of A-0001"),
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
    Forgery("a head that the log never had", forging.head, "A-0003 says it was issued after a head"),
    Forgery(
        "a record said to replace another",
        "UPDATE issued SET replaces = 'A-0001' WHERE number = 'A-0003'",
        "record of A-0003",
    ),
    Forgery(
        "a draft made an issued paper",
        forging.slipped_in,
        "A-0004 stands among the issued records, and this program never issued it",
    ),
    Forgery("the same, entered into the ledger", forging.slipped_in_and_entered, "rewritten by another program"),
    Forgery("a record deleted", "DELETE FROM issued WHERE number = 'A-0002'", "record of A-0002 was taken out"),
    Forgery("the last record deleted with the end of the ledger", forging.issue_off, "missing from the job log"),
    Forgery("the newest job taken out with all its traces", forging.tail_off, "missing from the job log"),
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
    Forgery("an edit put in", forging.edit_put_in, "put edit 42 into the trail of A-0005"),
    Forgery(
        "the author of an edit changed",
        "UPDATE edit SET who = 'rufus' WHERE job_id = 5 AND version = 7",
        "trail of A-0005 is not as it was kept: edit 7",
    ),
    Forgery("the same, and the ledger made anew", forging.edit_and_ledger, "rewritten by another program"),
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
        "the author of an edit changed that is folded",
        forging.folded_anew(1, lambda rows: [rows[0]._replace(who="rufus")]),
        "trail of A-0001 is not as it was kept: edit 1",
    ),
    Forgery(
        "an edit put in among those that are folded",
        forging.folded_anew(2, lambda rows: [*rows, rows[-1]._replace(seq=99, op="x:1", version=2)]),
        "put edit 2 into the trail of A-0002",
    ),
    Forgery(
        "the folded trails of two jobs swapped",
        "UPDATE folded_trail SET job_id = 9 WHERE job_id = 1; UPDATE folded_trail SET job_id = 1 WHERE job_id = 2;"
        " UPDATE folded_trail SET job_id = 2 WHERE job_id = 9",
        "trail of A-0001 is not as it was kept: edit 1",
    ),
    Forgery(
        "a folded trail that is no such thing",
        "UPDATE folded_trail SET edits = zeroblob(100) WHERE job_id = 3",
        "trail of A-0003 is not as it was kept: edit 1 to 1",
    ),
    Forgery(
        "a folded trail taken out",
        "DELETE FROM folded_trail WHERE job_id = 3",
        "Edits were taken out of the trail of A-0003",
    ),
    Forgery(
        "edits of two jobs swapped",
        "UPDATE edit SET job_id = 9 - job_id, version = version + 100 WHERE job_id IN (4, 5)",
        "trail of A-000",
    ),
    Forgery("a draft altered with its checksum", forging.draft, "draft A-0005 is not what its trail gives"),
    Forgery("a draft altered with its trail", forging.draft_and_trail, "trail of A-0005 is not as it was kept"),
    Forgery("the draft of another job", forging.draft_of_another, "A-0005"),
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
    Forgery("papers swapped", forging.paper_swapped, "A-0001.pdf is not the one that was issued"),
    Forgery("a paper swapped with its hash", forging.paper_and_its_hash, "record of A-0001 is not as it was issued"),
    Forgery("numbers of two jobs swapped", forging.numbers_swapped, "A-0004"),
    Forgery(
        "a job said to be ready again",
        "UPDATE job SET state = 'ready' WHERE number = 'A-0001'",
        "log calls A-0001 ready",
    ),
    Forgery("guards, part of the layout, dropped and put back", "SELECT 1", "took away what protects the log"),
    Forgery("the version of the layout set back", "PRAGMA user_version = 1", "did not make: .*duty_day"),
    Forgery("the counter of numbers set back", "UPDATE device SET next_number = 2", "number or a name twice"),
    Forgery(
        "a folded trail under another name",
        "UPDATE folded_trail SET begun_as = 'x:1' WHERE job_id = 2",
        "A-0002 is kept under",
    ),
    Forgery(
        "a word near another taken out", "DELETE FROM near WHERE gap = 'bertram'", "are not found by the beginning"
    ),
    Forgery(
        "a day said to be kept twice over",
        "UPDATE duty_day SET kept = kept + 2 WHERE job_id = 2",
        "days on which something is due for A-0002",
    ),
    Forgery("words of another register", "UPDATE register_word SET kind = 'firm'", "registers do not show"),
    Forgery("the counter of edits raised", "UPDATE device SET next_op = next_op + 1", "counter of edits stands beyond"),
    Forgery("a line of the ledger deleted", "DELETE FROM ledger WHERE seq = 12", "does not hold together"),
    Forgery("a line of the ledger made up", forging.line_of_ledger, "taken out of the trail of A-0005"),
)
"""Sixty ways; the log holds A-0001 to A-0003 issued, and the drafts A-0004 and A-0005."""
