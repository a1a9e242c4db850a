"""A log that is no longer what its witness saw, taken on as it is by a person; the log keeps for good that it was."""

from collections.abc import Iterator
from datetime import datetime

from domain.civil_time import written_moment
from domain.log.upkeep import LogFault, Unproven
from domain.log_note import LogNote
from storage.log_file import LogFile
from storage.notes import SqliteNotes
from storage.witnessing import begin_witness

_TOPIC = "taken on as it was"


def take_on(file: LogFile, faults: list[LogFault], at: datetime) -> str:
    """Begin the witness anew from the log as it is, and note what was wrong; what was done."""
    told = " ".join(fault.says for fault in faults)
    file.refuses = ""
    with file.writing():
        SqliteNotes(file).add(_TOPIC, LogNote(at=at, who="tend", text=told))
    # Only what is on disk may be borne witness to.
    with file.writing():
        begin_witness(file)
    return f"The log was taken on as it is. What cannot be proved any more: {told}"


def taken_on(file: LogFile) -> Iterator[Unproven]:
    """What was not as it should be when the log was taken on, each time."""
    for note in SqliteNotes(file).of(_TOPIC, ""):
        yield Unproven(says=f"On {written_moment(note.at)} the log was taken on as it was. {note.text}")
