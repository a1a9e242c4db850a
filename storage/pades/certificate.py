"""A certificate that a firm makes for itself, in the file other programs know as PKCS #12."""

from datetime import datetime, timedelta

_NAME_MAX = 64
"""Letters of a name in a certificate (ITU-T X.520, ub-common-name)."""
_LIVES = timedelta(days=3653)
_SIGNS_DOCUMENTS = "1.3.6.1.5.5.7.3.36"
"""That it is for signing documents (RFC 9336)."""


def own_certificate(firm: str, phrase: str, *, at: datetime) -> tuple[bytes, str]:
    """A new key on the curve P-256 and a certificate for it that it signed itself, locked by the phrase; its SHA-256."""
    from cryptography import x509
    from cryptography.hazmat.primitives.asymmetric import ec
    from cryptography.hazmat.primitives.hashes import SHA256
    from cryptography.hazmat.primitives.serialization import BestAvailableEncryption, pkcs12
    from cryptography.x509.oid import NameOID, ObjectIdentifier

    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, firm[:_NAME_MAX])])
    use = dict.fromkeys(
        (
            "key_encipherment",
            "data_encipherment",
            "key_agreement",
            "key_cert_sign",
            "crl_sign",
            "encipher_only",
            "decipher_only",
        ),
        False,
    )
    certificate = (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(name)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(at)
        .not_valid_after(at + _LIVES)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(x509.KeyUsage(digital_signature=True, content_commitment=True, **use), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ObjectIdentifier(_SIGNS_DOCUMENTS)]), critical=False)
        .sign(key, SHA256())
    )
    held = pkcs12.serialize_key_and_certificates(
        firm.encode(), key, certificate, None, BestAvailableEncryption(phrase.encode())
    )
    return held, certificate.fingerprint(SHA256()).hex()
