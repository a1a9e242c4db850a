"""Certificates by which people of a firm sign papers beside the seal: what signs with one, and those that a log knows."""

from datetime import datetime
from typing import NamedTuple, Protocol

from domain.log.job_log import JobLog

_TOPIC = "certificates known"


class CertificateFile(NamedTuple):
    """A certificate and its key in a file, as PKCS #12, and the phrase that opens it."""

    held: bytes
    phrase: str


class CertificateToken(NamedTuple):
    """A token by the library that came with it, its PIN, and which certificate in it; "" for the only one."""

    library: str
    pin: str
    label: str


class SignedPaper(NamedTuple):
    """A paper that was signed, and whose certificate it was signed with."""

    pdf: bytes
    by: str
    certificate: str
    """Its SHA-256, in hexadecimal."""


class PaperSigning(Protocol):
    """Signs papers. It stands outside the domain: it needs libraries, and may ask a service. JobLogError where it cannot."""

    def own_certificate(self, firm: str, phrase: str, *, at: datetime) -> tuple[CertificateFile, str]:
        """A certificate that a firm makes for itself, and its SHA-256."""
        ...

    def require(self, certificate: CertificateFile | CertificateToken) -> None:
        """JobLogError where it is plain beforehand that nothing can be signed with it."""
        ...

    def signed(self, pdf: bytes, certificate: CertificateFile | CertificateToken) -> SignedPaper:
        """The paper with a signature behind it."""
        ...


def certificates_known(log: JobLog) -> tuple[str, ...]:
    """The SHA-256 of each."""
    return tuple(note.text.partition(" ")[0] for note in log.notes(_TOPIC))


def note_certificate(log: JobLog, certificate: str, named: str, *, who: str, at: datetime) -> None:
    """Know a certificate from now on; once is enough."""
    if certificate not in certificates_known(log):
        log.add_note(_TOPIC, f"{certificate} {named}", who=who, at=at)
