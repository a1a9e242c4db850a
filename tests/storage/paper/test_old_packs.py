"""Packs of the engine before this one verify for ever. They were made by the demo, of invented people and places."""

from pathlib import Path

import pytest

from domain.gate.proof import Proof, ProofVerdict, Seal
from domain.job.job import canonical
from domain.log.job_log import BoundPaper
from domain.log.stored_log import StoredLog
from storage.child_process import named
from storage.paper.examining import examine
from storage.paper.seal import SealCheck, holds
from storage.sqlite_store import SqliteStore
from storage.verifying import proof_of as proof_apart
from tests.builders import AT, INSPECTOR, complete_minor_works

PACKS = sorted((Path(__file__).parent / "old_packs").glob("*.pdf"))
KEYED = sorted((Path(__file__).parent / "old_packs" / "with_key").glob("*.pdf"))
FINGERPRINT = "507c9d14952a6a9985cac2a1abc5b46378a02a9e"
"""Of the key of the demo log that made them, with the engine of now, before papers bore logos and digests of what is beside."""
LATER = {"A-0004": "836e0d4618aa9e0262c5a39cd6f4dda675351924"}
"""Of another demo log: packs with such digests, before schedules came behind all that is laid upright."""


@pytest.fixture(scope="module")
def log_of_old(tmp_path_factory):
    """A log that issued the old packs under their numbers; it had no key yet."""
    sqlite_log = StoredLog(SqliteStore.open(tmp_path_factory.mktemp("old") / "log"))
    for at in range(1, 6):
        number = sqlite_log.create(complete_minor_works(), who="tamsin", at=AT).number
        old = [pack for pack in PACKS if pack.stem == number]
        assert number == f"A-000{at}"
        for pack in old:
            pdf = pack.read_bytes()
            sqlite_log.issue(number, by=INSPECTOR, at=AT, bind=lambda _, pdf=pdf: BoundPaper(pdf=pdf, pages=3))
    yield sqlite_log
    sqlite_log.close()


def proof_of(pdf: bytes, log: StoredLog | None, *, firm: tuple[str, ...] = ()) -> Proof:
    """The answer, read in the process that tests; one pack is read in processes of its own."""
    return proof_apart(pdf, log, lambda function, request, _: named(function)(request), firm=firm)


def test_an_old_pack_with_a_key_is_read_in_a_process_of_its_own():
    assert proof_apart(KEYED[0].read_bytes(), None, firm=(FINGERPRINT,)).verdict is ProofVerdict.UNALTERED


def test_there_are_old_packs_of_every_form():
    assert [pack.stem for pack in PACKS] == ["A-0001", "A-0002", "A-0005"]
    assert {str(examine(pack.read_bytes()).record.form_set) for pack in PACKS} == {"EIC", "MEIWC", "EICR"}


@pytest.mark.parametrize("pack", PACKS, ids=lambda pack: pack.stem)
def test_the_seal_of_an_old_pack_holds_and_its_record_is_read(pack: Path):
    pdf = pack.read_bytes()
    exhibit = examine(pdf)
    assert holds(pdf) is SealCheck.YES
    assert (exhibit.seal, exhibit.number, exhibit.is_ours) == (Seal.HOLDS, pack.stem, True)
    assert exhibit.record
    assert exhibit.record.issued
    assert canonical(exhibit.record)


@pytest.mark.parametrize("pack", PACKS, ids=lambda pack: pack.stem)
def test_an_old_pack_is_unaltered_for_the_log_that_issued_it(pack: Path, log_of_old):
    assert proof_of(pack.read_bytes(), log_of_old).verdict is ProofVerdict.UNALTERED


@pytest.mark.parametrize("at", [0, 1000, 20_000, -1])
def test_an_old_pack_with_one_byte_changed_is_altered(at: int, log_of_old):
    changed = bytearray(PACKS[0].read_bytes())
    changed[at] ^= 1
    assert holds(bytes(changed)) is not SealCheck.YES
    assert proof_of(bytes(changed), log_of_old).verdict is ProofVerdict.ALTERED


def test_an_old_pack_without_its_log_is_not_called_altered():
    for pack in PACKS:
        proof = proof_of(pack.read_bytes(), None)
        assert proof.verdict is ProofVerdict.UNKNOWN
        assert any("seal holds" in note for note in proof.notes)


@pytest.mark.parametrize("pack", KEYED, ids=lambda pack: pack.stem)
def test_a_pack_of_an_earlier_version_is_told_by_the_key_of_its_log_alone(pack: Path):
    pdf = pack.read_bytes()
    record = examine(pdf).record
    assert holds(pdf) is SealCheck.YES
    assert record
    key = LATER.get(pack.stem, FINGERPRINT)
    assert (b"page_sha256" in canonical(record)) is (pack.stem in LATER)
    assert proof_of(pdf, None, firm=(key,)).verdict is ProofVerdict.UNALTERED
    assert proof_of(pdf, None, firm=(key[::-1],)).verdict is ProofVerdict.NOT_THEIRS
    changed = bytearray(pdf)
    changed[len(pdf) // 2] ^= 1
    assert proof_of(bytes(changed), None, firm=(key,)).verdict is ProofVerdict.ALTERED


def test_there_are_packs_with_a_key_of_every_kind():
    assert [pack.stem for pack in KEYED] == ["A-0001", "A-0002", "A-0004"]
