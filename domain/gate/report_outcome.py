"""How a job comes out by its codes and edition, and the one outcome of a report that its inspector decides."""

from domain.gate.outcome import Outcome
from domain.inspection.observation import Code
from domain.inspection.outcome_rule import OutcomeRule, is_fi_alone, outcome_rule
from domain.job.job import Job


def outcome_of(job: Job, rule: OutcomeRule | None = None) -> Outcome:
    """A certificate only ever complies, once the gate lets it through; a report comes out by its codes and edition.

    While the inspector's decision is awaited the cautious reading is taken; ask `is_undecided` before showing it.
    """
    if not job.profile.states_a_condition:
        return Outcome.COMPLIES
    codes = codes_of(job)
    word = (rule or outcome_rule(job.edition)).outcome(codes, job.report.fi_alone.strip())
    if word != "satisfactory":
        return Outcome.UNSATISFACTORY
    return Outcome.SATISFACTORY_WITH_FI if Code.FI in codes else Outcome.SATISFACTORY


def is_undecided(job: Job, rule: OutcomeRule | None = None) -> bool:
    """FI stands alone, the edition's rule on it is contested, and the inspector has not decided."""
    rule = rule or outcome_rule(job.edition)
    return job.profile.states_a_condition and rule.outcome(codes_of(job), job.report.fi_alone.strip()) is None


def asks_inspector(job: Job, rule: OutcomeRule | None = None) -> bool:
    """The outcome of this report is the inspector's to decide, decided or not."""
    rule = rule or outcome_rule(job.edition)
    return job.profile.states_a_condition and rule.is_contested and is_fi_alone(codes_of(job))


def codes_of(job: Job) -> frozenset[Code]:
    """Every code among its observations and inspection items."""
    marked = (code for item in job.inspection if (code := item.mark.code))
    return frozenset((*(each.code for each in job.observations), *marked))
