"""A ledger made anew over all that a log holds, as whoever alters a log past the program may do."""

from storage.ledger import enter
from storage.ledger_entries import EDIT, ISSUED, NOTE, REGISTER
from storage.log_file import LogFile


def begin_anew(file: LogFile) -> None:
    """Enter all that is kept, in the order of its moments, in a ledger that is empty."""
    # Of one moment, an issue comes before its edit and before what the registers learnt from it.
    moments = [
        f"SELECT '{kind}' AS kind, {row} AS row, {at} AS at, {rank} AS rank FROM {kind}"
        for kind, row, at, rank in (
            (EDIT, "seq", "at", 2),
            (ISSUED, "seq", "issued_at", 1),
            (REGISTER, "seq", "at", 3),
            (NOTE, "id", "at", 0),
        )
    ]
    for kind, row, _, _ in file.run(f"{' UNION ALL '.join(moments)} ORDER BY at, rank, row"):
        enter(file, kind, row)
