"""`sign`: a signature by somebody's own certificate behind an issued paper."""

from pathlib import Path

from domain.gate.proof import NotAPdfError, ProofVerdict, TooMuchInItError
from domain.log.certificates import CertificateFile, CertificateToken, SignedPaper, note_certificate
from tui.commands.command import (
    JSON,
    NO,
    Command,
    CommandAnswer,
    CommandOption,
    Environment,
    TypedArgument,
    UnusableError,
)
from tui.commands.input_files import PACK_MAX, document_in
from tui.commands.typed_phrase import typed_phrase
from tui.services import Services

WITH = CommandOption(
    "--with", "sign with a certificate and its key in a PKCS #12 file; its phrase is asked for", "FILE.p12"
)
TOKEN = CommandOption(
    "--token", "sign with a PKCS #11 token, by the library that came with it; its PIN is asked for", "FILE.so"
)
LABEL = CommandOption("--label", "which certificate of the token", "NAME")
_CERTIFICATE_MAX = 100_000


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Sign a paper that is as it was issued, into a new file beside it."""
    path = Path(typed.words[0])
    pdf = document_in(str(path), PACK_MAX)
    to = path.with_name(f"{path.stem}-signed{path.suffix}")
    if to.exists():
        raise UnusableError(f"{to} exists already and is not written over; nothing is signed")
    certificate = certificate_typed(typed)
    if certificate is None:
        raise UnusableError(f"sign needs {WITH.name} or {TOKEN.name}; usage: {COMMAND.usage}")
    with environment.open_services() as services:
        try:
            proof = services.proof_of(pdf, services.log)
        except (NotAPdfError, TooMuchInItError) as error:
            raise UnusableError(f"{path}: {error}") from None
        if proof.verdict is not ProofVerdict.UNALTERED or proof.signed_later:
            why = "It bears such a signature already." if proof.signed_later else proof.says
            return CommandAnswer({"signed": False, "says": why}, f"✗ Not signed: {why}", NO)
        signed = signed_at(services, pdf, certificate)
        services.write_new(to, signed.pdf)
    return CommandAnswer({"file": str(to), "by": signed.by, "certificate": signed.certificate}, f"{to}\n{told(signed)}")


def certificate_typed(typed: TypedArgument) -> CertificateFile | CertificateToken | None:
    """What to sign with, its phrase or PIN asked for; None where nothing was typed."""
    file, token = typed.value(WITH.name), typed.value(TOKEN.name)
    if file and token:
        raise UnusableError(f"Give {WITH.name} or {TOKEN.name}, not both")
    if file:
        held = document_in(file, _CERTIFICATE_MAX)
        return CertificateFile(held, typed_phrase("The phrase of the certificate: ", "The phrase of a certificate"))
    if token:
        return CertificateToken(token, typed_phrase("The PIN of the token: ", "A PIN"), typed.value(LABEL.name))
    return None


def signed_at(services: Services, pdf: bytes, certificate: CertificateFile | CertificateToken) -> SignedPaper:
    """The paper signed; the log knows the certificate from then on."""
    signed = services.signing.signed(pdf, certificate)
    note_certificate(services.log, signed.certificate, signed.by, who=services.who, at=services.now())
    return signed


def told(signed: SignedPaper) -> str:
    """Whose certificate it was."""
    return f"Signed by {signed.by}; SHA-256 of that certificate {signed.certificate}"


COMMAND = Command(
    name="sign",
    run=run,
    words="FILE.pdf",
    least=1,
    most=1,
    options=(WITH, TOKEN, LABEL, JSON),
    explains="For a paper that this log issued, as it was issued. The signature is put behind its bytes, which stay as they are, "
    "into a new file that ends in -signed; readers of PDF show it, and ohmfolio verify tells both apart.\n"
    "It is what PAdES calls B-B, and B-T where OHMFOLIO_TIMESTAMP names a time-stamp service. It takes more than a "
    "plain installation has: in the folder of the source pip install '.[sign]', and '.[token]' for a token, or pipx install "
    "--force with the same; the package for Debian and the container have both. ohmfolio keys new makes a certificate for a firm without one.\n"
    "Exit 1: it is not as this log issued it, or signed already.",
)
