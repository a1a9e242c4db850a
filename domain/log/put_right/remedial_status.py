"""How far a report has been put right, by what is noted of it and the papers that prove it."""

from collections.abc import Callable, Iterable
from enum import Enum

from domain.dates import written
from domain.gate.report_outcome import outcome_of
from domain.inspection.observation import BY_GRAVITY, Observation
from domain.job.job import Job
from domain.job.next_due import done_on
from domain.log.put_right.notes import How, RemedyNote, noted
from domain.value import Value


class Stage(Enum):
    """How far one observation is."""

    OPEN = "open"
    UNDER_WAY = "under way"
    CLOSED = "closed"


class RemedialItem(Value):
    """One observation coded C1, C2 or FI."""

    observation: Observation
    stage: Stage = Stage.OPEN
    note: RemedyNote | None = None
    paper: str = ""
    """The paper that proves it, in words; "" while there is none."""
    says: str = "nothing noted yet"


class PutRight(Value):
    """A report with every C1, C2 and FI it holds."""

    report: Job
    items: tuple[RemedialItem, ...]

    @property
    def is_done(self) -> bool:
        """Every one is closed."""
        return bool(self.items) and all(item.stage is Stage.CLOSED for item in self.items)

    @property
    def papers(self) -> tuple[str, ...]:
        """The papers that prove it, each once."""
        return tuple(dict.fromkeys(item.paper for item in self.items if item.stage is Stage.CLOSED))


def can_be_put_right(job: Job) -> bool:
    """A report with a C1, C2 or FI, whatever its outcome: issued here, or by another firm and seen elsewhere."""
    is_report = job.issued is not None or job.chosen.seen is not None
    return is_report and job.profile.states_a_condition and outcome_of(job).is_to_put_right


def remedial_status_from(report: Job, texts: Iterable[str], job_of: Callable[[str], Job | None]) -> PutRight:
    """How far each observation is, the worst code first, by the notes of the report and the jobs they name."""
    notes = noted(texts)
    found = [each for each in report.observations if each.code.is_pressing]
    found.sort(key=lambda each: BY_GRAVITY.index(each.code))
    return PutRight(report=report, items=tuple(_item(each, notes.get(each.id), job_of) for each in found))


def _item(observation: Observation, note: RemedyNote | None, job_of: Callable[[str], Job | None]) -> RemedialItem:
    if note is None:
        return RemedialItem(observation=observation)
    if note.how is How.CERTIFICATE:
        return _by_certificate(job_of(note.number), observation, note)
    on = f", {written(note.on)}" if note.on else ""
    if note.how is How.PAPER:
        paper = f"{note.number} of {note.firm}{on}"
        return RemedialItem(
            observation=observation, stage=Stage.CLOSED, note=note, paper=paper, says=f"put right by {paper}"
        )
    if note.how is How.NO_CERTIFICATE:
        paper = f"work of {note.by}{on}, which needs no certificate: {note.says}"
        says = f"put right by {paper.rstrip('.')}. {note.because}"
        return RemedialItem(observation=observation, stage=Stage.CLOSED, note=note, paper=paper, says=says)
    paper = f"finding of {note.by}{on}: nothing wrong"
    says = f"nothing wrong found by {note.by}{on}: {note.says}"
    return RemedialItem(observation=observation, stage=Stage.CLOSED, note=note, paper=paper, says=says)


def _by_certificate(job: Job | None, observation: Observation, note: RemedyNote) -> RemedialItem:
    if job is None or job.issued is None:
        says = f"{note.number} is to put it right, and is not issued yet"
        return RemedialItem(observation=observation, stage=Stage.UNDER_WAY, note=note, says=says)
    day = done_on(job)
    paper = f"{job.profile.title} {note.number}{f', {written(day)}' if day else ''}"
    return RemedialItem(
        observation=observation, stage=Stage.CLOSED, note=note, paper=paper, says=f"put right by {paper}"
    )
