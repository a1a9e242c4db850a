"""A key locked by a phrase, as a copy of the log carries it: scrypt (RFC 7914), then ChaCha20-Poly1305 (RFC 8439)."""

import hashlib
import secrets

_COST, _BLOCK, _LANES = 2**16, 8, 1
"""Some 64 MB and a quarter of a second to try a phrase; kept with each, so that they can grow."""
_MEMORY_MAX = 2**28
_SALT, _NONCE = 16, 12
_KIND = "ohmfolio-key-1"


def locked(secret: bytes, phrase: str, *, cost: int = _COST) -> str:
    """The secret as text that nobody reads without the phrase; another text each time."""
    from cryptography.hazmat.primitives.ciphers.aead import ChaCha20Poly1305

    salt, nonce = secrets.token_bytes(_SALT), secrets.token_bytes(_NONCE)
    body = ChaCha20Poly1305(_key(phrase, salt, cost, _BLOCK, _LANES)).encrypt(nonce, secret, _KIND.encode())
    return f"{_KIND} {cost} {_BLOCK} {_LANES} {salt.hex()} {nonce.hex()} {body.hex()}"


def unlocked(text: str, phrase: str) -> bytes | None:
    """The secret; None where the phrase is another, or the text was altered."""
    from cryptography.exceptions import InvalidTag
    from cryptography.hazmat.primitives.ciphers.aead import ChaCha20Poly1305

    try:
        kind, cost, block, lanes, salt, nonce, body = text.split()
        if kind != _KIND:
            return None
        key = _key(phrase, bytes.fromhex(salt), int(cost), int(block), int(lanes))
        return ChaCha20Poly1305(key).decrypt(bytes.fromhex(nonce), bytes.fromhex(body), _KIND.encode())
    except (ValueError, InvalidTag):
        return None


def _key(phrase: str, salt: bytes, cost: int, block: int, lanes: int) -> bytes:
    return hashlib.scrypt(phrase.encode(), salt=salt, n=cost, r=block, p=lanes, maxmem=_MEMORY_MAX, dklen=32)
