"""`verify`: whether a file is a paper as it was issued."""

from pathlib import Path

from domain.civil_time import short_moment
from domain.gate.proof import NotAPdfError, Proof, ProofVerdict, TooMuchInItError
from tui.commands.command import (
    CANNOT_TELL,
    FINE,
    NO,
    Command,
    CommandAnswer,
    Environment,
    TypedArgument,
    UnusableError,
)
from tui.commands.input_files import PACK_MAX, document_in

_SIGNS = {ProofVerdict.UNALTERED: "✓", ProofVerdict.REPLACED: "!", ProofVerdict.ALTERED: "✗", ProofVerdict.UNKNOWN: "?"}

_CODES = {
    ProofVerdict.UNALTERED: FINE,
    ProofVerdict.REPLACED: FINE,
    ProofVerdict.ALTERED: NO,
    ProofVerdict.UNKNOWN: CANNOT_TELL,
}


def run(typed: TypedArgument, wiring: Environment) -> CommandAnswer:
    """Compare the file with the log that is here, or with itself where there is none."""
    name = typed.words[0]
    pdf = document_in(name, PACK_MAX)
    try:
        proof = _proof(pdf, wiring)
    except (NotAPdfError, TooMuchInItError) as error:
        says = str(error)
        raise UnusableError(f"{name}: {says[:1].lower()}{says[1:]}") from None
    return CommandAnswer(
        {"file": str(Path(name))} | proof.model_dump(mode="json"),
        "\n".join([f"{_SIGNS[proof.verdict]} {proof.says}", *(f"  {note}" for note in proof.notes), *_told(proof)]),
        _CODES[proof.verdict],
    )


def _proof(pdf: bytes, wiring: Environment) -> Proof:
    if not wiring.has_log(place := wiring.place()):
        return wiring.proof_of(pdf, None)
    with wiring.at_desk(place) as desk:
        return desk.proof_of(pdf, desk.log)


def _told(proof: Proof) -> list[str]:
    issued = [f"  Issued {short_moment(proof.issued_at)} by {proof.issued_by}"] if proof.issued_at else []
    return [*issued, f"  SHA-256 {proof.sha256}"]


COMMAND = Command(
    name="verify",
    run=run,
    words="FILE.pdf",
    least=1,
    most=1,
    explains="Only the bytes of the file count, not its name; nothing is fetched and nothing is written.\n"
    "Exit 0: byte for byte as this log issued it; a later document that replaced it is named.\n"
    "Exit 1: altered. Exit 3: cannot tell, for it is from another log, a draft or a letter, or no log is here.",
)
