"""Issuing: the one way to state that a job is issued. The gate first, then the paper, then all that follows, at once."""

import hashlib
from collections.abc import Callable
from contextlib import suppress
from datetime import datetime

from domain.civil_time import civil_day
from domain.dates import written
from domain.gate.assessment import Pack, Refusal, issue, naming_key, naming_shapes, not_theirs_to_sign
from domain.gate.issued_paper import IssuedPaper
from domain.gate.reason import Reason, ReasonKind
from domain.gate.report_outcome import outcome_of
from domain.job.job import Job, canonical, fingerprint, record_hash
from domain.job.logo import Logo
from domain.job.start import as_draft
from domain.log.chain import leaf, link
from domain.log.firm_logo import FIRMS_MAX, logo_among
from domain.log.job_log import BoundPaper, JobLogError, State
from domain.log.secret_keeping import SealSigner
from domain.log.store import IssuedRecord, Store, StoredJob, TrailEntry
from domain.log.use_cases.drafting import begun_from
from domain.log.use_cases.out_with import too_long_alone, why_out
from domain.log.use_cases.phrases import without_unproven
from domain.log.use_cases.putting_right import reports_noted, settle_reports
from domain.log.use_cases.registering import learn, unlearn
from domain.log.use_cases.sealing import key_to_seal
from domain.log.use_cases.signing import signers_known
from domain.log.use_cases.stored import keep, operation_on, require
from domain.place import Place
from domain.register.entries import RegisterKind
from domain.words import joined

Bind = Callable[[Pack], BoundPaper]
_TRIES = 3
"""So often a paper from outside is made, where others were given its number meanwhile."""
Shapes = Callable[[Job], tuple[str, str]]
"""The digests of the web page and the table that are handed out beside a paper."""


def issue_job(
    store: Store,
    number: str,
    set_by: str,
    signer: SealSigner | None,
    shapes: Shapes | None,
    *,
    by: str,
    at: datetime,
    bind: Bind,
    seen: str,
    op: str,
    earlier: bool,
) -> IssuedPaper | Refusal:
    """Pass the gate with the job as it stands, bind it outside the transaction, and keep it if nobody changed it since."""
    now = require(store, number)
    if paper := _issued_under(store, number, op):
        return paper
    if why := why_out(store, number) or why_out(store, now.replaces) or too_long_alone(store, at):
        return _refusal(why, ReasonKind.NOT_HERE)
    if seen and fingerprint(now.job) != seen and not now.is_issued:
        return _refusal(f"{_last_hand(store, now)} changed the job since you looked; look at it again, then issue it")
    passed = may_issue(store, now.job, by=by, at=at, set_by=set_by)
    if isinstance(passed, Refusal):
        return passed
    if not earlier and (refusal := _before_last(store, at)):
        return refusal
    passed, bound = _sealed(store, signer, passed, bind, shapes)
    with store.transaction(*filter(None, (now.replaces, number)), *reports_noted(store, number)):
        # Whoever asked again may have overtaken the first.
        if paper := _issued_under(store, number, op):
            return paper
        if refusal := _refused(store, now, require(store, number)):
            return refusal
        if why := why_out(store, number):
            return _refusal(why, ReasonKind.NOT_HERE)
        return _issue(store, now, passed, bound, TrailEntry(by, at, "Issued", op=op))


def issue_document(
    store: Store,
    given: Job,
    set_by: str,
    signer: SealSigner | None,
    shapes: Shapes | None,
    *,
    by: str,
    at: datetime,
    bind: Bind,
    op: str,
    earlier: bool,
) -> IssuedPaper | Refusal:
    """Issue a job from outside in one go: it is in the log with its paper, or, whatever goes wrong, not at all.

    Its paper is made under the number that comes next, which is given only with it: one that cannot be made skips none. Only
    where others took that number time and again is one given first; `tend` names it, should the paper fail then.
    """
    if (made := store.operation(op) if op else None) and (paper := issued_paper(store, made.number)):
        return paper
    if why := too_long_alone(store, at):
        return _refusal(why, ReasonKind.NOT_HERE)
    if given.replaces.strip():
        return _refusal(
            f"It says it replaces {given.replaces.strip()}; a correction is begun in the log that holds what it replaces",
            ReasonKind.REPLACES,
        )
    draft = without_unproven(store, as_draft(given))
    begun = TrailEntry(by, at, begun_from(given, draft))
    for tries_left in reversed(range(_TRIES)):
        numbered = draft.model_copy(update={"number": _number_for(store, is_given=not tries_left)})
        passed = may_issue(store, numbered, by=by, at=at, set_by=set_by)
        if isinstance(passed, Refusal):
            return passed
        if not earlier and (refusal := _before_last(store, at)):
            return refusal
        made = _sealed(store, signer, passed, bind, shapes)
        with suppress(_NumberGoneError):
            return _begun_and_issued(store, numbered, made, begun, op, is_given=not tries_left)
    raise AssertionError("the last try has a number of its own")


def _begun_and_issued(
    store: Store, numbered: Job, made: tuple[Pack, BoundPaper], begun: TrailEntry, op: str, *, is_given: bool
) -> IssuedPaper | Refusal:
    """Keep a job from outside with its paper, and give it the number the paper bears, where that `is_given` not yet."""
    with store.transaction():
        if reasons := not_theirs_to_sign(numbered, signers_known(store, numbered)):
            return Refusal(reasons=reasons)
        if not is_given and store.next_number() != numbered.number:
            raise _NumberGoneError
        keep(store, StoredJob(numbered), numbered, begun)
        return _issue(store, require(store, numbered.number), *made, TrailEntry(begun.who, begun.at, "Issued", op=op))


def _number_for(store: Store, *, is_given: bool) -> str:
    """The number to make a paper under: the one that comes next, or one that is given for good."""
    if not is_given:
        return store.numbering().following
    with store.transaction():
        return store.next_number()


class _NumberGoneError(Exception):
    """Somebody else was given the number while the paper was made under it."""


def may_issue(store: Store, job: Job, *, by: str, at: datetime, set_by: str = "") -> Pack | Refusal:
    """What the gate says of a job with the register of people as it is now; the job need not be in the log."""
    if job.laid_aside:
        return _refusal("It is laid aside; take it up again, then issue it")
    people = signers_known(store, job, by)
    logo = _logo_of(store, job)
    return issue(job, by=by, at=at, people=people, head=store.head().hex(), set_by=set_by, logo=logo)


def _logo_of(store: Store, job: Job) -> Logo | None:
    """That of the job's firm, as the register has it now."""
    if not joined(job.firm.name):
        return None
    firms = store.registers.entries(RegisterKind.FIRM, job.firm.name, retired=False, limit=FIRMS_MAX)
    return logo_among(firms, job.firm.name)


def _sealed(
    store: Store, signer: SealSigner | None, passed: Pack, bind: Bind, shapes: Shapes | None
) -> tuple[Pack, BoundPaper]:
    """The pack that names the key of the log and what is beside the paper, and its paper, signed with that key."""
    stamp = passed.job.issued
    assert stamp is not None
    key = key_to_seal(store, signer, by=stamp.by, at=stamp.at)
    named = naming_key(passed, key) if key else passed
    named = naming_shapes(named, *shapes(named.job)) if shapes else named
    bound = bind(named)
    if not key or signer is None:
        return named, bound
    return named, bound.model_copy(update={"pdf": signer.signed(bound.pdf, named.job)})


def issued_paper(store: Store, number: str) -> IssuedPaper | None:
    """The paper a job was issued as."""
    record = store.papers.record(number)
    if record is None:
        return None
    stored = require(store, number)
    return IssuedPaper(
        number=number,
        sha256=record.pdf_sha.hex(),
        record_sha256=hashlib.sha256(record.body).hexdigest(),
        replaced_by=stored.correction if stored.state is State.REPLACED else "",
        pages=record.pages,
        pack=Pack(job=stored.job, outcome=outcome_of(stored.job)),
        kept=store.papers.kept_in(number),
    )


def paper_of(store: Store, number: str) -> bytes:
    """The PDF a job was issued as; raises where it is no longer that."""
    record = store.papers.record(number)
    if record is None:
        raise JobLogError(f"{number} has not been issued; there is no paper of it.")
    pdf = store.papers.pdf(number)
    if hashlib.sha256(pdf).digest() != record.pdf_sha:
        kept = store.papers.kept_in(number) or f"The paper of {number}"
        raise JobLogError(f"{kept} is not as it was issued; nothing was handed out. Restore it from a copy.")
    return pdf


def _before_last(store: Store, at: datetime) -> Refusal | None:
    """A paper dated before the one issued last: one of two clocks was wrong, and a person has to say which."""
    if (last := store.papers.last()) is None or civil_day(at) >= civil_day(last[1]):
        return None
    number, then = last
    return _refusal(
        f"{number}, the last paper issued, is dated {written(civil_day(then))}, and this one would be dated "
        f"{written(civil_day(at))}: look at the clock of this computer, and say whether this day is right",
        ReasonKind.EARLIER,
    )


def _issued_under(store: Store, number: str, op: str) -> IssuedPaper | None:
    """The paper, where this very issue has been kept already."""
    return issued_paper(store, number) if operation_on(store, number, op) else None


def _issue(store: Store, stored: StoredJob, pack: Pack, bound: BoundPaper, entry: TrailEntry) -> IssuedPaper:
    """Keep the paper and all that follows from it: the trail, the registers, what it replaces, the reports it puts right."""
    job, pdf_sha = pack.job, hashlib.sha256(bound.pdf).digest()
    body = canonical(job)
    sha = leaf(body)
    chain = link(store.papers.head(), sha, pdf_sha)
    record = IssuedRecord(job.number, body, sha, chain, pdf_sha, bound.pages, stored.replaces, entry.who, entry.at)
    store.papers.add(record, bound.pdf)
    keep(store, stored, job, entry)
    learn(store, job, who=entry.who, at=entry.at)
    if stored.replaces:
        old = require(store, stored.replaces)
        keep(store, old, old.job, TrailEntry(entry.who, entry.at, f"Replaced by {job.number}"), replaced=True)
        unlearn(store, old.job, job, who=entry.who, at=entry.at)
    settle_reports(store, job.number, who=entry.who, at=entry.at)
    return IssuedPaper(
        number=job.number,
        sha256=pdf_sha.hex(),
        record_sha256=record_hash(job),
        pages=bound.pages,
        pack=pack,
        kept=store.papers.kept_in(job.number),
    )


def _refused(store: Store, seen: StoredJob, now: StoredJob) -> Refusal | None:
    # The register of people may have changed while the paper was being made; that the job counts as ready no longer follows.
    if reasons := not_theirs_to_sign(now.job, signers_known(store, now.job)):
        return Refusal(reasons=reasons)
    if now.version != seen.version:
        return _refusal(
            f"{_last_hand(store, now)} changed the job while its paper was being made; look at it again, then issue it"
        )
    if now.replaces and (old := require(store, now.replaces)).state is State.REPLACED:
        return _refusal(f"{now.replaces} has been replaced by {old.correction} already; correct that one instead")
    return None


def _last_hand(store: Store, stored: StoredJob) -> str:
    return store.trail(stored.job.number, stored.version - 1)[-1].who


def _refusal(says: str, kind: ReasonKind = ReasonKind.CHANGED) -> Refusal:
    return Refusal(reasons=(Reason(kind=kind, id=kind.name.lower(), place=Place(), says=says),))
