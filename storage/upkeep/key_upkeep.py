"""The key of the seal, looked after: is it here, locked into a copy, taken out of one again."""

from collections.abc import Iterator
from pathlib import Path

from pydantic import ValidationError

from domain.job.seal_key import fingerprint_of, in_groups
from domain.log.job_log import JobLogError
from domain.log.seal_keys import TOPIC, LogKey, key_of
from domain.log.upkeep import Concern, LogFault
from storage.driver import Connection
from storage.keys.ed25519 import public_key
from storage.keys.key_file import KEY_NAME, KeyFile
from storage.keys.locked_key import locked, unlocked
from storage.ledger import NOTE, enter
from storage.log_file import LogFile
from storage.notes import SqliteNotes

_LOCKED = "key of the seal, locked"
"""The topic of the note that carries it in a copy."""


def keys_noted(file: LogFile) -> tuple[LogKey, ...]:
    """Every key the log has sealed with, the oldest first."""
    return tuple(map(key_of, SqliteNotes(file).of(TOPIC, "")))


def key_missing(home: Path, file: LogFile) -> str:
    """The fingerprint of the key the log seals with, where that is not here; "" where all is well."""
    keys = keys_noted(file)
    if not keys:
        return ""
    try:
        secrets = (KeyFile(home).secret(), KeyFile(home).next_secret())
    except JobLogError:
        secrets = ()
    held = {public_key(secret) for secret in secrets if secret}
    return "" if keys[-1].key in held else keys[-1].fingerprint


def holds_locked(file: LogFile) -> bool:
    """A copy brought the key along, locked by a phrase."""
    return bool(SqliteNotes(file).of(_LOCKED, ""))


def faults_of_key(file: LogFile) -> Iterator[LogFault]:
    """The key that the log seals with is not beside it, or what is noted of its keys is none."""
    try:
        keys_noted(file)
    except ValidationError:
        yield LogFault(
            about=Concern.KEY,
            says="What this log notes of the keys that seal its papers is no key; another program wrote it.",
            do="Go back to a copy that is sound (`ohmfolio restore`).",
        )
        return
    if missing := key_missing(file.home, file):
        yield LogFault(
            about=Concern.KEY,
            says=f"The key that this log seals its papers with, {in_groups(missing)}, is not in {file.home / KEY_NAME}.",
            do="Until it is, nothing can be issued. `ohmfolio keys unlock` takes it out of the copy this log came from, if "
            "it was locked into that; `ohmfolio keys lost` begins another.",
        )


def lock_into(copy: Connection, home: Path, phrase: str) -> None:
    """Carry the key in a copy, locked. JobLogError where there is none to lock."""
    secret = KeyFile(home).secret()
    if not secret:
        raise JobLogError(f"There is no key in {home / KEY_NAME} to lock into a copy.")
    note = copy.execute(
        "INSERT INTO note (topic, who, at, text) VALUES (?, '', 0, ?) RETURNING id", (_LOCKED, locked(secret, phrase))
    )
    ((row,),) = note.fetchall()
    enter(LogFile(Path(), copy), NOTE, row)


def unlock(home: Path, file: LogFile, phrase: str) -> str:
    """Take the key that a copy brought along out of its lock, into its place; its fingerprint.

    JobLogError where there is none, or the phrase is another.
    """
    notes = SqliteNotes(file).of(_LOCKED, "")
    if not notes:
        raise JobLogError("No key came with the copy this log was restored from, or it has been taken out already.")
    secret = unlocked(notes[-1].text, phrase)
    if secret is None:
        raise JobLogError("That is not the phrase the key was locked with; nothing was changed.")
    KeyFile(home).put_back(secret)
    with file.writing():
        file.run("DELETE FROM note WHERE topic = ?", (_LOCKED,))
    return fingerprint_of(public_key(secret))
