"""How gravely a shortfall against today's rules is taken, which depends on the papers."""

from domain.job.finding import Severity
from domain.job.job import Job


def shortfall(job: Job) -> Severity:
    """New work answers for it; a report states it, and the inspector decides on the code."""
    return Severity.NOTE if job.profile.states_a_condition else Severity.ASK
