"""The answer about a file: what it shows of itself beside what the log issued."""

import pytest

from domain.gate.assessment import Pack, issue
from domain.gate.issued_paper import IssuedPaper
from domain.gate.judging import judge
from domain.gate.proof import Exhibit, ProofVerdict, Seal
from domain.gate.record_changes import record_notes
from domain.job.job import Job
from tests.builders import AT, INSPECTOR, complete_certificate, done, enter, entered
from tests.domain.gate.changed import typed, written

OURS = "a" * 64
OTHER = "b" * 64
RECORD = "c" * 64


def issued(job: Job | None = None, replaced_by: str = "") -> IssuedPaper:
    pack = issue(
        (job or complete_certificate()).model_copy(update={"number": "A-0001"}), by=INSPECTOR, at=AT, people=()
    )
    assert isinstance(pack, Pack)
    return IssuedPaper(
        number="A-0001", sha256=OURS, record_sha256=RECORD, pages=4, pack=pack, kept="", replaced_by=replaced_by
    )


PAPER = issued()
REPLACED = issued(replaced_by="A-0002")
SEALED = Exhibit(sha256=OTHER, seal=Seal.HOLDS, is_ours=True, number="A-0001", record_sha256="d" * 64)
BROKEN = SEALED.model_copy(update={"seal": Seal.BROKEN})
UNSEALED = SEALED.model_copy(update={"seal": Seal.ABSENT})
ANOTHERS = SEALED.model_copy(update={"record": written(PAPER.pack.job, {"document": {"issued.by": "Agnes Quill"}})})
FORGED = SEALED.model_copy(
    update={"record": written(PAPER.pack.job, {"document": {"boards.b1.circuits.c2.zs": "0.39"}})}
)
ALONE = "The file is whole in itself: its seal holds, and its pages made again from its record are the same."
NOT_ALONE = (
    "Its seal holds, but its pages made again from its record by this version of the program are not the same: "
    "another version made it, or somebody altered it and sealed it anew."
)
CHANGED = "The record attached to it is not the one that was issued."
SAME = "The record attached to it is the one that was issued."
ASK_FOR_IT = f"A-0001 as issued has the SHA-256 {OURS}; ask for that file."
CHANGED_SINCE = "It says it is A-0001. The seal of this file does not hold: bytes were changed, added or taken away after it was issued."
ZS = "DB1, circuit 1 Kitchen sockets, Measured Zs: 0.49 as issued, 0.39 here."
CASES = {
    "unaltered": (
        SEALED.model_copy(update={"sha256": OURS}),
        PAPER,
        ProofVerdict.UNALTERED,
        "EIC A-0001 is unaltered: byte for byte the file that this log issued.",
        (),
    ),
    "unaltered, though nothing in it can be read": (
        Exhibit(sha256=OURS, seal=Seal.ABSENT, unreadable="It is locked."),
        PAPER,
        ProofVerdict.UNALTERED,
        "EIC A-0001 is unaltered: byte for byte the file that this log issued.",
        (),
    ),
    "replaced": (
        SEALED.model_copy(update={"sha256": OURS}),
        REPLACED,
        ProofVerdict.REPLACED,
        "EIC A-0001 is unaltered, as this log issued it, but it has been replaced by A-0002.",
        ("Use A-0002 in its place.",),
    ),
    "not readable": (
        SEALED.model_copy(update={"unreadable": "It is locked."}),
        PAPER,
        ProofVerdict.UNKNOWN,
        "It is locked.",
        (),
    ),
    "forged and sealed anew": (
        FORGED,
        PAPER,
        ProofVerdict.ALTERED,
        "This is not A-0001 as this log issued it: another file was made to look like it.",
        (CHANGED, ZS),
    ),
    "the same record in another file": (
        SEALED.model_copy(update={"record": PAPER.pack.job}),
        PAPER,
        ProofVerdict.ALTERED,
        "This is not A-0001 as this log issued it: another file was made to look like it.",
        (SAME,),
    ),
    "another log's paper of that number": (
        ANOTHERS,
        PAPER,
        ProofVerdict.UNKNOWN,
        "This log issued another document as A-0001; this one is from another log, or made up.",
        (ALONE,),
    ),
    "a paper of that number with no record": (
        SEALED,
        PAPER,
        ProofVerdict.UNKNOWN,
        "This log issued another document as A-0001; this one is from another log, or made up.",
        (ALONE,),
    ),
    "a paper of that number that was never stamped": (
        SEALED.model_copy(update={"record": complete_certificate()}),
        PAPER,
        ProofVerdict.UNKNOWN,
        "This log issued another document as A-0001; this one is from another log, or made up.",
        (ALONE,),
    ),
    "not from this log": (
        SEALED,
        None,
        ProofVerdict.UNKNOWN,
        "A-0001 was not issued from this log. Ask whoever issued it to check it with theirs.",
        (ALONE,),
    ),
    "not from this log, and without a number": (
        SEALED.model_copy(update={"number": ""}),
        None,
        ProofVerdict.UNKNOWN,
        "It was not issued from this log. Ask whoever issued it to check it with theirs.",
        (ALONE,),
    ),
    "a draft": (
        UNSEALED.model_copy(update={"is_draft": True}),
        PAPER,
        ProofVerdict.UNKNOWN,
        "This is a draft. Drafts are not issued, and prove nothing.",
        (),
    ),
    "a stranger": (
        Exhibit(sha256=OTHER, seal=Seal.ABSENT),
        None,
        ProofVerdict.UNKNOWN,
        "Nothing in this file says that this program made it; no log can vouch for it.",
        (),
    ),
    "changed after issue": (
        BROKEN.model_copy(update={"record": FORGED.record}),
        PAPER,
        ProofVerdict.ALTERED,
        CHANGED_SINCE,
        (CHANGED, ZS, "Page 2 differs.", ASK_FOR_IT),
    ),
    "changed after issue, without a record": (
        BROKEN,
        REPLACED,
        ProofVerdict.ALTERED,
        CHANGED_SINCE,
        ("Page 2 differs.", f"{ASK_FOR_IT} A-0001 has also been replaced by A-0002."),
    ),
    "its seal gone, and no log has it": (
        UNSEALED.model_copy(update={"number": "", "record": FORGED.record}),
        None,
        ProofVerdict.ALTERED,
        "The seal of this file is gone: it was cut off, changed, or saved again by another program.",
        ("Page 2 differs.",),
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_the_answer_says_whether_a_file_is_as_it_was_issued(case: str) -> None:
    exhibit, paper, verdict, says, notes = CASES[case]
    proof = judge(exhibit, paper, has_log=True, remade=True, seen=("Page 2 differs.",))
    assert (proof.verdict, proof.says, proof.notes) == (verdict, says, notes)
    assert (proof.number, proof.sha256) == (
        exhibit.number or ("A-0001" if exhibit.sha256 == OURS else ""),
        exhibit.sha256,
    )
    if exhibit.sha256 == OURS:
        assert (proof.record_sha256, proof.issued_at, proof.issued_by) == (RECORD, AT, INSPECTOR)
        assert proof.replaced_by == (paper.replaced_by if paper else "")
    else:
        assert (proof.record_sha256, proof.issued_at, proof.issued_by) == (exhibit.record_sha256, None, "")
        assert proof.replaced_by == ""


@pytest.mark.parametrize(("remade", "note"), [(True, ALONE), (False, NOT_ALONE), (None, NOT_ALONE)])
def test_without_a_log_a_sealed_file_is_only_whole_in_itself(remade: bool | None, note: str) -> None:
    proof = judge(SEALED, None, has_log=False, remade=remade, seen=())
    assert proof.verdict is ProofVerdict.UNKNOWN
    assert proof.says == "There is no log here to say whether A-0001 was issued. Ask whoever issued it to check it."
    assert proof.notes == (note,)


def test_a_paper_without_its_stamp_says_neither_when_nor_by_whom() -> None:
    bare = PAPER.pack.model_copy(update={"job": PAPER.pack.job.model_copy(update={"issued": None})})
    proof = judge(
        SEALED.model_copy(update={"sha256": OURS}),
        PAPER.model_copy(update={"pack": bare}),
        has_log=True,
        remade=None,
        seen=(),
    )
    assert (proof.verdict, proof.issued_at, proof.issued_by) == (ProofVerdict.UNALTERED, None, "")


WAS = complete_certificate(sign=False)


@pytest.mark.parametrize(
    ("now", "told"),
    [
        (typed(WAS, {"client.name": ""}), "Client: Zoë Fairweather as issued, nothing here."),
        (typed(WAS, {"firm.contact": "01234"}), "Firm, Firm's telephone or e-mail: nothing as issued, 01234 here."),
        (typed(WAS, {"b1.zs": "0.25"}), "DB1, Zs at the board, Zdb: 0.21 as issued, 0.25 here."),
        (typed(WAS, {"b1.c2.polarity": "n"}), "DB1, circuit 1 Kitchen sockets, Polarity: ✓ as issued, ✗ here."),
        (written(WAS, {"document": {"chosen.because": "x"}}), "It differs in chosen because."),
        (written(WAS, {"document": {"replaces_because": "x"}}), "It differs in replaces because."),
    ],
)
def test_a_record_that_differs_says_where_in_words(now: Job, told: str) -> None:
    assert record_notes(WAS, now) == (CHANGED, told)


def test_a_record_that_is_the_same_says_so() -> None:
    assert record_notes(WAS, WAS) == (SAME,)


@pytest.mark.parametrize(("count", "more"), [(8, ()), (9, ("And 1 more.",)), (11, ("And 3 more.",))])
def test_of_many_differences_eight_are_told_and_the_rest_counted(count: int, more: tuple[str, ...]) -> None:
    boxes = (
        "number",
        "description",
        "wiring",
        "method",
        "points",
        "live_csa",
        "cpc_csa",
        "device_type",
        "rating",
        "zs",
    )
    texts = dict.fromkeys(boxes[: count - 1], "7")
    now = done(entered(WAS, texts, board="b1", circuit="c2"), enter("client", "name", "Bertram Quill"))
    notes = record_notes(WAS, now)
    assert len(notes) == 1 + 8 + len(more)
    assert notes[9:] == more


def test_a_circuit_or_board_that_is_not_there_any_more_is_told_without_its_boxes() -> None:
    for gone in ("boards.b1.circuits.c3", "boards.b1"):
        first, *told = record_notes(WAS, written(WAS, {"without": [gone]}))
        assert first == CHANGED
        assert all(each.startswith("It differs in boards b1") for each in told)
        assert told
