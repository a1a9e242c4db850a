"""The keys a log has sealed with, as its notes keep them: each with what led to it."""

from domain.job.seal_key import EarlierKey, KeySignature, SealedWith, SealKey, fingerprint_of
from domain.log_note import LogNote
from domain.value import Moment, Value

TOPIC = "keys of the seal"
FIRM_KEYS = "keys of the firm"
"""The topic under which an office keeps the keys of its laptops; they come to every laptop too."""


class LogKey(Value):
    """A key of the log."""

    key: SealKey
    since: Moment
    by: str
    statement: KeySignature | None = None
    """The signature of the key before over this one; None for the first, and where the one before was lost."""

    @property
    def fingerprint(self) -> str:
        """What people compare."""
        return fingerprint_of(self.key)


def as_note(key: SealKey, statement: str) -> str:
    """A key as the text of a note."""
    return f"{key} {statement}".strip()


def key_of(note: LogNote) -> LogKey:
    """The key that a note keeps."""
    key, _, statement = note.text.partition(" ")
    return LogKey(key=key, since=note.at, by=note.who, statement=statement or None)


def sealed_with(keys: tuple[LogKey, ...]) -> SealedWith:
    """The newest of keys in their order, with those that led to it, back to the first or to one that was lost."""
    newest, earlier = keys[-1], list[EarlierKey]()
    for before, after in zip(reversed(keys[:-1]), reversed(keys), strict=False):
        if after.statement is None:
            break
        earlier.append(EarlierKey(key=before.key, statement=after.statement))
    return SealedWith(key=newest.key, earlier=tuple(reversed(earlier)))
