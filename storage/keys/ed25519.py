"""Signatures by Ed25519 (RFC 8032); the library is loaded at the first of them."""


def public_key(secret: bytes) -> str:
    """The public key of 32 secret bytes, in hexadecimal."""
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

    return Ed25519PrivateKey.from_private_bytes(secret).public_key().public_bytes_raw().hex()


def signature(secret: bytes, text: bytes) -> str:
    """The signature over a text, in hexadecimal; the same text has the same one."""
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

    return Ed25519PrivateKey.from_private_bytes(secret).sign(text).hex()


def is_signed(key: str, text: bytes, signed: str) -> bool:
    """The signature was made over this text with the secret half of this key."""
    from cryptography.exceptions import InvalidSignature
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey

    try:
        Ed25519PublicKey.from_public_bytes(bytes.fromhex(key)).verify(bytes.fromhex(signed), text)
    except (InvalidSignature, ValueError):
        return False
    return True
