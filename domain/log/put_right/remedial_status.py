"""How far a report has been put right, and the one way to have the log show it so."""

from datetime import date, datetime
from enum import Enum

from domain.dates import written
from domain.gate.report_outcome import outcome_of
from domain.inspection.observation import Code, Observation
from domain.job.job import Job
from domain.job.next_due import done_on
from domain.log.job_log import JobLog, State
from domain.log.put_right.notes import How, RemedyNote, noted, topic_of, topic_of_remedy
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
    """An issued report with a C1, C2 or FI, whatever its outcome."""
    return job.issued is not None and job.profile.states_a_condition and outcome_of(job).is_to_put_right


def standing_of(log: JobLog, report: Job) -> PutRight:
    """How far each observation is, the worst code first."""
    notes = noted(jotting.text for jotting in log.jottings(topic_of(report.number)))
    found = [each for each in report.observations if each.code.is_pressing]
    found.sort(key=lambda each: tuple(Code).index(each.code))
    return PutRight(report=report, items=tuple(_item(log, each, notes.get(each.id)) for each in found))


def note_of(log: JobLog, report: Job, note: RemedyNote, *, who: str, at: datetime) -> str:
    """Keep a note, and have the log show the report as put right once all is closed. Why not, where it cannot be."""
    if reason := _refused(log, report, note, at.date()):
        return reason
    log.jot(topic_of(report.number), note.model_dump_json(exclude_defaults=True), who=who, at=at)
    if note.how is How.CERTIFICATE:
        log.jot(topic_of_remedy(note.number), report.number, who=who, at=at)
    settle(log, report.number, who=who, at=at)
    return ""


def settle(log: JobLog, number: str, *, who: str, at: datetime) -> bool:
    """Have the log show the report as put right, if it is by now; True when it does so from now on."""
    report, line = log.load(number), log.line(number)
    if report is None or line is None or line.put_right or line.state is not State.ISSUED:
        return False
    if not can_be_put_right(report) or not (now := standing_of(log, report)).is_done:
        return False
    log.note_put_right(number, "; ".join(now.papers), who=who, at=at)
    return True


def settled_by(log: JobLog, number: str, *, who: str, at: datetime) -> tuple[str, ...]:
    """The reports that are put right by now that a job has been issued."""
    reports = dict.fromkeys(jotting.text for jotting in log.jottings(topic_of_remedy(number)))
    return tuple(report for report in reports if settle(log, report, who=who, at=at))


def _refused(log: JobLog, report: Job, note: RemedyNote, today: date) -> str:
    line = log.line(report.number)
    if not can_be_put_right(report):
        return f"{report.number} is no issued report with a C1, C2 or FI; there is nothing to put right"
    if line is not None and line.state is State.REPLACED:
        return f"{report.number} has been replaced by a correction; put that one right"
    if line is not None and line.put_right:
        return f"{report.number} stands in the log as put right; what is found later belongs to a new inspection"
    observation = next((each for each in report.observations if each.id == note.observation), None)
    if observation is None:
        return "That observation is not on the report"
    if note.how is How.CERTIFICATE:
        return _no_remedy(log, report, note.number)
    return "" if note.how is How.OPEN else _incomplete(report, observation, note, today)


def _no_remedy(log: JobLog, report: Job, number: str) -> str:
    job = log.load(number)
    if job is None:
        return f"There is no job {number!r} in this log"
    if job.profile.states_a_condition:
        return f"{number} is a report; what was found is put right by work, and work is certified"
    if job.issued and _is_before(done_on(job), report):
        return f"{number} was completed before the report was made, so it does not put right what was found"
    return ""


def _incomplete(report: Job, observation: Observation, note: RemedyNote, today: date) -> str:
    if note.how is How.NOTHING_WRONG and observation.code is not Code.FI:
        return f"{observation.code} was found wrong; only FI, further investigation, can end with nothing wrong"
    if note.how is How.NOTHING_WRONG and not (note.says.strip() and note.by.strip()):
        return "Say what was looked into, and who found nothing wrong"
    if note.how is How.PAPER and not (note.number.strip() and note.firm.strip()):
        return "A paper of another firm needs its number and the firm"
    if note.on is None:
        return "It needs the day, such as 25/11/2026"
    if note.on > today:
        return f"{written(note.on)} has not come yet"
    if _is_before(note.on, report):
        return f"{written(note.on)} lies before the day of the report"
    return ""


def _is_before(day: date | None, report: Job) -> bool:
    inspected = done_on(report)
    return day is not None and inspected is not None and day < inspected


def _item(log: JobLog, observation: Observation, note: RemedyNote | None) -> RemedialItem:
    if note is None:
        return RemedialItem(observation=observation)
    if note.how is How.CERTIFICATE:
        return _by_certificate(log, observation, note)
    on = f", {written(note.on)}" if note.on else ""
    if note.how is How.PAPER:
        paper = f"{note.number} of {note.firm}{on}"
        return RemedialItem(
            observation=observation, stage=Stage.CLOSED, note=note, paper=paper, says=f"put right by {paper}"
        )
    paper = f"finding of {note.by}{on}: nothing wrong"
    says = f"nothing wrong found by {note.by}{on}: {note.says}"
    return RemedialItem(observation=observation, stage=Stage.CLOSED, note=note, paper=paper, says=says)


def _by_certificate(log: JobLog, observation: Observation, note: RemedyNote) -> RemedialItem:
    line, job = log.line(note.number), log.load(note.number)
    if line is None or job is None or line.state not in {State.ISSUED, State.REPLACED}:
        says = f"{note.number} is to put it right, and is not issued yet"
        return RemedialItem(observation=observation, stage=Stage.UNDER_WAY, note=note, says=says)
    day = done_on(job)
    paper = f"{job.profile.title} {note.number}{f', {written(day)}' if day else ''}"
    return RemedialItem(
        observation=observation, stage=Stage.CLOSED, note=note, paper=paper, says=f"put right by {paper}"
    )
