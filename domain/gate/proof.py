"""Whether a file is a paper as it was issued: what the file shows, what the log says, and the answer."""

from datetime import datetime
from enum import StrEnum

from domain.editing.changes import ORDER, FieldChange, changes_between
from domain.gate.issued_paper import IssuedPaper
from domain.job.box import shown_in
from domain.job.job import IssueStamp, Job
from domain.job.place_in_words import box_at, described, owner_at
from domain.place import Place
from domain.value import Value

_LETTER = (
    "This is a letter. Letters are signed by hand and bear no seal; ask for the report and the certificates that it names, "
    "and check those."
)
_SHOWN = 8
"""Differences told one by one."""


class NotAPdfError(ValueError):
    """The file is no PDF and bears no seal; the message is a plain sentence."""


class TooMuchInItError(ValueError):
    """Reading the file takes more memory or time than any pack does; the message is a plain sentence."""


class ProofVerdict(StrEnum):
    """The answer in a word."""

    UNALTERED = "unaltered"
    REPLACED = "replaced"
    """Unaltered, and a later document stands in its place."""
    ALTERED = "altered"
    UNKNOWN = "unknown"


class Seal(StrEnum):
    """How the seal of a file stands."""

    HOLDS = "holds"
    BROKEN = "broken"
    ABSENT = "absent"


class Exhibit(Value):
    """What a file shows of itself."""

    sha256: str
    seal: Seal
    is_ours: bool = False
    """Something in it says that this program made it."""
    is_draft: bool = False
    is_letter: bool = False
    """It says that it is a letter of this program."""
    number: str = ""
    """Which document it says it is."""
    record: Job | None = None
    """The record attached to it."""
    record_sha256: str = ""
    unreadable: str = ""
    """Why nothing more can be read from it."""


class Proof(Value):
    """The answer about a file."""

    verdict: ProofVerdict
    says: str
    notes: tuple[str, ...] = ()
    """What else is known, a sentence each."""
    number: str = ""
    sha256: str = ""
    record_sha256: str = ""
    issued_at: datetime | None = None
    issued_by: str = ""
    replaced_by: str = ""


def judge(
    exhibit: Exhibit,
    issued: IssuedPaper | None,
    *,
    has_log: bool,
    remade: bool | None,
    seen: tuple[str, ...],
    set_by: str = "",
) -> Proof:
    """The answer.

    `issued` is what the log has under the number the file names; `remade` whether its pages, made again from its record,
    give the same bytes; `set_by` what makes them now; `seen` how it differs to the eye from the paper as issued, or as made again.
    """
    if issued and issued.sha256 == exhibit.sha256:
        return _as_issued(exhibit, issued)
    if exhibit.unreadable:
        return _answer(exhibit, ProofVerdict.UNKNOWN, exhibit.unreadable)
    if exhibit.is_letter and exhibit.seal is Seal.ABSENT:
        return _answer(exhibit, ProofVerdict.UNKNOWN, _LETTER)
    if exhibit.seal is Seal.HOLDS:
        return _sealed(exhibit, issued, has_log=has_log, alone=_alone(exhibit, remade=remade, set_by=set_by))
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


def _sealed(exhibit: Exhibit, issued: IssuedPaper | None, *, has_log: bool, alone: str) -> Proof:
    name = exhibit.number or "It"
    if issued and exhibit.record and _is_same_issue(exhibit.record.issued, issued):
        says = f"This is not {issued.number} as this log issued it: another file was made to look like it."
        return _answer(exhibit, ProofVerdict.ALTERED, says, *record_notes(issued.pack.job, exhibit.record))
    if issued:
        says = f"This log issued another document as {issued.number}; this one is from another log, or made up."
    elif has_log:
        says = f"{name} was not issued from this log. Ask whoever issued it to check it with theirs."
    else:
        says = f"There is no log here to say whether {name} was issued. Ask whoever issued it to check it."
    return _answer(exhibit, ProofVerdict.UNKNOWN, says, alone)


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


def record_notes(was: Job, now: Job) -> tuple[str, ...]:
    """How the record in a file differs from the one issued, for a person."""
    changes = changes_between(was, now)
    if not changes:
        return ("The record attached to it is the one that was issued.",)
    told = [_told(was, now, change) for change in changes[:_SHOWN]]
    more = f"And {len(changes) - _SHOWN} more." if len(changes) > _SHOWN else ""
    return ("The record attached to it is not the one that was issued.", *told, *filter(None, (more,)))


def _told(was: Job, now: Job, change: FieldChange) -> str:
    place = _place_of(change.path)
    before, after = (owner_at(job, place) if place else None for job in (was, now))
    if place and before and after and box_at(was, place):
        old, new = shown_in(before, place.box), shown_in(after, place.box)
        return f"{described(was, place)}: {old or 'nothing'} as issued, {new or 'nothing'} here."
    return f"It differs in {' '.join(step.replace('_', ' ') for step in change.path if step != ORDER)}."


def _place_of(path: tuple[str, ...]) -> Place | None:
    match path:
        case ("boards", board, box):
            return Place(section="boards", board=board, box=box)
        case ("boards", board, "circuits", circuit, box):
            return Place(section="boards", board=board, circuit=circuit, box=box)
        case (section, box):
            return Place(section=section, box=box)
        case _:
            return None


def _is_same_issue(stamp: IssueStamp | None, issued: IssuedPaper) -> bool:
    return stamp is not None and stamp == issued.pack.job.issued


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
