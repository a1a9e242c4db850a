"""What the issue screen lists and says: the parts to sign, reasons of a refusal, the paper that was issued."""

from collections.abc import Iterator
from pathlib import Path

from domain.civil_time import short_moment, written_moment
from domain.duties.of_job import owing_for
from domain.gate.assessment import JobAssessment
from domain.gate.issued_paper import IssuedPaper
from domain.gate.proof import Proof, ProofVerdict
from domain.gate.reason import Reason, ReasonKind
from domain.job.job import Job
from domain.job.signature import Role, Signature
from domain.sheets.signing import declarations_of
from domain.words import capitalised
from tui import theme
from tui.after_issue import copy_lines
from tui.keys import key_name
from tui.screens.told_text import WHO_ASKS, told_to_others
from tui.widgets.pick_list import ListCell, ListRow
from tui.widgets.text_page import Paragraph

_FOR_CLIENT = (
    "The original goes to the person who ordered the work, who passes it on to whoever owns or uses the installation;"
    " the firm keeps a copy (common practice). Where the work is notifiable, it is notified too: the scheme or building control says how."
)
_FOR_REPORT = (
    "The original goes to the person who ordered the report; the firm keeps a copy (common practice). A landlord owes"
    " copies to tenants and others in set times, which differ between the nations; check the rules of the place."
)


ANYBODY = "Without a signing phrase anybody at this keyboard could have signed"


def rows_of(job: Job, assessment: JobAssessment, refused: tuple[Reason, ...]) -> Iterator[ListRow]:
    """Each part with its signature, then what kept the paper back when it was last tried."""
    yield ListRow("parts", (ListCell("Signatures", theme.HEAD),), heading=True)
    signed = {each.role: each for each in job.signatures}
    not_theirs = {reason.place.box for reason in assessment.reasons if reason.kind is ReasonKind.SIGNER}
    for role in job.roles:
        signature = None if role in assessment.unsigned else signed.get(role)
        sign, style = (theme.SIGN_GOOD, theme.GOOD) if signature else (theme.SIGN_GAP, theme.ASKS)
        if role in not_theirs:
            sign, style = theme.SIGN_FAILS, theme.FAILS
        yield ListRow(
            role, (ListCell(sign, style, 1), ListCell(capitalised(role), least=30), ListCell(_signed_by(signature)))
        )
    if refused:
        count = f"{len(refused)} reason{'s' if len(refused) > 1 else ''}"
        yield ListRow(
            "refused", (ListCell(f"Not issued: {count}. Enter goes to the place.", theme.FAILS),), heading=True
        )
    for index, reason in enumerate(refused):
        yield ListRow(reason_id(index), (ListCell(theme.SIGN_FAILS, theme.FAILS, 1), ListCell(reason.says)))


def reason_id(index: int) -> str:
    """The id of the row of a reason."""
    return f"reason {index}"


def about_role(job: Job, role: Role) -> Iterator[Paragraph]:
    """What a signature for a part declares."""
    yield Paragraph(f"{capitalised(role)} declares:", theme.HEAD)
    yield Paragraph(declaration(job, role))
    yield Paragraph("Any change of the job lifts the signatures; then it is read and signed again.", theme.QUIET)
    yield from told_to_others(owing_for(job), WHO_ASKS)


def about_reason(reason: Reason) -> Iterator[Paragraph]:
    """What keeps the paper back."""
    yield Paragraph(capitalised(reason.kind), theme.HEAD)
    yield Paragraph(reason.says)


def declaration(job: Job, role: Role) -> str:
    """The words a signature stands under."""
    parts = zip(job.roles, declarations_of(job), strict=True)
    return next(each.declares for at, each in parts if at is role)


def about_issued(job: Job, paper: IssuedPaper, copy: str, replaced: bool) -> Iterator[Paragraph]:  # noqa: FBT001
    """The paper, where it lies, and who should get it."""
    stamp = paper.pack.job.issued
    if stamp:
        says = f"{job.number} issued on {written_moment(stamp.at)} by {stamp.by}: {paper.pack.outcome}"
        yield Paragraph(says, theme.HEAD, theme.SIGN_GOOD, theme.GOOD)
    if replaced:
        yield Paragraph(f"{paper.replaced_by} has replaced it.", theme.ASKS)
    if copy:
        yield Paragraph(copy, label="Copy", label_width=9)
    yield Paragraph(paper.kept or "in the log", label="Kept", label_width=9)
    yield Paragraph(f"{paper.pages}, SHA-256 {paper.sha256}", label="Pages", label_width=9)
    yield Paragraph(_FOR_REPORT if job.profile.states_a_condition else _FOR_CLIENT)
    if copy:
        scp, sftp = copy_lines(Path(copy))
        yield Paragraph(f"{scp} (or {sftp}), typed on another computer", label="Fetch", label_width=9)
        yield Paragraph(f"{key_name('mail')} writes a draft e-mail with the pack attached", label="Send", label_width=9)
    yield from told_to_others(owing_for(job), WHO_ASKS)
    if not replaced:
        yield Paragraph(
            f"{key_name('correct')} begins a correction: a new document that names this one and replaces it.",
            theme.QUIET,
        )


def making(what: str, seconds: int, doing: str) -> str:
    """How far something has come that takes its time."""
    return f"Making {what} … {seconds} s{f', {doing}' if doing else ''}"


def about_proof(proof: Proof) -> Iterator[Paragraph]:
    """What a file was found to be, and all that is known of it."""
    is_good = proof.verdict is ProofVerdict.UNALTERED
    sign, style = (theme.SIGN_GOOD, theme.GOOD) if is_good else (theme.SIGN_FAILS, theme.FAILS)
    yield Paragraph(proof.says, theme.HEAD, sign, style)
    for note in proof.notes:
        yield Paragraph(note)
    if proof.issued_at:
        yield Paragraph(f"{written_moment(proof.issued_at)} by {proof.issued_by}", label="Issued", label_width=9)
    yield Paragraph(f"SHA-256 {proof.sha256}", label="File", label_width=9)
    if proof.record_sha256:
        yield Paragraph(f"SHA-256 {proof.record_sha256}", label="Record", label_width=9)


def _signed_by(signature: Signature | None) -> str:
    if signature is None:
        return "not signed yet"
    position = f", {signature.position}" if signature.position else ""
    return f"{signature.name}{position}, {short_moment(signature.at)}"
