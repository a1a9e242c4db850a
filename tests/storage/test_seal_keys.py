"""The key of a log: made once, kept to its owner, handed over, lost, and carried in copies; old papers stay checkable."""

import stat
import subprocess
from pathlib import Path

import pytest

from domain.gate.issued_paper import IssuedPaper
from domain.gate.proof import Proof, ProofVerdict
from domain.job.seal_key import fingerprint_of
from domain.log.job_log import JobLogError
from storage.child_process import named
from storage.keys.ed25519 import is_signed, public_key, signature
from storage.keys.key_file import KEY_NAME, NEXT_NAME, KeyFile
from storage.keys.locked_key import locked, unlocked
from storage.pdf import bind
from storage.sqlite_job_log import SqliteJobLog
from storage.upkeep.sqlite_upkeep import SqliteUpkeep
from storage.verifying import proof_of
from tests.builders import AT, INSPECTOR, complete_minor_works

pytestmark = pytest.mark.usefixtures("processes_part")

WHO = "tamsin"
PHRASE = "larch over granite"


def issued_by(log: SqliteJobLog) -> bytes:
    number = log.create(complete_minor_works(), who=WHO, at=AT).number
    issued = log.issue(number, by=INSPECTOR, at=AT, bind=bind)
    assert isinstance(issued, IssuedPaper)
    return Path(issued.kept).read_bytes()


def asked_by(pdf: bytes, *firm: str) -> Proof:
    return proof_of(pdf, None, lambda function, request, _: named(function)(request), firm=firm)


# RFC 8032, section 7.1, tests 1 and 2: secret key, public key, message, signature.
RFC_8032 = (
    (
        "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
        "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
        "",
        "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
    ),
    (
        "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
        "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
        "72",
        "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
    ),
)


@pytest.mark.parametrize(("secret", "public", "text", "signed"), RFC_8032)
def test_signatures_are_those_of_the_published_examples(secret: str, public: str, text: str, signed: str):
    assert public_key(bytes.fromhex(secret)) == public
    assert signature(bytes.fromhex(secret), bytes.fromhex(text)) == signed
    assert is_signed(public, bytes.fromhex(text), signed)
    assert not is_signed(public, bytes.fromhex(text) + b".", signed)


def test_a_new_log_has_a_key_for_its_owner_alone_that_other_programs_can_read(home, sqlite_log):
    file = home / KEY_NAME
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    from cryptography.hazmat.primitives.serialization import load_pem_private_key

    read = load_pem_private_key(file.read_bytes(), None)
    assert read.public_key().public_bytes_raw().hex() == public_key(KeyFile(home).secret())


def test_a_paper_is_known_by_the_fingerprint_alone_and_by_no_other(sqlite_log):
    pdf = issued_by(sqlite_log)
    (key,) = sqlite_log.seal_keys()
    assert asked_by(pdf, key.fingerprint).verdict is ProofVerdict.UNALTERED
    assert asked_by(pdf, fingerprint_of("ab" * 32)).verdict is ProofVerdict.NOT_THEIRS
    alone = asked_by(pdf)
    assert alone.verdict is ProofVerdict.UNKNOWN
    assert any("--firm" in note for note in alone.notes)


def test_a_key_that_hands_over_leaves_papers_of_both_known_by_either_way(home, sqlite_log):
    old = issued_by(sqlite_log)
    second = sqlite_log.rotate_seal_key(who=WHO, at=AT)
    third = sqlite_log.rotate_seal_key(who=WHO, at=AT)
    new = issued_by(sqlite_log)
    first = sqlite_log.seal_keys()[0]
    assert asked_by(old, first.fingerprint).verdict is ProofVerdict.UNALTERED
    assert asked_by(old, first.fingerprint, third.fingerprint).verdict is ProofVerdict.UNALTERED
    for known in (first, second, third):
        assert asked_by(new, known.fingerprint).verdict is ProofVerdict.UNALTERED
    assert "handed over" in " ".join(asked_by(new, first.fingerprint).notes)
    assert not (home / NEXT_NAME).exists()


def test_nothing_leads_from_a_lost_key_to_the_next_but_papers_of_the_lost_one_stay_known(home, sqlite_log):
    old = issued_by(sqlite_log)
    lost = sqlite_log.seal_keys()[0]
    (home / KEY_NAME).unlink()
    with pytest.raises(JobLogError, match="keys lost"):
        issued_by(sqlite_log)
    begun = sqlite_log.replace_lost_seal_key(who=WHO, at=AT)
    new = issued_by(sqlite_log)
    assert asked_by(old, lost.fingerprint).verdict is ProofVerdict.UNALTERED
    assert asked_by(new, begun.fingerprint).verdict is ProofVerdict.UNALTERED
    assert asked_by(new, lost.fingerprint).verdict is ProofVerdict.NOT_THEIRS


def test_a_change_of_keys_that_ended_in_the_middle_is_finished_by_the_next_issue(home, sqlite_log):
    issued_by(sqlite_log)
    was = (home / KEY_NAME).read_bytes()
    begun = sqlite_log.rotate_seal_key(who=WHO, at=AT)
    (home / KEY_NAME).rename(home / NEXT_NAME)
    (home / KEY_NAME).write_bytes(was)
    assert asked_by(issued_by(sqlite_log), begun.fingerprint).verdict is ProofVerdict.UNALTERED


def test_another_key_put_in_its_place_issues_nothing(home, sqlite_log, tmp_path):
    issued_by(sqlite_log)
    SqliteJobLog.open(tmp_path / "other").close()
    (tmp_path / "other" / KEY_NAME).replace(home / KEY_NAME)
    with pytest.raises(JobLogError, match="holds another"):
        issued_by(sqlite_log)
    (home / KEY_NAME).write_text("no key")
    with pytest.raises(JobLogError, match="holds no key"):
        issued_by(sqlite_log)


def test_a_key_locked_by_a_phrase_opens_with_that_phrase_alone():
    secret = bytes(range(32))
    text = locked(secret, PHRASE, cost=2**10)
    assert unlocked(text, PHRASE) == secret
    assert unlocked(text, PHRASE + ".") is None
    assert unlocked(text[:-1] + ("0" if text[-1] != "0" else "1"), PHRASE) is None
    assert locked(secret, PHRASE, cost=2**10) != text


def test_a_copy_leaves_the_key_out_or_carries_it_locked(home, sqlite_log, tmp_path):
    pdf = issued_by(sqlite_log)
    fingerprint = sqlite_log.seal_keys()[0].fingerprint
    without, with_key = tmp_path / "without.ohmfolio", tmp_path / "with.ohmfolio"
    upkeep = SqliteUpkeep(home)
    assert not upkeep.back_up(str(without)).holds_key
    assert upkeep.back_up(str(with_key), phrase=PHRASE).holds_key
    secret = KeyFile(home).secret()
    assert not any(
        held in file.read_bytes() for file in (without, with_key) for held in (secret, secret.hex().encode())
    )
    other = SqliteUpkeep(tmp_path / "other")
    restored = other.restore(str(with_key), at=AT)
    assert (restored.key_missing, restored.key_is_locked) == (fingerprint, True)
    assert other.unlock_key(PHRASE) == fingerprint
    with pytest.raises(JobLogError, match="No key came"):
        other.unlock_key(PHRASE)
    log = SqliteJobLog.open(tmp_path / "other")
    assert asked_by(issued_by(log), fingerprint).verdict is ProofVerdict.UNALTERED
    log.close()
    assert asked_by(pdf, fingerprint).verdict is ProofVerdict.UNALTERED


def test_another_reader_of_signatures_agrees(home, sqlite_log, tmp_path):
    """OpenSSL checks what the log signed, from the key file and the text alone."""
    text = tmp_path / "text"
    text.write_bytes(b"Ohmfolio paper, 1")
    sign = tmp_path / "sign"
    sign.write_bytes(bytes.fromhex(signature(KeyFile(home).secret(), text.read_bytes())))
    done = subprocess.run(
        ["openssl", "pkeyutl", "-verify", "-inkey", home / KEY_NAME, "-rawin", "-in", text, "-sigfile", sign],
        capture_output=True,
        text=True,
        check=False,
    )
    assert "Verified Successfully" in done.stdout + done.stderr
