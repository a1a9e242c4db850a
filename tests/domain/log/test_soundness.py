"""Records that were altered, taken out, put in or exchanged after they were issued are named, each by what is wrong with it."""

import hashlib
from collections.abc import Callable

import pytest

from domain.log.chain import NO_RECORD, entered, entry_hash, leaf, link
from domain.log.soundness import LinkedRecord, faults_of_chain, faults_of_counting
from domain.log.upkeep import Concern

DO = "Go back to a copy."


def log_of(*bodies: bytes) -> list[LinkedRecord]:
    """Records as a log keeps them, each linked to the one before."""
    records, chain = list[LinkedRecord](), NO_RECORD
    for seq, body in enumerate(bodies, start=1):
        pdf = hashlib.sha256(b"paper of " + body).digest()
        chain = link(chain, leaf(body), pdf)
        records.append(LinkedRecord(seq, f"A-{seq:04d}", body, leaf(body), chain, pdf))
    return records


SOUND = log_of(b"one", b"two", b"three", b"four")


def with_second(**held: object) -> list[LinkedRecord]:
    return [SOUND[0], SOUND[1]._replace(**held), *SOUND[2:]]


def slipped_in() -> list[LinkedRecord]:
    other = LinkedRecord(
        2, "A-0009", b"forged", leaf(b"forged"), link(SOUND[0].chain, leaf(b"forged"), bytes(32)), bytes(32)
    )
    return [SOUND[0], other, *(each._replace(seq=each.seq + 1) for each in SOUND[1:])]


NOT_AS_ISSUED, BROKEN_AT = "The record of {} is not as it was issued.", "The chain over issued records is broken at {}."
MISSING = "Before {}, {} issued records are missing."


@pytest.mark.parametrize(
    ("records", "said"),
    [
        pytest.param(list, [], id="a log that issued nothing"),
        pytest.param(lambda: SOUND, [], id="a sound one"),
        pytest.param(lambda: SOUND[:-1], [], id="its last record gone, which the ledger tells and not the chain"),
        pytest.param(lambda: with_second(body=b"two!"), [NOT_AS_ISSUED.format("A-0002")], id="a record altered"),
        pytest.param(lambda: with_second(body=b"two!", sha=leaf(b"two!")), [BROKEN_AT.format("A-0002")], id="altered with its hash"),
        pytest.param(lambda: with_second(pdf_sha=bytes(32)), [BROKEN_AT.format("A-0002")], id="another paper"),
        pytest.param(lambda: with_second(chain=bytes(32)), [BROKEN_AT.format("A-0002"), BROKEN_AT.format("A-0003")], id="the chain itself"),
        pytest.param(lambda: SOUND[1:], [MISSING.format("A-0002", 1), BROKEN_AT.format("A-0002")], id="the first gone"),
        pytest.param(lambda: [SOUND[0], SOUND[3]], [MISSING.format("A-0004", 2), BROKEN_AT.format("A-0004")], id="two gone"),
        pytest.param(slipped_in, [BROKEN_AT.format("A-0002")], id="one slipped in"),
        pytest.param(lambda: log_of(b"one", b"forged", b"three"), [], id="written anew from there on, which only a head kept elsewhere tells"),
    ],
)  # fmt: skip
def test_what_was_done_to_the_records_of_a_log_is_told_where_it_was_done(
    records: Callable[[], list[LinkedRecord]], said: list[str]
) -> None:
    faults = [*faults_of_chain(records(), DO)]
    assert [each.says for each in faults] == said
    assert all((each.about, each.do) == (Concern.RECORDS, DO) for each in faults)


@pytest.mark.parametrize(
    ("given", "following", "lost"),
    [
        ((), 1, ""),
        ((1, 2, 3), 4, ""),
        ((3, 1), 4, "A-0002"),
        ((1,), 3, "A-0002"),
        ((), 6, "A-0001, A-0002, A-0003, A-0004, A-0005"),
        ((2,), 8, "A-0001, A-0003, A-0004, A-0005, A-0006 and 1 more"),
        ((1, 12), 10, "A-0002, A-0003, A-0004, A-0005, A-0006 and 3 more"),
    ],
)
def test_numbers_that_were_given_and_lead_to_no_job_are_named_and_of_many_the_rest_counted(
    given: tuple[int, ...], following: int, lost: str
) -> None:
    faults = [*faults_of_counting("A", given, following, DO)]
    expected = [f"Numbers were given for jobs that are not there: {lost}."] if lost else []
    assert [each.says for each in faults] == expected
    assert all((each.about, each.do) == (Concern.RECORDS, DO) for each in faults)


def test_hashes_of_records_links_entries_and_heads_are_sha_256_of_bytes_that_no_two_of_them_share() -> None:
    """After RFC 6962, 2.1, where a leaf begins with 0 and what joins with 1; entries and heads of the ledger go on with 2 and 3."""
    one, two, three = b"a" * 32, b"b" * 32, b"c" * 32
    assert leaf(one) == hashlib.sha256(b"\x00" + one).digest()
    assert link(one, two, three) == hashlib.sha256(b"\x01" + one + two + three).digest()
    assert entry_hash(one) == hashlib.sha256(b"\x02" + one).digest()
    assert entered(one, two) == hashlib.sha256(b"\x03" + one + two).digest()
    assert bytes(32) == NO_RECORD
