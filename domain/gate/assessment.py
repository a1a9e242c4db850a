"""What keeps a job from being issued, and the only way past it."""

from collections.abc import Sequence
from datetime import datetime

from domain.checks import findings_of
from domain.gate.days import days_after_issue, signed_out_of_turn
from domain.gate.gaps import gaps_of
from domain.gate.outcome import Outcome
from domain.gate.reason import Reason, ReasonKind
from domain.gate.report_outcome import is_undecided, outcome_of
from domain.gate.sentence import said
from domain.inspection.observation import Code
from domain.job.explanation import Explanation
from domain.job.finding import DAYS_CHECK, Finding, Gap, Severity
from domain.job.job import IssueStamp, Job, fingerprint
from domain.job.logo import Logo
from domain.job.place_in_words import described
from domain.job.seal_key import SealedWith
from domain.job.signature import Role
from domain.job.snag import Snag
from domain.place import Place
from domain.register.entries import Person
from domain.register.signing import SigningVerdict, may_sign
from domain.value import Value, is_hollow, is_repeated
from domain.words import joined


class Refusal(Value):
    """Every reason why a job cannot be issued now."""

    reasons: tuple[Reason, ...]


class Pack(Value):
    """A job that passed the gate. Made by `issue` only, which every route to a file goes through."""

    job: Job
    outcome: Outcome


class JobAssessment(Value):
    """How a job stands: all that the checks and the gate say of it."""

    findings: tuple[Finding, ...]
    gaps: tuple[Gap, ...]
    open_snags: tuple[Snag, ...]
    unsigned: tuple[Role, ...]
    outcome: Outcome | None
    reasons: tuple[Reason, ...]

    @property
    def may_issue(self) -> bool:
        """Nothing holds it back."""
        return not self.reasons


def assess(job: Job, people: Sequence[Person] = ()) -> JobAssessment:
    """Everything there is to say of a job as it stands; `people` are those of the register among its signers."""
    findings = findings_of(job)
    gaps = gaps_of(job, findings)
    unsigned = unsigned_roles(job)
    reasons = (
        *_snags_left(job),
        *_failures(job, findings),
        *_questions(job, findings),
        *_gaps_left(job, gaps),
        *_signatures_left(unsigned),
        *not_theirs_to_sign(job, people),
        *signed_out_of_turn(job),
    )
    if job.issued:
        reasons = (
            Reason(kind=ReasonKind.ISSUED, id="issued", place=Place(section="signatures"), says=said("reason.issued")),
        )
    if seen := job.chosen.seen:
        # What another firm tested and filled in is not here to be judged; only its observations are copied.
        findings, gaps = (), ()
        says = said("reason.seen-elsewhere", firm=seen.firm, number=seen.number)
        reasons = (Reason(kind=ReasonKind.ELSEWHERE, id="seen-elsewhere", place=Place(section="chosen"), says=says),)
    is_known = job.profile.states_a_condition or job.issued or not reasons
    if job.issued is None and is_undecided(job):
        is_known = False
    return JobAssessment(
        findings=findings,
        gaps=gaps,
        open_snags=job.open_snags,
        unsigned=unsigned,
        outcome=outcome_of(job) if is_known else None,
        reasons=reasons,
    )


def count_codes(job: Job) -> dict[Code, int]:
    """How many observations carry each code."""
    return {code: sum(each.code is code for each in job.observations) for code in Code}


def unsigned_roles(job: Job) -> tuple[Role, ...]:
    """The roles without a signature that stands for the job as it is now."""
    if not job.signatures:
        return job.roles
    now = fingerprint(job)
    signed = {
        signature.role for signature in job.signatures if signature.fingerprint == now and not is_hollow(signature.name)
    }
    return tuple(role for role in job.roles if role not in signed)


def not_theirs_to_sign(job: Job, people: Sequence[Person]) -> tuple[Reason, ...]:
    """The standing signatures of people whom the register does not let sign for that part; strangers to it may."""
    if not people:
        return ()
    now = fingerprint(job)
    standing_ones = [each for each in job.signatures if each.role in job.roles and each.fingerprint == now]
    verdicts = [(each, may_sign(people, each.name, each.role)) for each in standing_ones]
    return tuple(
        Reason(
            kind=ReasonKind.SIGNER,
            id="may-not-sign",
            place=Place(section="signatures", box=each.role),
            says=said("reason.may-not-sign", role=each.role, why=may.says),
        )
        for each, may in verdicts
        if may.verdict is SigningVerdict.NO
    )


def _not_theirs_to_issue(job: Job, by: str, people: Sequence[Person]) -> tuple[Reason, ...]:
    """The register has whoever issues as somebody in training; strangers to it may. Of a signer that is said already."""
    issuer = next((each for each in people if joined(each.name) == joined(by)), None)
    if issuer is None or issuer.signs or joined(by) in map(joined, job.signers):
        return ()
    says = said("reason.may-not-issue", name=issuer.name)
    return (Reason(kind=ReasonKind.SIGNER, id="may-not-issue", place=Place(section="signatures"), says=says),)


def issue(
    job: Job,
    *,
    by: str,
    at: datetime,
    people: Sequence[Person],
    head: str = "",
    set_by: str = "",
    logo: Logo | None = None,
) -> Pack | Refusal:
    """The pack, stamped with who issued it, when, after which head of the log and what sets it; or every reason why not.

    `people` are those of the register among the signers and whoever issues; what they may not sign holds the paper back,
    and so does an issuer who is in training.
    """
    reasons = (*assess(job, people).reasons, *days_after_issue(job, at), *_not_theirs_to_issue(job, by, people))
    if reasons:
        return Refusal(reasons=reasons)
    stamp = IssueStamp(at=at, by=by, head=head, set_by=set_by, logo=logo)
    return Pack(job=job.model_copy(update={"issued": stamp}), outcome=outcome_of(job))


def naming_key(pack: Pack, key: SealedWith) -> Pack:
    """The same pack, whose paper names the key that the log signs its seal with."""
    return _stamped(pack, sealed_with=key)


def naming_shapes(pack: Pack, page_sha256: str, table_sha256: str) -> Pack:
    """The same pack, whose record holds the digests of the web page and the table beside its paper."""
    return _stamped(pack, page_sha256=page_sha256, table_sha256=table_sha256)


def _stamped(pack: Pack, **more: object) -> Pack:
    assert pack.job.issued is not None
    stamp = pack.job.issued.model_copy(update=more)
    return pack.model_copy(update={"job": pack.job.model_copy(update={"issued": stamp})})


def _snags_left(job: Job) -> tuple[Reason, ...]:
    if not job.profile.takes_snags:
        return ()
    return tuple(
        Reason(
            kind=ReasonKind.SNAG,
            id="snag",
            place=Place(snag=snag.id),
            says=said("reason.snag", number=str(number), what=snag.what),
        )
        for number, snag in enumerate(job.snags, start=1)
        if snag.is_open
    )


def _failures(job: Job, findings: tuple[Finding, ...]) -> tuple[Reason, ...]:
    """What fails holds a certificate back; a report goes out with it, unless it is the days of the report itself."""
    failing = (finding for finding in findings if finding.severity is Severity.FAILS)
    if job.profile.states_a_condition:
        failing = (finding for finding in failing if finding.check == DAYS_CHECK)
    return tuple(
        _of_finding(job, ReasonKind.DATE if finding.check == DAYS_CHECK else ReasonKind.FINDING, finding)
        for finding in failing
    )


def _of_finding(job: Job, kind: ReasonKind, finding: Finding) -> Reason:
    says = said("reason.finding", place=described(job, finding.place), finding=finding.says)
    return Reason(kind=kind, id=finding.id, place=finding.place, says=says)


def _questions(job: Job, findings: tuple[Finding, ...]) -> tuple[Reason, ...]:
    return tuple(
        _of_finding(job, ReasonKind.QUESTION, finding)
        for finding in findings
        if finding.severity is Severity.ASK and explanation_of(job, finding) is None
    )


def explanation_of(job: Job, finding: Finding) -> Explanation | None:
    """The reason a person gave for what a check asked about, while it still fits; a text that says nothing is none."""
    found = next((each for each in job.explanations if each.answers(finding)), None)
    if found is None or is_hollow(found.reason) or is_hollow(found.by):
        return None
    return None if is_repeated(found.reason, (each.reason for each in job.explanations)) else found


def _gaps_left(job: Job, gaps: tuple[Gap, ...]) -> tuple[Reason, ...]:
    return tuple(
        Reason(
            kind=ReasonKind.GAP,
            id=gap.kind,
            place=gap.place,
            says=said("reason.gap", place=described(job, gap.place), gap=gap.says),
        )
        for gap in gaps
    )


def _signatures_left(unsigned: tuple[Role, ...]) -> tuple[Reason, ...]:
    return tuple(
        Reason(
            kind=ReasonKind.SIGNATURE,
            id="not-signed",
            place=Place(section="signatures", box=role),
            says=said("reason.not-signed", role=role),
        )
        for role in unsigned
    )
