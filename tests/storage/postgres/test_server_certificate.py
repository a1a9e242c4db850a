"""A server whose certificate does not prove who it is, or that encrypts nothing, is told in one sentence, and told nothing.

The line is libpq's own; the other end is a listener of the tests' that answers as a server does until the line is encrypted
(PostgreSQL's documentation, "Frontend/Backend Protocol", SSL session encryption).
"""

import socket
import ssl
import threading
from collections.abc import Iterator
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat
from cryptography.x509.oid import NameOID

from domain.log.job_log import JobLogError
from storage.postgres.server_address import ServerAddress
from storage.postgres.server_lines import connected_to

_SSL_REQUEST = (80877103).to_bytes(4, "big")
_ENCRYPTS, _DOES_NOT = b"S", b"N"


def made(folder: Path, host: str) -> Path:
    """A certificate for a host that it signed itself, and its key, in one file."""
    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, host)])
    certificate = (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(name)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(datetime(2026, 1, 1, tzinfo=UTC))
        .not_valid_after(datetime(2126, 1, 1, tzinfo=UTC))
        .add_extension(x509.SubjectAlternativeName([x509.DNSName(host)]), critical=False)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .sign(key, SHA256())
    )
    file = folder / f"{host}.pem"
    secret = key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
    file.write_bytes(certificate.public_bytes(Encoding.PEM) + secret)
    return file


class Listener:
    """Answers one after the other, and keeps what it is told once the line is encrypted."""

    def __init__(self, certificate: Path | None) -> None:
        self._certificate, self.told = certificate, list[bytes]()
        self._socket = socket.create_server(("127.0.0.1", 0))
        self.port = self._socket.getsockname()[1]
        self._thread = threading.Thread(target=self._listen, daemon=True)
        self._thread.start()

    def close(self) -> None:
        self._socket.shutdown(socket.SHUT_RDWR)
        self._socket.close()
        self._thread.join()

    def _listen(self) -> None:
        with suppress(OSError):
            while True:
                line, _ = self._socket.accept()
                with line, suppress(OSError):
                    self._answer(line)

    def _answer(self, line: socket.socket) -> None:
        while (asked := line.recv(8)) and asked[4:] != _SSL_REQUEST:
            line.sendall(_DOES_NOT)
        if self._certificate is None:
            line.sendall(_DOES_NOT)
            return
        line.sendall(_ENCRYPTS)
        context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
        context.load_cert_chain(self._certificate)
        with context.wrap_socket(line, server_side=True) as encrypted:
            self.told.append(encrypted.recv(4096))


@pytest.fixture
def listeners() -> Iterator[list[Listener]]:
    begun: list[Listener] = []
    yield begun
    for each in begun:
        each.close()


@pytest.mark.parametrize(
    ("made_out_to", "trusted", "says"),
    [
        ("localhost", "office", "does not prove who it is"),
        ("office", "office", "does not prove who it is"),
        ("localhost", "nowhere", "cannot be read"),
        ("", "office", "does not encrypt the line"),
    ],
)
def test_a_server_that_does_not_prove_who_it_is_is_told_in_a_sentence_and_hears_nothing(
    made_out_to: str, trusted: str, says: str, tmp_path: Path, listeners: list[Listener]
) -> None:
    files = {host: made(tmp_path, host) for host in ("localhost", "office")}
    listener = Listener(files.get(made_out_to))
    listeners.append(listener)
    root = files.get(trusted, tmp_path / trusted)
    address = f"postgresql://hetty@localhost:{listener.port}/jobs?sslmode=verify-full&sslrootcert={root}"

    with pytest.raises(JobLogError, match=says), connected_to(ServerAddress.parsed(address)):
        pass

    assert listener.told in ([], [b""])


def test_a_server_that_proves_who_it_is_is_spoken_to(tmp_path: Path, listeners: list[Listener]) -> None:
    listener = Listener(made(tmp_path, "localhost"))
    listeners.append(listener)
    address = (
        f"postgresql://hetty@localhost:{listener.port}/jobs?sslmode=verify-full&sslrootcert={tmp_path}/localhost.pem"
    )

    with pytest.raises(JobLogError, match="does not answer"), connected_to(ServerAddress.parsed(address)):
        pass

    assert b"hetty" in listener.told[0]
