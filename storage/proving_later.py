"""A log whose jobs are each proved as they are issued; what that takes is loaded only when one is."""

from pathlib import Path

from storage.sqlite_job_log import SqliteJobLog


def proved_as_issued(log: SqliteJobLog, home: Path) -> SqliteJobLog:
    """The log in a folder, which from now on has what it issues proved."""

    def prove(number: str) -> None:
        from storage.upkeep.proved_at_issue import prove_issued

        prove_issued(home, number)

    log.prove = prove
    return log
