"""The key that a log seals its papers with: how it is named, and what is signed with it.

A key is an Ed25519 public key (RFC 8032), 32 bytes in hexadecimal; a signature with it is 64 bytes. Nothing is signed
or checked here: that is done outside the domain.
"""

import hashlib
from typing import Annotated

from pydantic import Field, StringConstraints

from domain.value import Value, is_empty

_KEY_LETTERS, _FINGERPRINT_LETTERS = 64, 40
_GROUP = 4

KEYS_MAX = 100
SealKey = Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{64}$")]
KeySignature = Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{128}$")]


class EarlierKey(Value):
    """A key that a log sealed with before, and its own signature over the key that came next."""

    key: SealKey
    statement: KeySignature


class SealedWith(Value):
    """The key whose signature a paper bears, and the keys before it that led to it, the oldest first."""

    key: SealKey
    earlier: Annotated[tuple[EarlierKey, ...], Field(max_length=KEYS_MAX, exclude_if=is_empty)] = ()


def fingerprint_of(key: str) -> str:
    """What people compare: the first 160 bits of the SHA-256 of a key, in hexadecimal."""
    return hashlib.sha256(bytes.fromhex(key)).hexdigest()[:_FINGERPRINT_LETTERS]


def in_groups(fingerprint: str) -> str:
    """A fingerprint as it is printed and read out: four by four."""
    return " ".join(fingerprint[at : at + _GROUP] for at in range(0, len(fingerprint), _GROUP))


def fingerprint_asked(typed: str) -> str:
    """The fingerprint that somebody typed, in groups or not, or that of the key they typed; "" where it is neither."""
    plain = "".join(typed.split()).replace(":", "").casefold()
    if not plain or set(plain) - set("0123456789abcdef"):
        return ""
    if len(plain) == _KEY_LETTERS:
        return fingerprint_of(plain)
    return plain if len(plain) == _FINGERPRINT_LETTERS else ""


def sealing_text(number: str, record_sha256: str, seal: str, head: str, key: str) -> bytes:
    """What a log signs of a paper: its number, its record, the file itself by its seal, and the chain it follows on."""
    lines = ("Ohmfolio paper, 1", number, record_sha256, seal, head, key)
    return "\n".join(lines).encode()


def succession_text(key: str) -> bytes:
    """What the key before signs when another takes its place."""
    return f"Ohmfolio key that follows, 1\n{key}".encode()
