"""The answer about a sealed file by the keys it bears: asked about a firm's key, by its own log, and by strangers."""

from typing import Any

import pytest

from domain.gate.issued_paper import IssuedPaper
from domain.gate.judging import judge
from domain.gate.other_shapes import SCAN
from domain.gate.proof import Exhibit, ProofVerdict, Seal
from tests.builders import AT, INSPECTOR
from tests.domain.gate.changed import written
from tests.domain.gate.test_judging_a_file import ALONE, NOT_ALONE, PAPER, SEALED, UNSEALED

NOW, BEFORE, STRANGE = "1" * 40, "2" * 40, "3" * 40
NOW_READ, BEFORE_READ, STRANGE_READ = (" ".join([each[:4]] * 10) for each in (NOW, BEFORE, STRANGE))
RECORD = written(PAPER.pack.job, {"document": {"issued.head": "another chain"}})
KEYED = SEALED.model_copy(update={"keys": (NOW, BEFORE), "signature": Seal.HOLDS, "record": RECORD})
LATER = "Whether a later document has replaced it, only the log that issued it can tell."
ASK_FIRM = "Ask that firm for its key in a way you trust, and give it with --firm."
FIRM = RECORD.firm.name
BEARS = f"It is signed with the key {NOW_READ} and says that it is from {FIRM}. {ASK_FIRM}"


def answer(
    exhibit: Exhibit, paper: IssuedPaper | None = None, **known: Any
) -> tuple[ProofVerdict, str, tuple[str, ...]]:
    proof = judge(exhibit, paper, **{"has_log": True, "remade": True, "seen": ()} | known)
    return proof.verdict, proof.says, proof.notes


@pytest.mark.parametrize(
    ("keys", "asked", "verdict", "says", "notes"),
    [
        ((), (NOW,), ProofVerdict.UNKNOWN, f"A-0001 bears no key, so nothing ties it to the key {NOW_READ}. Papers of logs that had no key yet look so, and so does one that somebody bound again; ask the firm.", (ALONE,)),
        ((NOW, BEFORE), (STRANGE,), ProofVerdict.NOT_THEIRS, f"A-0001 is not signed with the key {STRANGE_READ}, but with {NOW_READ}: another log issued it, or somebody bound it again. Where the firm has another key now, ask it for that in a way you trust.", (ALONE,)),
        ((NOW, BEFORE), (STRANGE, NOW), ProofVerdict.UNALTERED, f"A-0001 is unaltered: signed with the key {NOW_READ}, byte for byte as its log issued it.", (LATER,)),
        ((NOW, BEFORE), (BEFORE,), ProofVerdict.UNALTERED, f"A-0001 is unaltered: signed with the key {BEFORE_READ}, byte for byte as its log issued it.", (f"That key has handed over to {NOW_READ} by its signature.", LATER)),
        ((NOW,), (STRANGE, BEFORE), ProofVerdict.NOT_THEIRS, f"A-0001 is not signed with the key {STRANGE_READ} or {BEFORE_READ}, but with {NOW_READ}: another log issued it, or somebody bound it again. Where the firm has another key now, ask it for that in a way you trust.", (ALONE,)),
    ],
)  # fmt: skip
def test_a_file_is_held_against_the_key_of_the_firm_that_is_asked_about(
    keys: tuple[str, ...], asked: tuple[str, ...], verdict: ProofVerdict, says: str, notes: tuple[str, ...]
) -> None:
    assert answer(KEYED.model_copy(update={"keys": keys}), asked=asked) == (verdict, says, notes)


def test_a_paper_by_a_firms_key_says_when_and_by_whom_it_was_issued_where_its_record_does() -> None:
    proof = judge(KEYED, None, has_log=False, remade=True, seen=(), asked=(NOW,))
    assert (proof.issued_at, proof.issued_by) == (AT, INSPECTOR)
    for record in (None, RECORD.model_copy(update={"issued": None})):
        bare = KEYED.model_copy(update={"record": record})
        assert judge(bare, None, has_log=False, remade=True, seen=(), asked=(NOW,)).issued_at is None


@pytest.mark.parametrize("signature", [Seal.BROKEN, Seal.ABSENT])
@pytest.mark.parametrize(("number", "named"), [("A-0001", "A-0001"), ("", "It")])
def test_a_file_that_names_a_key_which_did_not_sign_it_was_bound_again_whoever_asks(
    signature: Seal, number: str, named: str
) -> None:
    exhibit = KEYED.model_copy(update={"signature": signature, "number": number})
    says = (
        f"{named} was bound again: its record names the key {NOW_READ}, and the signature beside its seal was not made with "
        "that key over what stands in this file."
    )
    for asked in ((), (NOW,)):
        assert answer(exhibit, PAPER, asked=asked) == (ProofVerdict.ALTERED, says, (ALONE,))


@pytest.mark.parametrize(
    ("paper", "known", "says"),
    [
        (PAPER, {}, "This log issued another document as A-0001; this one is from another log, or made up."),
        (None, {"own": (NOW,)}, "A-0001 is signed with a key of this log, which does not hold it: it was issued here, and the log went back to an older copy since, or somebody else has that key."),
        (None, {"own": (BEFORE,)}, "A-0001 was not issued from this log. Ask whoever issued it to check it with theirs."),
        (None, {"own": (NOW,), "has_log": False}, "There is no log here to say whether A-0001 was issued. Ask whoever issued it to check it."),
    ],
)  # fmt: skip
def test_a_log_that_does_not_hold_a_paper_says_so_and_which_key_it_bears(
    paper: IssuedPaper | None, known: dict[str, Any], says: str
) -> None:
    assert answer(KEYED, paper, **known) == (ProofVerdict.UNKNOWN, says, (BEARS, ALONE))


def test_a_paper_that_names_no_firm_or_holds_no_record_says_only_its_key() -> None:
    nameless = KEYED.model_copy(update={"record": written(RECORD, {"document": {"firm.name": "-"}})})
    assert answer(nameless)[2] == (f"It is signed with the key {NOW_READ}. {ASK_FIRM}", ALONE)
    assert answer(KEYED.model_copy(update={"record": None}))[2] == (ALONE,)
    assert answer(KEYED.model_copy(update={"keys": ()}))[2] == (ALONE,)


OTHERS = (
    "Its seal holds. Its record says that Ohmfolio 8 set it; this is {now}, whose pages may read otherwise, so they are not "
    "held against it. The version that set it can make them again."
)


@pytest.mark.parametrize(
    ("stamped", "now", "remade", "note"),
    [
        ("Ohmfolio 8", "Ohmfolio 8", True, ALONE),
        ("Ohmfolio 8", "Ohmfolio 9", True, ALONE),
        ("Ohmfolio 8", "Ohmfolio 8", False, "Its seal holds, but its pages made again from its record by the very version that its record names are not the same: somebody altered it and sealed it anew."),
        ("Ohmfolio 8", "Ohmfolio 9", False, OTHERS.format(now="Ohmfolio 9")),
        ("Ohmfolio 8", "", None, OTHERS.format(now="another version")),
        ("", "", False, NOT_ALONE),
        ("", "Ohmfolio 9", False, NOT_ALONE),
    ],
)  # fmt: skip
def test_pages_are_held_against_a_paper_only_by_the_version_that_set_it(
    stamped: str, now: str, remade: bool | None, note: str
) -> None:
    record = written(RECORD, {"document": {"issued.set_by": stamped}})
    exhibit = SEALED.model_copy(update={"record": record})
    assert answer(exhibit, remade=remade, set_by=now)[2] == (note,)


LETTER = "This is a letter. Letters are signed by hand and bear no seal; ask for the report and the certificates that it names, and check those."


@pytest.mark.parametrize(
    ("held", "seal", "says"),
    [
        ({"is_letter": True}, Seal.ABSENT, LETTER),
        ({"is_scan": True}, Seal.ABSENT, SCAN),
        ({"is_scan": True, "is_draft": True}, Seal.ABSENT, "This is a draft. Drafts are not issued, and prove nothing."),
        ({"is_letter": True}, Seal.HOLDS, "A-0001 was not issued from this log. Ask whoever issued it to check it with theirs."),
        ({"is_letter": True, "is_ours": False}, Seal.BROKEN, "Nothing in this file says that this program made it; no log can vouch for it."),
    ],
)  # fmt: skip
def test_a_letter_a_draft_and_a_scan_are_told_as_what_they_are_where_no_seal_holds(
    held: dict[str, Any], seal: Seal, says: str
) -> None:
    verdict, told, _ = answer(UNSEALED.model_copy(update={"is_ours": False, "seal": seal} | held))
    assert (verdict, told) == (ProofVerdict.UNKNOWN, says)


def test_a_forgery_that_names_another_key_is_still_told_by_its_moment_and_its_place_in_the_chain() -> None:
    was = PAPER.pack.job
    for changed, verdict in (
        ({"issued.set_by": "Ohmfolio 1"}, ProofVerdict.ALTERED),
        ({"issued.by": "Agnes Quill"}, ProofVerdict.UNKNOWN),
        ({"issued.at": "2026-03-02T16:31:00Z"}, ProofVerdict.UNKNOWN),
        ({"issued.head": "ab"}, ProofVerdict.UNKNOWN),
    ):
        exhibit = KEYED.model_copy(update={"record": written(was, {"document": changed}), "signature": Seal.HOLDS})
        assert answer(exhibit, PAPER)[0] is verdict
