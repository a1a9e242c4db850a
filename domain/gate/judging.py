"""Whether a file is a paper as it was issued: from what the file shows, what the log says, and whose key is asked about."""

from domain.gate.issued_paper import IssuedPaper
from domain.gate.later_signature import with_later
from domain.gate.proof import Exhibit, Proof, ProofVerdict, Seal
from domain.gate.record_changes import record_notes
from domain.job.job import IssueStamp
from domain.job.seal_key import in_groups
from domain.value import says_nothing

_LETTER = (
    "This is a letter. Letters are signed by hand and bear no seal; ask for the report and the certificates that it names, "
    "and check those."
)


def judge(
    exhibit: Exhibit,
    issued: IssuedPaper | None,
    *,
    has_log: bool,
    remade: bool | None,
    seen: tuple[str, ...],
    set_by: str = "",
    asked: tuple[str, ...] = (),
    own: tuple[str, ...] = (),
    known: tuple[str, ...] = (),
    behind: tuple[str, ...] = (),
) -> Proof:
    """The answer; where somebody signed the paper afterwards, about that too.

    `known` are the certificates that the log knows, by their SHA-256; `behind` is how the file differs from its first part. For the rest see `_of_paper`.
    """
    paper = exhibit.model_copy(update={"sha256": exhibit.issued_sha256}) if exhibit.later else exhibit
    proof = _of_paper(paper, issued, has_log=has_log, remade=remade, seen=seen, set_by=set_by, asked=asked, own=own)
    return with_later(proof, exhibit, known, behind) if exhibit.later else proof


def _of_paper(
    exhibit: Exhibit,
    issued: IssuedPaper | None,
    *,
    has_log: bool,
    remade: bool | None,
    seen: tuple[str, ...],
    set_by: str,
    asked: tuple[str, ...],
    own: tuple[str, ...],
) -> Proof:
    """The answer about a paper as it was issued.

    `issued` is what the log has under the number the file names; `remade` whether its pages, made again from its record,
    give the same bytes; `set_by` what makes them now; `seen` how it differs to the eye from the paper as issued, or as made
    again; `asked` the fingerprints of the firm it is asked about, `own` those of the keys of the log.
    """
    if issued and issued.sha256 == exhibit.sha256:
        return _as_issued(exhibit, issued)
    if exhibit.unreadable:
        return _answer(exhibit, ProofVerdict.UNKNOWN, exhibit.unreadable)
    if exhibit.is_letter and exhibit.seal is Seal.ABSENT:
        return _answer(exhibit, ProofVerdict.UNKNOWN, _LETTER)
    if exhibit.seal is Seal.HOLDS:
        alone = _alone(exhibit, remade=remade, set_by=set_by)
        return _sealed(exhibit, issued, has_log=has_log, alone=alone, asked=asked, own=own)
    if exhibit.is_draft:
        return _answer(exhibit, ProofVerdict.UNKNOWN, "This is a draft. Drafts are not issued, and prove nothing.")
    if exhibit.is_ours:
        return _broken(exhibit, issued, seen)
    return _answer(
        exhibit, ProofVerdict.UNKNOWN, "Nothing in this file says that this program made it; no log can vouch for it."
    )


def _as_issued(exhibit: Exhibit, issued: IssuedPaper) -> Proof:
    paper, stamp = _named(issued), issued.pack.job.issued
    told = {
        "number": issued.number,
        "record_sha256": issued.record_sha256,
        "issued_at": stamp.at if stamp else None,
        "issued_by": stamp.by if stamp else "",
    }
    if issued.replaced_by:
        says = f"{paper} is unaltered, as this log issued it, but it has been replaced by {issued.replaced_by}."
        answer = _answer(exhibit, ProofVerdict.REPLACED, says, f"Use {issued.replaced_by} in its place.")
        return answer.model_copy(update=told | {"replaced_by": issued.replaced_by})
    says = f"{paper} is unaltered: byte for byte the file that this log issued."
    return _answer(exhibit, ProofVerdict.UNALTERED, says).model_copy(update=told)


def _sealed(
    exhibit: Exhibit,
    issued: IssuedPaper | None,
    *,
    has_log: bool,
    alone: str,
    asked: tuple[str, ...],
    own: tuple[str, ...],
) -> Proof:
    name = exhibit.number or "It"
    if issued and exhibit.record and _is_same_issue(exhibit.record.issued, issued):
        says = f"This is not {issued.number} as this log issued it: another file was made to look like it."
        return _answer(exhibit, ProofVerdict.ALTERED, says, *record_notes(issued.pack.job, exhibit.record))
    if exhibit.keys and exhibit.signature is not Seal.HOLDS:
        return _answer(exhibit, ProofVerdict.ALTERED, _signature_broken(exhibit), alone)
    if asked:
        return _by_key_asked(exhibit, asked, alone)
    if issued:
        says = f"This log issued another document as {issued.number}; this one is from another log, or made up."
    elif has_log and exhibit.keys and exhibit.keys[0] in own:
        says = (
            f"{name} is signed with a key of this log, which does not hold it: it was issued here, and the log went back to "
            "an older copy since, or somebody else has that key."
        )
    elif has_log:
        says = f"{name} was not issued from this log. Ask whoever issued it to check it with theirs."
    else:
        says = f"There is no log here to say whether {name} was issued. Ask whoever issued it to check it."
    return _answer(exhibit, ProofVerdict.UNKNOWN, says, *_key_it_bears(exhibit), alone)


def _signature_broken(exhibit: Exhibit) -> str:
    return (
        f"{exhibit.number or 'It'} was bound again: its record names the key {in_groups(exhibit.keys[0])}, and the signature "
        "beside its seal was not made with that key over what stands in this file."
    )


def _by_key_asked(exhibit: Exhibit, asked: tuple[str, ...], alone: str) -> Proof:
    name, named = exhibit.number or "It", " or ".join(map(in_groups, asked))
    if not exhibit.keys:
        says = (
            f"{name} bears no key, so nothing ties it to the key {named}. Papers of logs that had no key yet look so, and so "
            "does one that somebody bound again; ask the firm."
        )
        return _answer(exhibit, ProofVerdict.UNKNOWN, says, alone)
    held = next((key for key in exhibit.keys if key in asked), "")
    if not held:
        says = (
            f"{name} is not signed with the key {named}, but with {in_groups(exhibit.keys[0])}: another log issued it, or "
            "somebody bound it again. Where the firm has another key now, ask it for that in a way you trust."
        )
        return _answer(exhibit, ProofVerdict.NOT_THEIRS, says, alone)
    issuer = _stamp_told(exhibit)
    says = f"{name} is unaltered: signed with the key {in_groups(held)}, byte for byte as its log issued it."
    handed = (
        ()
        if held == exhibit.keys[0]
        else (f"That key has handed over to {in_groups(exhibit.keys[0])} by its signature.",)
    )
    later = "Whether a later document has replaced it, only the log that issued it can tell."
    return _answer(exhibit, ProofVerdict.UNALTERED, says, *handed, later).model_copy(update=issuer)


def _stamp_told(exhibit: Exhibit) -> dict[str, object]:
    stamp = exhibit.record.issued if exhibit.record else None
    return {"issued_at": stamp.at, "issued_by": stamp.by} if stamp else {}


def _key_it_bears(exhibit: Exhibit) -> tuple[str, ...]:
    if not (exhibit.keys and exhibit.record):
        return ()
    firm = exhibit.record.firm.name
    whose = "" if says_nothing(firm) else f" and says that it is from {firm}"
    return (
        f"It is signed with the key {in_groups(exhibit.keys[0])}{whose}. Ask that firm for its key in a way you trust, and give it with --firm.",
    )


def _alone(exhibit: Exhibit, *, remade: bool | None, set_by: str) -> str:
    """What the file shows without any log. A paper that other sheets set is no suspect for looking otherwise."""
    stamp = exhibit.record.issued if exhibit.record else None
    if remade:
        return "The file is whole in itself: its seal holds, and its pages made again from its record are the same."
    if stamp and stamp.set_by and stamp.set_by == set_by:
        return (
            "Its seal holds, but its pages made again from its record by the very version that its record names are not "
            "the same: somebody altered it and sealed it anew."
        )
    if stamp and stamp.set_by:
        return (
            f"Its seal holds. Its record says that {stamp.set_by} set it; this is {set_by or 'another version'}, whose "
            "pages may read otherwise, so they are not held against it. The version that set it can make them again."
        )
    return (
        "Its seal holds, but its pages made again from its record by this version of the program are not the same: "
        "another version made it, or somebody altered it and sealed it anew."
    )


def _broken(exhibit: Exhibit, issued: IssuedPaper | None, seen: tuple[str, ...]) -> Proof:
    named = f"It says it is {exhibit.number}. " if exhibit.number else ""
    how = (
        "The seal of this file does not hold: bytes were changed, added or taken away after it was issued."
        if exhibit.seal is Seal.BROKEN
        else "The seal of this file is gone: it was cut off, changed, or saved again by another program."
    )
    notes: tuple[str, ...] = ()
    if issued and exhibit.record:
        notes = record_notes(issued.pack.job, exhibit.record)
    if issued:
        kept = f"{issued.number} as issued has the SHA-256 {issued.sha256}; ask for that file."
        if issued.replaced_by:
            kept += f" {issued.number} has also been replaced by {issued.replaced_by}."
        notes = (*notes, *seen, kept)
    else:
        notes = (*notes, *seen)
    return _answer(exhibit, ProofVerdict.ALTERED, named + how, *notes)


def _is_same_issue(stamp: IssueStamp | None, issued: IssuedPaper) -> bool:
    """Whoever binds a paper again can name another key, or what sets it; the moment and the chain say which it is meant to be."""
    was = issued.pack.job.issued
    return stamp is not None and was is not None and (stamp.at, stamp.by, stamp.head) == (was.at, was.by, was.head)


def _named(issued: IssuedPaper) -> str:
    return f"{issued.pack.job.form_set} {issued.number}"


def _answer(exhibit: Exhibit, verdict: ProofVerdict, says: str, *notes: str) -> Proof:
    return Proof(
        verdict=verdict,
        says=says,
        notes=notes,
        number=exhibit.number,
        sha256=exhibit.sha256,
        record_sha256=exhibit.record_sha256,
    )
