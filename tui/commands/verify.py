"""`verify`: whether a file is a paper as it was issued."""

from pathlib import Path

from domain.civil_time import written_moment
from domain.gate.proof import NotAPdfError, Proof, ProofVerdict, TooMuchInItError
from domain.job.seal_key import fingerprint_asked
from domain.words import uncapitalised
from tui.commands.command import (
    CANNOT_TELL,
    FINE,
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

_SIGNS = {
    ProofVerdict.UNALTERED: "✓",
    ProofVerdict.REPLACED: "!",
    ProofVerdict.ALTERED: "✗",
    ProofVerdict.UNKNOWN: "?",
    ProofVerdict.NOT_THEIRS: "✗",
}

_CODES = {
    ProofVerdict.UNALTERED: FINE,
    ProofVerdict.REPLACED: FINE,
    ProofVerdict.ALTERED: NO,
    ProofVerdict.UNKNOWN: CANNOT_TELL,
    ProofVerdict.NOT_THEIRS: NO,
}
_FIRM = CommandOption(
    "--firm",
    "no log, but the key of the firm that should have issued it: its fingerprint, or a file of its keys",
    "KEY",
)
_CARD_MAX = 100_000


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Compare the file with the log that is here, or with itself where there is none."""
    name = typed.words[0]
    pdf = document_in(name, PACK_MAX)
    try:
        proof = _proof(pdf, environment, _fingerprints(typed.value(_FIRM.name)))
    except (NotAPdfError, TooMuchInItError) as error:
        says = str(error)
        raise UnusableError(f"{name}: {uncapitalised(says)}") from None
    return CommandAnswer(
        {"file": str(Path(name))} | proof.model_dump(mode="json"),
        "\n".join([f"{_SIGNS[proof.verdict]} {proof.says}", *(f"  {note}" for note in proof.notes), *_told(proof)]),
        _CODES[proof.verdict],
    )


def _fingerprints(firm: str) -> tuple[str, ...]:
    """Those of the keys that were typed, or stand in a file as `ohmfolio keys card` writes it."""
    if not firm:
        return ()
    if fingerprint := fingerprint_asked(firm):
        return (fingerprint,)
    if "/" in firm or Path(firm).exists():
        lines = document_in(firm, _CARD_MAX).decode(errors="replace").splitlines()
        stated = [line.partition("#")[0].removeprefix("key ") for line in lines if line.startswith("key ")]
        if (fingerprints := tuple(map(fingerprint_asked, stated))) and all(fingerprints):
            return fingerprints
        raise UnusableError(f"{firm} holds no keys; ohmfolio keys card writes such a file")
    raise UnusableError(
        f"{_FIRM.name} takes a fingerprint of forty letters and figures, a key of sixty-four, or a file; not {firm!r}"
    )


def _proof(pdf: bytes, environment: Environment, firm: tuple[str, ...]) -> Proof:
    if firm:
        return environment.proof_of(pdf, None, firm=firm)
    if not environment.has_log(place := environment.place()):
        return environment.proof_of(pdf, None)
    with environment.open_services(place) as services:
        return services.proof_of(pdf, services.log)


def _told(proof: Proof) -> list[str]:
    issued = [f"  Issued {written_moment(proof.issued_at)} by {proof.issued_by}"] if proof.issued_at else []
    return [*issued, f"  SHA-256 {proof.sha256}"]


COMMAND = Command(
    name="verify",
    run=run,
    words="FILE",
    least=1,
    most=1,
    options=(_FIRM, JSON),
    explains="A web page or a table that was handed out beside a PDF is checked too, with the log; a scan cannot be.\n"
    "Only the bytes of the file count, not its name; nothing is fetched and nothing is written.\n"
    "Exit 0: byte for byte as this log issued it; a later document that replaced it is named.\n"
    "With --firm no log is asked: exit 0 says that the holder of that key issued it so, exit 1 that it was altered, or signed "
    "with another key. Ask the firm for its key in another way than the paper itself.\n"
    "Exit 1: altered. Exit 3: cannot tell, for it is from another log, a draft or a letter, or no log is here.",
)
