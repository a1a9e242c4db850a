"""`check`: what the checks and the gate say of a job."""

import re
import textwrap
from collections.abc import Sequence

from domain.checks.shared.lifting import what_lifts
from domain.civil_time import civil_day
from domain.dates import written
from domain.gate.answered import answering_finding
from domain.gate.assessment import JobAssessment, assess, explanation_of
from domain.gate.reason import Reason, ReasonKind
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.job.place_in_words import described
from domain.place import Place
from domain.register.entries import Person
from domain.value import cleaned
from domain.words import counted
from tui.commands.command import FINE, NO, Command, CommandAnswer, Environment, TypedArgument
from tui.commands.input_files import is_file_name, job_in

_SIGNS = {Severity.FAILS: "  ✗ ", Severity.ASK: "  ? ", Severity.NOTE: "  · "}
_HEADINGS = {
    Severity.FAILS: "Fails: put right, or on a report observed",
    Severity.ASK: "Look again: correct it, or give the reason; the reason is printed",
    Severity.NOTE: "Noted",
}
_WIDTH = 80
_NO_BREAK = "\N{NO-BREAK SPACE}"
_BEFORE_A_UNIT = re.compile(r"(?<=\d) (?=(?:Ω|MΩ|mΩ|kA|mA|A|V|ms|s|mm²|m)(?:\W|$))")
"""A figure and its unit stay on one line."""


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Check the job named."""
    word = typed.words[0]
    if is_file_name(word):
        return _checked(job_in(word, environment.documents()), ())
    with environment.open_services() as services:
        job = services.log.load(cleaned(word))
        return _checked(job, services.log.people_named(job.signers)) if job else not_found(word)


def _checked(job: Job, people: Sequence[Person]) -> CommandAnswer:
    assessment = assess(job, people)
    return CommandAnswer(_as_value(job, assessment), _as_text(job, assessment), FINE if assessment.may_issue else NO)


def not_found(number: str) -> CommandAnswer:
    """The log has no job of that number."""
    return CommandAnswer({"number": number, "found": False}, f"The log has no job with the number {number}", NO)


def reasons_as_value(job: Job, reasons: tuple[Reason, ...]) -> list[dict[str, str]]:
    """What holds a paper back, for scripts."""
    return [
        {"kind": reason.kind.value, "id": reason.id, "place": described(job, reason.place), "says": reason.says}
        for reason in reasons
    ]


def reasons_as_text(reasons: tuple[Reason, ...]) -> list[str]:
    """What holds a paper back, for people."""
    return [_wrapped(f"{reason.kind}: {reason.says}", "  ✗ ") for reason in reasons]


def _as_value(job: Job, assessment: JobAssessment) -> dict[str, object]:
    return {
        "form_set": job.form_set.value,
        "edition": job.edition.value,
        "may_issue": assessment.may_issue,
        "outcome": assessment.outcome.value if assessment.outcome else None,
        "findings": [_finding_as_value(job, finding) for finding in assessment.findings],
        "gaps": [{"kind": gap.kind, "place": described(job, gap.place), "says": gap.says} for gap in assessment.gaps],
        "open_snags": [
            {
                "place": described(job, snag.about or Place(snag=snag.id)),
                "what": snag.what,
                "where": snag.where,
                "raised_by": snag.raised_by,
                "raised_on": snag.raised_on.isoformat(),
            }
            for snag in assessment.open_snags
        ],
        "unsigned": [role.value for role in assessment.unsigned],
        "reasons": reasons_as_value(job, assessment.reasons),
    }


def _finding_as_value(job: Job, finding: Finding) -> dict[str, object]:
    explained = explanation_of(job, finding)
    return {
        "check": finding.check,
        "case": finding.case,
        "place": described(job, finding.place),
        "also": [described(job, place) for place in finding.also],
        "severity": finding.severity.value,
        "word": finding.word,
        "typed": dict(finding.typed),
        "measured": finding.measured,
        "limit": finding.limit,
        "source": finding.source.cited if finding.source else None,
        "trust": finding.source.trust.value if finding.source else None,
        "working": finding.working or None,
        "says": finding.says,
        "lifts": what_lifts(finding) or None,
        "explained": explained.reason if explained else None,
    } | _answered(job, finding)


def _answered(job: Job, finding: Finding) -> dict[str, object]:
    """Of a failure of a report, the numbers of the observations that answer it; none while it is open."""
    if finding.severity is not Severity.FAILS or not job.profile.takes_observations:
        return {}
    return {"answered_by": [number for number, _ in answering_finding(job, finding)]}


def _count(reasons: tuple[Reason, ...], kind: ReasonKind) -> int:
    return sum(reason.kind is kind for reason in reasons)


def _of_severity(job: Job, findings: Sequence[Finding]) -> list[str]:
    """Findings of one severity, each with its place, its sentence and its rule, within the width of a terminal."""
    if not findings:
        return []
    lines = ["", f"{_HEADINGS[findings[0].severity]} ({len(findings)})"]
    for finding in findings:
        explained = explanation_of(job, finding)
        lines.append(_wrapped(described(job, finding.place), _SIGNS[finding.severity]))
        lines.append(_wrapped(finding.says))
        lines += [_wrapped(f"Rule: {finding.source.cited}")] if finding.source else []
        lines += [_wrapped(f"Explained by {explained.by}: {explained.reason}", "  ✓ ")] if explained else []
    return lines


def _wrapped(text: str, sign: str = "    ") -> str:
    kept = _BEFORE_A_UNIT.sub(_NO_BREAK, text)
    filled = textwrap.fill(kept, _WIDTH, initial_indent=sign, subsequent_indent="    ", break_on_hyphens=False)
    return filled.replace(_NO_BREAK, " ")


def _as_text(job: Job, assessment: JobAssessment) -> str:
    lines = [f"{job.profile.title} to {job.edition_in_full}"]
    for severity in Severity:
        lines += _of_severity(job, [finding for finding in assessment.findings if finding.severity is severity])
    lines += [""] if assessment.findings else []
    if assessment.outcome:
        lines.append(f"Outcome: {assessment.outcome}{'' if assessment.may_issue else ' so far'}")
    if job.issued:
        lines.append(f"Issued by {job.issued.by} on {written(civil_day(job.issued.at))}")
    lines.append(
        "✓ Nothing holds it back"
        if assessment.may_issue
        else f"✗ Held back, {counted(len(assessment.reasons), 'reason')}:"
    )
    said = (ReasonKind.FINDING, ReasonKind.QUESTION)
    lines += [f"  ✗ {kind}: see above, {count}" for kind in said if (count := _count(assessment.reasons, kind))]
    return "\n".join([*lines, *reasons_as_text(tuple(each for each in assessment.reasons if each.kind not in said))])


COMMAND = Command(
    name="check",
    run=run,
    words="JOB.json|NUMBER",
    least=1,
    most=1,
    explains="A job of the log is held against its register of people too: who may sign what. A file is not.\n"
    "Exit 0: it may be issued. Exit 1: something holds it back, or the log has no such job.",
)
