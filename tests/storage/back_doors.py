"""What a document may claim of itself that no key of the program would let by."""

from typing import Any

from hypothesis import strategies as st

from domain.job.job import Job
from tests.builders import INSPECTOR

ON = "2026-03-02"
SNAG: dict[str, Any] = {"id": "s90", "what": "Lid off", "raised_by": INSPECTOR, "raised_on": ON}
NOBODY = st.sampled_from(["", " ", "-", "N/A", "none"])


def _snag_cleared_by_nobody(job: Job, nobody: str) -> Job:
    return _written(job, snags=[SNAG | {"cleared": {"by": nobody, "on": ON, "how": "put back"}}])


def _snag_cleared_without_a_word(job: Job, nobody: str) -> Job:
    return _written(job, snags=[SNAG | {"cleared": {"by": INSPECTOR, "on": ON, "how": " "}}])


def _observed_danger(job: Job, nobody: str) -> Job:
    return _written(job, observations=[{"id": "o91", "finding": "Bare live part", "code": "C1"}])


def _marked_danger(job: Job, nobody: str) -> Job:
    first, *others = job.model_dump(mode="json")["inspection"]
    return _written(job, inspection=[first | {"mark": "C1"}, *others])


def _replaces_what_is_not_known(job: Job, nobody: str) -> Job:
    return _written(job, replaces="Z-0404", replaces_because="a misreading")


def question_answered_by(job: Job, nobody: str) -> Job:
    made = _written(job, work=job.work.model_dump() | {"designed_on": ON, "started_on": "2026-03-01"})
    answer = {"check": "days", "case": "out-of-order", "place": {"section": "work", "box": "designed_on"}}
    typed = {"designed_on": ON, "first": ON, "then": "2026-03-01"}
    return _written(made, explanations=[answer | {"typed": typed, "reason": "so", "by": nobody, "on": ON}])


DOORS = (
    _snag_cleared_by_nobody,
    _snag_cleared_without_a_word,
    _observed_danger,
    _marked_danger,
    _replaces_what_is_not_known,
    question_answered_by,
)


def _written(job: Job, **parts: Any) -> Job:
    return Job.model_validate(job.model_dump(mode="json") | parts)
