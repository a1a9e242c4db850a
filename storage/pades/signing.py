"""A signature by somebody's own certificate behind an issued paper, whose bytes stay as they are before it.

PAdES baseline B-B (ETSI EN 319 142-1): a CMS signature over the whole file, that no change is allowed after it. Where a
time-stamp service is set it is B-T. The certificate comes out of a PKCS #12 file, or stays in a PKCS #11 token.
"""

from __future__ import annotations

import importlib
import io
from collections.abc import Generator
from contextlib import contextmanager
from datetime import datetime
from typing import TYPE_CHECKING, Any

from domain.log.certificates import CertificateFile, CertificateToken, SignedPaper
from domain.log.job_log import JobLogError
from storage.errors import INSTALL

if TYPE_CHECKING:
    from pyhanko.sign.signers import Signer

FIELD = "Signature"
NO_EXTRA = f"Signing takes more than is installed here. {INSTALL.format(extra='sign')}"


class SigningError(JobLogError):
    """It cannot be signed; the message is a plain sentence."""


class PadesSigning:
    """Fulfils `domain.log.certificates.PaperSigning`; with the address of a time-stamp service, or none."""

    def __init__(self, time_stamp: str = "") -> None:
        self._time_stamp = time_stamp

    def own_certificate(self, firm: str, phrase: str, *, at: datetime) -> tuple[CertificateFile, str]:
        """A certificate that a firm makes for itself, and its SHA-256."""
        from storage.pades.certificate import own_certificate

        held, certificate = own_certificate(firm, phrase, at=at)
        return CertificateFile(held, phrase), certificate

    def require(self, certificate: CertificateFile | CertificateToken) -> None:
        """SigningError where the file does not open, or what signs is not installed; a token is not asked beforehand."""
        with _library():
            if isinstance(certificate, CertificateFile):
                _opened(certificate)

    def signed(self, pdf: bytes, certificate: CertificateFile | CertificateToken) -> SignedPaper:
        """The paper with a signature behind it. SigningError where it cannot be made."""
        with _library():
            if isinstance(certificate, CertificateFile):
                return _signed(pdf, _opened(certificate), self._time_stamp)
            return self._by_token(pdf, certificate)

    def _by_token(self, pdf: bytes, token: CertificateToken) -> SignedPaper:
        try:
            library: Any = importlib.import_module("pyhanko.sign.pkcs11")
        except ImportError as error:
            raise SigningError(f"Tokens take more than is installed here. {INSTALL.format(extra='token')}") from error
        try:
            with _only_token(token.library).open(user_pin=token.pin) as session:
                signer = library.PKCS11Signer(session, cert_label=token.label or None)
                # A token signs a digest on a curve; few of them digest for it as well.
                signer.use_raw_mechanism = signer.signing_cert.public_key.algorithm == "ec"
                return _signed(pdf, signer, self._time_stamp)
        except SigningError:
            raise
        except Exception as error:
            raise SigningError(f"The token cannot be used: {_said(error)}") from error


def _said(error: Exception) -> str:
    """What the library says; the name of the trouble where it says nothing, as with a wrong PIN."""
    return str(error) or type(error).__name__


def _only_token(library: str) -> Any:
    """The one token that is there and set up, among all that readers offer."""
    pkcs11: Any = importlib.import_module("pkcs11")
    ready = list(pkcs11.lib(library).get_tokens(token_flags=pkcs11.TokenFlag.TOKEN_INITIALIZED))
    if len(ready) != 1:
        named = ", ".join(token.label.strip() for token in ready)
        raise SigningError(f"There is more than one token: {named}; leave one in" if ready else "There is no token")
    return ready[0]


def _opened(file: CertificateFile) -> Signer:
    from pyhanko.sign.signers import SimpleSigner

    try:
        return SimpleSigner.load_pkcs12_data(file.held, [], file.phrase.encode())
    except Exception as error:
        raise SigningError("The file holds no key and certificate that this phrase opens") from error


def _signed(pdf: bytes, signer: Signer, time_stamp: str) -> SignedPaper:
    from pyhanko.pdf_utils.incremental_writer import IncrementalPdfFileWriter
    from pyhanko.sign.fields import InvisSigSettings, MDPPerm, SigFieldSpec, SigSeedSubFilter
    from pyhanko.sign.signers import PdfSignatureMetadata, PdfSigner

    described = PdfSignatureMetadata(
        field_name=FIELD,
        subfilter=SigSeedSubFilter.PADES,
        certify=True,
        docmdp_permissions=MDPPerm.NO_CHANGES,
        md_algorithm="sha256",
    )
    # Outside the page: what no tag describes may stand nowhere else in an accessible file, nor be hidden in an archival one.
    place = SigFieldSpec(
        FIELD,
        invis_sig_settings=InvisSigSettings(box_out_of_bounds=True),
        readable_field_name=f"Signature of {_holder(signer)}",
    )
    writer = IncrementalPdfFileWriter(io.BytesIO(pdf))
    try:
        signing: Any = PdfSigner(described, signer, timestamper=_time_stamper(time_stamp), new_field_spec=place)
        done = bytes(signing.sign_pdf(writer).getvalue())
    except Exception as error:
        raise SigningError(f"It cannot be signed: {_said(error)}") from error
    certificate: Any = signer.signing_cert
    assert done.startswith(pdf)
    return SignedPaper(done, _holder(signer), certificate.sha256.hex())


def _holder(signer: Signer) -> str:
    certificate: Any = signer.signing_cert
    return str(certificate.subject.human_friendly).removeprefix("Common Name: ")


def _time_stamper(address: str) -> Any:
    if not address:
        return None
    from pyhanko.sign.timestamps.requests_client import RequestsHTTPTimeStamper

    return RequestsHTTPTimeStamper(address, timeout=20)


@contextmanager
def _library() -> Generator[None]:
    """The library that signs, told to keep its log to itself."""
    try:
        importlib.import_module("pyhanko")
    except ImportError as error:
        raise SigningError(NO_EXTRA) from error
    with quiet():
        yield


@contextmanager
def quiet() -> Generator[None]:
    """What the library has to tell its developers goes nowhere."""
    import logging

    loggers = [logging.getLogger(name) for name in ("pyhanko", "pyhanko_certvalidator")]
    was = [logger.level for logger in loggers]
    for logger in loggers:
        logger.setLevel(logging.CRITICAL + 1)
    try:
        yield
    finally:
        for logger, level in zip(loggers, was, strict=True):
            logger.setLevel(level)
