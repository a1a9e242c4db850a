"""Signatures by certificates of people's own: with the time of a service, out of a token, and what becomes of the archive rules.

PAdES B-B and B-T: ETSI EN 319 142-1; time stamps: RFC 3161; tokens: PKCS #11 (OASIS). The service answers in this process with
the signer that pyHanko has for tests; the token is SoftHSM. Neither stands for every service and token there is.
"""

import asyncio
import json
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from http.server import BaseHTTPRequestHandler, HTTPServer
from io import BytesIO
from pathlib import Path
from threading import Thread

import pikepdf
import pytest
from asn1crypto import keys, tsp
from asn1crypto import x509 as asn1_x509
from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import rsa
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat, pkcs12
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID
from pyhanko.sign.timestamps import DummyTimeStamper

from domain.gate.proof import LaterSignature, LaterState, SignerTrust
from domain.inspection.observation import Code
from domain.log.certificates import CertificateFile, CertificateToken
from storage.pades.checking import later_signature
from storage.pades.signing import PadesSigning, SigningError
from tests.builders import AT, complete_certificate, complete_minor_works, complete_report
from tests.storage.paper.pages import issued

PHRASE = "larch over granite"
STAMPED = datetime(2026, 3, 2, 16, 45, tzinfo=UTC)
SOFT_TOKEN = Path("/usr/lib/softhsm/libsofthsm2.so")
PIN = "4711"


@pytest.fixture(scope="module")
def pdf() -> bytes:
    return issued(complete_minor_works()).pdf


@pytest.fixture(scope="module")
def certificate() -> CertificateFile:
    made, _ = PadesSigning().own_certificate("Harebell Electrical", PHRASE, at=AT)
    return made


def behind(signed: bytes, pdf: bytes) -> LaterSignature:
    assert signed.startswith(pdf)
    return later_signature(signed, len(pdf), b"")


@pytest.mark.parametrize(
    "job",
    [complete_minor_works(), complete_certificate(), complete_report(Code.C2)],
    ids=["minor works", "certificate", "report"],
)
def test_a_signed_paper_of_every_kind_is_its_paper_with_a_signature_that_holds(certificate, job):
    pdf = issued(job).pdf
    told = behind(PadesSigning().signed(pdf, certificate).pdf, pdf)
    assert (told.state, told.trust, told.by) == (LaterState.HOLDS, SignerTrust.ITSELF, "Harebell Electrical")


def _service_certificate() -> tuple[asn1_x509.Certificate, keys.PrivateKeyInfo]:
    key = rsa.generate_private_key(65537, 2048)
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "An invented time-stamp service")])
    made = (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(name)
        .public_key(key.public_key())
        .serial_number(1)
        .not_valid_before(datetime(2026, 1, 1, tzinfo=UTC))
        .not_valid_after(datetime(2046, 1, 1, tzinfo=UTC))
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.TIME_STAMPING]), critical=True)
        .sign(key, SHA256())
    )
    held = key.private_bytes(Encoding.DER, PrivateFormat.PKCS8, NoEncryption())
    return asn1_x509.Certificate.load(made.public_bytes(Encoding.DER)), keys.PrivateKeyInfo.load(held)


@contextmanager
def time_stamp_service() -> Iterator[str]:
    stamper = DummyTimeStamper(*_service_certificate(), fixed_dt=STAMPED)

    class Answering(BaseHTTPRequestHandler):
        def do_POST(self) -> None:
            asked = tsp.TimeStampReq.load(self.rfile.read(int(self.headers["Content-Length"])))
            answer = asyncio.run(stamper.async_request_tsa_response(asked)).dump()
            self.send_response(200)
            self.send_header("Content-Type", "application/timestamp-reply")
            self.send_header("Content-Length", str(len(answer)))
            self.end_headers()
            self.wfile.write(answer)

        def log_message(self, *_: object) -> None:
            pass

    server = HTTPServer(("127.0.0.1", 0), Answering)
    Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/"
    finally:
        server.shutdown()
        server.server_close()


def test_a_signature_bears_the_time_of_the_service_that_is_set(pdf, certificate):
    with time_stamp_service() as address:
        signed = PadesSigning(address).signed(pdf, certificate).pdf
    told = behind(signed, pdf)
    assert told.state is LaterState.HOLDS
    assert (told.is_time_stamped, told.at) == (True, STAMPED)


def test_a_service_that_does_not_answer_is_told_and_nothing_is_signed(pdf, certificate):
    with time_stamp_service() as address:
        pass
    with pytest.raises(SigningError, match="cannot be signed"):
        PadesSigning(address).signed(pdf, certificate)


@pytest.fixture
def token(tmp_path, monkeypatch, certificate) -> CertificateToken:
    """A token with the certificate that `ohmfolio keys new` makes, and its key."""
    pkcs11 = pytest.importorskip("pkcs11", reason="python-pkcs11 is not installed")
    if not (SOFT_TOKEN.exists() and (tool := shutil.which("softhsm2-util"))):
        pytest.skip("SoftHSM is not installed")
    folder = tmp_path / "token"
    folder.mkdir()
    settings = tmp_path / "softhsm2.conf"
    settings.write_text(f"directories.tokendir = {folder}\nobjectstore.backend = file\n", encoding="utf-8")
    monkeypatch.setenv("SOFTHSM2_CONF", str(settings))
    key, made, _ = pkcs12.load_key_and_certificates(certificate.held, PHRASE.encode())
    assert key
    assert made
    held = tmp_path / "key.pem"
    held.write_bytes(key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption()))
    named = ("--token", "office", "--pin", PIN)
    subprocess.run([tool, "--init-token", "--free", "--label", "office", "--so-pin", "0815", "--pin", PIN], check=True, capture_output=True)  # fmt: skip
    subprocess.run([tool, "--import", held, *named, "--label", "Tamsin", "--id", "a1"], check=True, capture_output=True)
    shown = made.public_bytes(Encoding.DER)
    attribute = pkcs11.Attribute
    library = pkcs11.lib(str(SOFT_TOKEN))
    library.reinitialize()
    with library.get_token(token_label="office").open(rw=True, user_pin=PIN) as session:
        session.create_object(
            {
                attribute.CLASS: pkcs11.ObjectClass.CERTIFICATE,
                attribute.CERTIFICATE_TYPE: pkcs11.CertificateType.X_509,
                attribute.TOKEN: True,
                attribute.LABEL: "Tamsin",
                attribute.ID: b"\xa1",
                attribute.SUBJECT: made.subject.public_bytes(),
                attribute.VALUE: shown,
            }
        )
    return CertificateToken(str(SOFT_TOKEN), PIN, "Tamsin")


def test_a_token_signs_as_a_file_does_and_its_key_stays_in_it(pdf, token):
    signed = PadesSigning().signed(pdf, token)
    told = behind(signed.pdf, pdf)
    assert signed.by == told.by == "Harebell Electrical"
    assert (told.state, told.trust) == (LaterState.HOLDS, SignerTrust.ITSELF)
    assert PadesSigning().signed(pdf, token._replace(label="")).by == "Harebell Electrical", "the only one"
    with pytest.raises(SigningError, match="token cannot be used"):
        PadesSigning().signed(pdf, token._replace(pin="0000"))
    with pytest.raises(SigningError, match="token cannot be used"):
        PadesSigning().signed(pdf, token._replace(label="Nobody"))


@pytest.fixture(scope="module")
def signed(pdf, certificate) -> bytes:
    return PadesSigning().signed(pdf, certificate).pdf


def test_a_signed_paper_still_says_that_it_is_archival_and_means_it(pdf, signed):
    with pikepdf.open(BytesIO(signed)) as file, pikepdf.open(BytesIO(pdf)) as before:
        said, was = file.open_metadata(), before.open_metadata()
        for name in ("pdfaid:part", "pdfaid:conformance", "pdfuaid:part", "dc:title"):
            assert said[name] == was[name]
        assert file.check_pdf_syntax() == []
        # ISO 19005-3, 6.6.2: what the information says stands in the metadata too.
        assert said["pdf:Producer"] == str(file.docinfo["/Producer"])
        assert (
            said["xmp:ModifyDate"][:19].replace("-", "").replace(":", "").replace("T", "")
            == str(file.docinfo["/ModDate"])[2:16]
        )
        assert file.Root.OutputIntents == before.Root.OutputIntents
        assert file.Root.AF[0].AFRelationship == "/Source"
        (field,) = file.Root.AcroForm.Fields
        # 6.3.2: an annotation is printed and never hidden. 6.4.1: no form is left to a reader to draw.
        assert field.F & 0b100100110 == 0b100
        assert "/NeedAppearances" not in file.Root.AcroForm
        assert "/AA" not in field


def test_a_checker_of_accessibility_finds_one_thing_in_a_signed_paper_that_the_standard_excepts(signed, tmp_path):
    """ISO 14289-1, 7.18.1 (from memory): what stands outside the page need not be tagged. The checker does not know that."""
    file, report = tmp_path / "signed.pdf", tmp_path / "report.json"
    file.write_bytes(signed)
    command = [
        str(Path(sys.executable).with_name("outloud")),
        "--layer",
        "conformance",
        "--json",
        str(report),
        str(file),
    ]
    subprocess.run(command, capture_output=True, text=True, timeout=120, check=False)
    (told,) = json.loads(report.read_text(encoding="utf-8"))["results"]
    assert {each["rule"] for each in told["findings"]} == {"FRM-003"}
    with pikepdf.open(BytesIO(signed)) as pdf_file:
        (field,) = pdf_file.Root.AcroForm.Fields
        assert field.Rect[2] < 0
        assert field.Rect[3] < 0
        assert str(field.TU) == "Signature of Harebell Electrical"
        assert pdf_file.pages[0].Tabs == "/S"
