"""The key that a log seals its papers with: begun once, handed over to another, or given up for lost."""

from datetime import datetime

from domain.job.seal_key import SealedWith, fingerprint_of, in_groups
from domain.log.job_log import JobLogError
from domain.log.seal_keys import TOPIC, LogKey, as_note, key_of, sealed_with
from domain.log.secret_keeping import SealSigner
from domain.log.store import Store
from domain.log_note import LogNote


def keys_of(store: Store) -> tuple[LogKey, ...]:
    """Every key the log has sealed with, the oldest first."""
    return tuple(map(key_of, store.notes.of(TOPIC, "")))


def key_to_seal(store: Store, signer: SealSigner | None, *, by: str, at: datetime) -> SealedWith | None:
    """The key as papers name it; begun where the log never had one. None where the log seals without.

    JobLogError where the key that the log sealed with last is not here: no other takes its place in silence.
    """
    if signer is None:
        return None
    if not (keys := keys_of(store)):
        with store.transaction():
            # Somebody else may have begun it meanwhile.
            if not (keys := keys_of(store)):
                store.notes.add(TOPIC, LogNote(at=at, who=by, text=as_note(signer.begin(), "")))
                keys = keys_of(store)
    _require(signer, keys[-1])
    return sealed_with(keys)


def rotate(store: Store, signer: SealSigner, *, by: str, at: datetime) -> LogKey:
    """Hand over to a new key: the one as it is signs the next, and is gone."""
    key_to_seal(store, signer, by=by, at=at)
    with store.transaction():
        _require(signer, keys_of(store)[-1])
        key = signer.prepare()
        store.notes.add(TOPIC, LogNote(at=at, who=by, text=as_note(key, signer.hand_over(key))))
    signer.settle(key)
    return keys_of(store)[-1]


def begin_after_loss(store: Store, signer: SealSigner, *, by: str, at: datetime) -> LogKey:
    """Begin a new key where the one before was lost or may be in other hands; nothing leads from that to this."""
    with store.transaction():
        key = signer.prepare()
        store.notes.add(TOPIC, LogNote(at=at, who=by, text=as_note(key, "")))
    signer.settle(key)
    return keys_of(store)[-1]


def _require(signer: SealSigner, newest: LogKey) -> None:
    here = signer.key()
    if here != newest.key:
        # A change of keys may have ended in the middle.
        signer.settle(newest.key)
        here = signer.key()
    if here == newest.key:
        return
    named = in_groups(newest.fingerprint)
    held = f"{signer.kept_in} holds another, {in_groups(fingerprint_of(here))}" if here else f"{signer.kept_in} is gone"
    raise JobLogError(
        f"This log seals with the key {named}, but {held}. Put that key back (`ohmfolio keys unlock` does it out of a copy), "
        "or begin a new one with `ohmfolio keys lost`. Nothing was issued."
    )
