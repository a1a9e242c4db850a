"""A log with one job of forty circuits, as complete as a job without signatures can be."""

import getpass
from pathlib import Path

from domain.editing.commands import AddCircuit
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, complete_certificate, done, entered

CIRCUITS = 40


def forty_circuits(folder: Path) -> Path:
    """The folder, with the log in it."""
    job = complete_certificate(sign=False)
    board = job.boards[0]
    while (made := len(board.circuits)) < CIRCUITS:
        job = done(job, AddCircuit(board=board.id, after=board.circuits[-1].id, like=board.circuits[-1].id))
        board = job.boards[0]
        named = {"number": str(made + 1), "description": f"Unit {made + 1} {'lights' if made % 2 else 'sockets'}"}
        job = entered(job, named, board=board.id, circuit=board.circuits[-1].id)
        board = job.boards[0]
    log = SqliteJobLog.open(folder)
    log.create(job, who=getpass.getuser(), at=AT)
    log.close()
    return folder
