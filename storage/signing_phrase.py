"""Signing phrases as a log keeps them: hashed by scrypt (RFC 7914), each with its own salt and parameters."""

import hashlib
import hmac
import secrets

_COST, _BLOCK, _LANES = 2**14, 8, 5
"""What slows a guess down: some 16 MB and a tenth of a second each; stored with each hash, so that they can grow."""
_SALT_BYTES = 16
_MEMORY_MAX = 2**27


class ScryptPhrases:
    """Fulfils `domain.log.store.PhraseHashing`. `cost` is scrypt's N, a power of two; each hash names its own."""

    def __init__(self, cost: int = _COST) -> None:
        self._cost = cost

    def hashed(self, phrase: str) -> str:
        """What is kept of a phrase; another text each time."""
        salt = secrets.token_bytes(_SALT_BYTES)
        made = _scrypt(phrase, salt, self._cost, _BLOCK, _LANES)
        return f"scrypt {self._cost} {_BLOCK} {_LANES} {salt.hex()} {made.hex()}"

    def fits(self, phrase: str, kept: str) -> bool:
        """The phrase is the one that was kept; never so for what cannot be read."""
        try:
            kind, cost, block, lanes, salt, made = kept.split(" ")
            if kind != "scrypt":
                return False
            again = _scrypt(phrase, bytes.fromhex(salt), int(cost), int(block), int(lanes))
            return hmac.compare_digest(again, bytes.fromhex(made))
        except ValueError:
            return False


def _scrypt(phrase: str, salt: bytes, cost: int, block: int, lanes: int) -> bytes:
    return hashlib.scrypt(phrase.encode(), salt=salt, n=cost, r=block, p=lanes, maxmem=_MEMORY_MAX)
