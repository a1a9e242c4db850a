"""What can lift a question: which reasons, or none."""

from domain.checks.shared.phrases import SENTENCES, phrase
from domain.job.finding import Finding, Severity


def what_lifts(finding: Finding) -> str:
    """A sentence on what a person's reason has to say, or that no reason lifts it; "" of what is only noted, or fails by a figure."""
    if finding.severity is Severity.ASK:
        row = SENTENCES.get(f"lifts.{finding.id}") or SENTENCES[f"lifts.{finding.check}"]
        return phrase("lifted-by-a-reason", what=row.says)
    return "" if SENTENCES[finding.id].lifted else phrase("lifted-by-nothing")
