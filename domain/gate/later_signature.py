"""What is said of a signature that somebody put behind an issued paper with a certificate of their own."""

from domain.civil_time import written_moment
from domain.gate.proof import Exhibit, LaterSignature, LaterState, Proof, ProofVerdict, SignerTrust

_WRONG = {
    LaterState.BROKEN: "a signature by {by} that does not hold",
    LaterState.NOT_WHOLE: "a signature by {by}, and changes made after it",
    LaterState.CHANGED: "a signature by {by}, and with it changes that signing does not take",
    LaterState.ELSE: "something that is no signature",
}
_UNCHECKED = (
    "what may be a signature cannot be looked at here. `ohmfolio help sign` tells what to install to have it checked; "
    "or cut the file after byte {bytes}"
)
_NOT_FINE = (ProofVerdict.ALTERED, ProofVerdict.NOT_THEIRS)


def with_later(proof: Proof, exhibit: Exhibit, known: tuple[str, ...], behind: tuple[str, ...]) -> Proof:
    """The answer about a paper, and about what stands behind it.

    `known` are certificates that the log knows, `behind` is how the file differs to the eye from the paper alone.
    """
    later = exhibit.later
    assert later is not None
    first = f"The first {exhibit.issued_bytes:,} bytes are {exhibit.number or 'a paper'} as its seal has it"
    update: dict[str, object] = {"sha256": exhibit.sha256, "signed_later": later}
    of_those = f"Of those bytes alone: {proof.says}"
    if wrong := _WRONG.get(later.state):
        says = f"{first}; behind them stands {wrong.format(by=later.by)}."
        return proof.model_copy(
            update=update | {"verdict": ProofVerdict.ALTERED, "says": says, "notes": (*behind, of_those, *proof.notes)}
        )
    if later.state is LaterState.UNCHECKED:
        says = f"{first}; behind them, {_UNCHECKED.format(bytes=exhibit.issued_bytes)}."
        verdict = proof.verdict if proof.verdict in _NOT_FINE else ProofVerdict.UNKNOWN
        return proof.model_copy(update=update | {"verdict": verdict, "says": says, "notes": (of_those, *proof.notes)})
    signed = f"{first}; a signature by {later.by}{_when(later)}, valid, over the whole document."
    return proof.model_copy(update=update | {"notes": (*proof.notes, signed, _trust(later, known))})


def _when(later: LaterSignature) -> str:
    if later.at is None:
        return ""
    whose = "as a time-stamp service says" if later.is_time_stamped else "by the clock of whoever signed"
    return f", on {written_moment(later.at)} {whose}"


def _trust(later: LaterSignature, known: tuple[str, ...]) -> str:
    if later.certificate in known:
        return "This log knows that certificate: it was made or used here."
    if later.trust is SignerTrust.AUTHORITY:
        return "Its certificate goes back to an authority that OHMFOLIO_AUTHORITIES names."
    whose = "It vouches for itself" if later.trust is SignerTrust.ITSELF else "Nobody named here vouches for it"
    return (
        f"{whose}: anybody can make a certificate of that name. Ask the signer for its SHA-256, in a way you trust: "
        f"{later.certificate}."
    )
