"""The witness of a log held against the log itself."""

from storage.ledger import LedgerEnd, end_of
from storage.log_file import LogFile
from storage.witness import Account, Seen, Witness

WITNESS_TASK = "witness"
"""The task by which a new, migrated or restored log asks for a witness of its own."""
_GO_ON = (
    "Nothing has been changed, and nothing is kept until that is settled: `ohmfolio restore` goes back to a copy, "
    "`ohmfolio tend --mend` goes on with the log as it is."
)
_TOLD_MAX = 5


def begin_witness(file: LogFile) -> None:
    """Begin a witness of the log as it is now, in the place of any there is. Call it inside a write."""
    end = end_of(file)
    seen = Seen(end.seq, end.head.hex(), "")
    Witness.begin(file.home, log_of(file), layout_of(file), seen).close()
    file.run("DELETE FROM pending_task WHERE name = ?", (WITNESS_TASK,))


def log_of(file: LogFile) -> str:
    """What sets this log apart from others, copies of it that went on elsewhere among them."""
    row = file.first("SELECT id FROM device WHERE is_here = 1")
    return row[0] if row else ""


def layout_of(file: LogFile) -> int:
    """A number that is another one as soon as a table or a trigger was made or taken away."""
    ((counted,),) = file.run("PRAGMA schema_version")
    return counted


def disagreement(file: LogFile, account: Account | None) -> str:
    """Why the log cannot be the one that was kept here last, as the person should read it; "" where it can."""
    if account is None:
        return ""
    if account.log != log_of(file):
        return f"The job log in {file.home} is not the one that was kept here: another was put in its place. {_GO_ON}"
    end = end_of(file)
    if account.end.seq > end.seq:
        return f"{_missing(account, end)} {_GO_ON}"
    held = file.first("SELECT chain FROM ledger WHERE seq = ?", (account.end.seq,))
    if account.end.seq and (held is None or held[0].hex() != account.end.head):
        return f"The job log in {file.home} was rewritten by another program since it was kept here. {_GO_ON}"
    return ""


def _missing(account: Account, end: LedgerEnd) -> str:
    count = account.end.seq - end.seq
    names = [*dict.fromkeys(each.about for each in account.seen if each.seq > end.seq)]
    more = f" and {len(names) - _TOLD_MAX} more" if len(names) > _TOLD_MAX else ""
    told = f"{', '.join(names[:_TOLD_MAX])}{more}"
    was = "change that was kept is" if count == 1 else f"{count} changes that were kept are"
    return (
        f"The last {was} missing from the job log ({told}): the file of its latest changes was cut, altered or deleted, "
        "or an older log was put in its place."
    )
