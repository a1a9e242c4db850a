"""Whether the file is sound, and laid out as this program lays it out."""

from collections.abc import Iterator
from contextlib import closing
from functools import cache
from typing import NamedTuple

from domain.log.upkeep import Concern, LogFault, Unproven
from storage.driver import sqlite3
from storage.layout import LINES
from storage.log_file import LogFile
from storage.witness import WITNESS, account_in
from storage.witnessing import WITNESS_TASK, disagreement, layout_of

GO_BACK = "Go back to a copy of the log with `ohmfolio restore`. The log as it is now is kept aside."
_STATEMENTS = r"""
SELECT type, name, sql FROM sqlite_master WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite\_%' ESCAPE '\' AND NOT (
    type IN ('table', 'index') AND name IN (
        'job_fts_data', 'job_fts_idx', 'job_fts_docsize', 'job_fts_config', 'job_fts_content',
        '_sqlite_migrations', 'idx__sqlite_migrations_migration_set_name'))
"""
"""All but what the libraries lay out, each in the words of its version; nobody else can make a name that begins with sqlite_."""
_STEPS = "SELECT id || ' ' || migration_set || ' ' || name FROM _sqlite_migrations ORDER BY id"
_TOLD_MAX = 3


def faults_of_file(file: LogFile) -> Iterator[LogFault]:
    """What is wrong with the pages of the file, its references, and what protects its records."""
    troubles = [row[0] for row in file.run("PRAGMA integrity_check(20)")]
    if troubles != ["ok"]:
        told = "; ".join(_in_one_line(trouble) for trouble in troubles[:_TOLD_MAX])
        more = " and more" if len(troubles) > _TOLD_MAX else ""
        yield LogFault(about=Concern.FILE, says=f"The file of the log is damaged: {told}{more}.", do=GO_BACK)
    yield from faults_of_references(file)


def faults_of_references(file: LogFile) -> Iterator[LogFault]:
    """Rows that belong to nothing."""
    if astray := file.run("PRAGMA foreign_key_check"):
        says = f"{len(astray)} rows of the log belong to jobs that are not there."
        yield LogFault(about=Concern.FILE, says=says, do=GO_BACK)


def faults_of_layout(file: LogFile, besides: tuple[str, ...] = ()) -> Iterator[LogFault]:
    """What another program has added to the layout, left out of it or altered in it; `besides` may stand there, word for word."""
    laid_out = _layout([row for row in file.run(_STATEMENTS) if row[2] not in besides])
    ((version,),) = file.run("PRAGMA user_version")
    expected = _layout(_shipped(version).statements)
    if lost := sorted(expected.items() - laid_out.items()):
        names = ", ".join(name for (_, name), _ in lost)
        says = f"Another program has altered how the log is laid out; not as made here: {names}."
        yield LogFault(about=Concern.FILE, says=says, do=GO_BACK)
    if added := sorted(laid_out.keys() - expected.keys()):
        says = f"The log holds what this program did not make: {', '.join(name for _, name in added)}."
        yield LogFault(about=Concern.FILE, says=says, do="Whoever added it to the log should take it out again.")


def faults_of_tasks(file: LogFile) -> Iterator[LogFault]:
    """Steps of the layout that were never taken, or are not told, and tasks that no step leaves."""
    ((version,),) = file.run("PRAGMA user_version")
    taken = [name for (name,) in file.run(_STEPS)]
    if taken != _shipped(version).steps:
        says = "Another program has altered what the log says of the steps by which it was laid out."
        yield LogFault(about=Concern.FILE, says=says, do=GO_BACK)
    known = (WITNESS_TASK, LINES)
    if file.first("SELECT 1 FROM pending_task WHERE name NOT IN (?, ?)", known):
        says = "The log holds a task that this program never leaves itself."
        yield LogFault(about=Concern.FILE, says=says, do="Whoever added it to the log should take it out again.")


def faults_of_witness(file: LogFile) -> Iterator[LogFault]:
    """The log is not the one, or not all of the one, that was kept here last."""
    account = account_in(file.home)
    if account is None:
        says = f"{file.home / WITNESS}, which says up to where the log was kept, is missing or damaged."
        do = "`ohmfolio tend --mend` begins it anew; it cannot prove that nothing is missing from the log's end."
        yield LogFault(about=Concern.LEDGER, says=says, do=do)
    elif trouble := disagreement(file, account):
        says, _, do = trouble.partition(" Nothing has been changed")
        yield LogFault(about=Concern.LEDGER, says=says, do=f"Nothing has been changed{do}")
    elif account.layout != layout_of(file):
        says = "Another program took away what protects the log, or part of its layout, and put it back."
        do = (
            "Whatever it did meanwhile is named here as far as it can be told. If that is all, `ohmfolio tend --mend` takes "
            "note of it; else go back to a copy."
        )
        yield LogFault(about=Concern.LEDGER, says=says, do=do)


def kept_unwitnessed(file: LogFile) -> Iterator[Unproven]:
    """What a log held when its witness was begun, which nothing beside the log bears out."""
    account = account_in(file.home)
    if account and account.begun:
        lines = "line of the log was" if account.begun == 1 else f"{account.begun} lines of the log were"
        yield Unproven(
            says=f"The first {lines} there when {WITNESS} was begun: after going back to a copy, a move, or taking the log "
            "on as it was. A head kept elsewhere proves them (`ohmfolio head`)."
        )


def _layout(rows: list[tuple[str, str, str]]) -> dict[tuple[str, str], str]:
    """By kind and name: a trigger may have the name of a table."""
    return {(kind, name): " ".join(statement.split()) for kind, name, statement in rows}


class _Shipped(NamedTuple):
    """A log as this program lays it out: its statements, and the steps it says were taken."""

    statements: list[tuple[str, str, str]]
    steps: list[str]


@cache
def _shipped(version: int) -> _Shipped:
    """As the version of the layout that a file says it has, copies of older logs among them."""
    from storage.migrations import migrate

    with closing(sqlite3.connect(":memory:", isolation_level=None)) as blank:
        migrate(blank, version)
        steps = blank.execute(_STEPS).fetchall()
        return _Shipped(blank.execute(_STATEMENTS).fetchall(), [name for (name,) in steps])


def _in_one_line(trouble: str) -> str:
    return " ".join(trouble.replace("*** in database main ***", "").split())
