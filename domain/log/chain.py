"""The chain over issued records and their papers: whoever holds its head can tell whether any was altered since."""

import hashlib

NO_RECORD = bytes(32)
"""What the first link follows."""


def leaf(body: bytes) -> bytes:
    """The hash of an issued record; its prefix sets it apart from the hashes that join records."""
    return hashlib.sha256(b"\x00" + body).digest()


def link(previous: bytes, record: bytes, pdf: bytes) -> bytes:
    """The next value of the chain, from the one before, the leaf of a record and the SHA-256 of its paper."""
    return hashlib.sha256(b"\x01" + previous + record + pdf).digest()


def entry_hash(entry: bytes) -> bytes:
    """The hash of anything that a log keeps for good, in the bytes its ledger knows it by."""
    return hashlib.sha256(b"\x02" + entry).digest()


def entered(previous: bytes, entry: bytes) -> bytes:
    """The next head of the ledger, from the one before and the hash of what was kept."""
    return hashlib.sha256(b"\x03" + previous + entry).digest()
