"""What is said of a signature that somebody put behind a paper with a certificate of their own."""

from datetime import UTC, datetime

import pytest

from domain.gate.judging import judge
from domain.gate.proof import LaterSignature, LaterState, Proof, ProofVerdict, SignerTrust
from tests.domain.gate.test_judging_a_file import OTHER, OURS, PAPER, SEALED

CERTIFICATE = "e" * 64
FIRST = "The first 4,096 bytes are A-0001 as its seal has it"
OF_THOSE = "Of those bytes alone: EIC A-0001 is unaltered: byte for byte the file that this log issued."
SEEN = "Page 2 differs from the paper alone."


def answered(later: LaterSignature, *, paper: str = OURS, known: tuple[str, ...] = (), number: str = "A-0001") -> Proof:
    """The answer of a log about its own paper with a signature behind it; of an altered one where `paper` is another."""
    exhibit = SEALED.model_copy(
        update={
            "later": later,
            "issued_bytes": 4096,
            "issued_sha256": paper,
            "number": number,
            "record": PAPER.pack.job,
        }
    )
    return judge(exhibit, PAPER, has_log=True, remade=True, seen=(), known=known, behind=(SEEN,))


@pytest.mark.parametrize(
    ("state", "stands"),
    [
        (LaterState.BROKEN, "a signature by Ida Quill that does not hold"),
        (LaterState.NOT_WHOLE, "a signature by Ida Quill, and changes made after it"),
        (LaterState.CHANGED, "a signature by Ida Quill, and with it changes that signing does not take"),
        (LaterState.ELSE, "something that is no signature"),
    ],
)
def test_a_paper_with_anything_else_behind_it_is_altered_and_what_differs_is_said_first(
    state: LaterState, stands: str
) -> None:
    later = LaterSignature(state=state, by="Ida Quill")
    proof = answered(later)
    assert (proof.verdict, proof.says) == (ProofVerdict.ALTERED, f"{FIRST}; behind them stands {stands}.")
    assert proof.notes == (SEEN, OF_THOSE)
    assert (proof.sha256, proof.signed_later, proof.number) == (OTHER, later, "A-0001")


def test_what_cannot_be_looked_at_here_leaves_a_sound_paper_unknown_and_an_altered_one_altered() -> None:
    later = LaterSignature(state=LaterState.UNCHECKED)
    sound, altered = answered(later), answered(later, paper="f" * 64)
    assert (sound.verdict, altered.verdict) == (ProofVerdict.UNKNOWN, ProofVerdict.ALTERED)
    assert sound.says == (
        f"{FIRST}; behind them, what may be a signature cannot be looked at here. `ohmfolio help sign` tells what to "
        "install to have it checked; or cut the file after byte 4096."
    )
    assert sound.notes == (OF_THOSE,)
    assert (sound.sha256, sound.signed_later) == (OTHER, later)
    assert answered(later, number="").says.startswith("The first 4,096 bytes are a paper as its seal has it")


VOUCHES = (
    "anybody can make a certificate of that name. Ask the signer for its SHA-256, in a way you trust: " + CERTIFICATE
)


@pytest.mark.parametrize(
    ("trust", "known", "at", "when", "whose"),
    [
        (SignerTrust.ITSELF, (), None, "", f"It vouches for itself: {VOUCHES}."),
        (SignerTrust.NOBODY, (), None, "", f"Nobody named here vouches for it: {VOUCHES}."),
        (SignerTrust.AUTHORITY, (), "signer", ", on 2 March 2026, 16:30 GMT by the clock of whoever signed", "Its certificate goes back to an authority that OHMFOLIO_AUTHORITIES names."),
        (SignerTrust.ITSELF, (CERTIFICATE,), "service", ", on 2 March 2026, 16:30 GMT as a time-stamp service says", "This log knows that certificate: it was made or used here."),
    ],
)  # fmt: skip
def test_a_signature_that_holds_leaves_the_answer_and_says_by_whom_when_and_who_vouches(
    trust: SignerTrust, known: tuple[str, ...], at: str | None, when: str, whose: str
) -> None:
    moment = datetime(2026, 3, 2, 16, 30, tzinfo=UTC) if at else None
    later = LaterSignature(
        state=LaterState.HOLDS,
        by="Ida Quill",
        at=moment,
        is_time_stamped=at == "service",
        certificate=CERTIFICATE,
        trust=trust,
    )
    proof = answered(later, known=known)
    assert (proof.verdict, proof.says) == (
        ProofVerdict.UNALTERED,
        "EIC A-0001 is unaltered: byte for byte the file that this log issued.",
    )
    assert proof.notes == (f"{FIRST}; a signature by Ida Quill{when}, valid, over the whole document.", whose)
    assert (proof.sha256, proof.signed_later) == (OTHER, later)
