"""Reports put right: what is noted of their observations, and the log's word that all is closed."""

from dataclasses import replace
from datetime import datetime

from domain.civil_time import civil_day
from domain.job.job import Job
from domain.log.job_log import State
from domain.log.put_right.notes import How, RemedyNote, topic_of, topic_of_remedy
from domain.log.put_right.permitted import reason_against
from domain.log.put_right.remedial_status import PutRight, can_be_put_right, remedial_status_from
from domain.log.store import Store, TrailEntry
from domain.log.use_cases.out_with import keep_note, why_out
from domain.log.use_cases.stored import keep, require
from domain.log_note import LogNote


def remedial_status(store: Store, report: Job) -> PutRight:
    """How far each observation of a report is, the worst code first."""
    texts = (note.text for note in store.notes.of(topic_of(report.number), ""))
    return remedial_status_from(report, texts, lambda number: _job(store, number))


def note_remedy(store: Store, number: str, note: RemedyNote, *, who: str, at: datetime) -> str:
    """Keep a note, and have the log show the report as put right once all is closed. Why not, where it cannot be."""
    certificate = note.number if note.how is How.CERTIFICATE else ""
    with store.transaction(*filter(None, (number, certificate))):
        stored = require(store, number)
        remedy = _job(store, certificate) if certificate else None
        replaced = stored.state is State.REPLACED
        if reason := reason_against(
            stored.job, note, remedy, civil_day(at), replaced=replaced, put_right=stored.put_right
        ):
            return reason
        text = note.model_dump_json(exclude_defaults=True)
        keep_note(store, topic_of(number), LogNote(at=at, who=who, text=text))
        if certificate:
            keep_note(store, topic_of_remedy(certificate), LogNote(at=at, who=who, text=number))
        _settle(store, number, who=who, at=at)
    return ""


def settle_reports(store: Store, number: str, *, who: str, at: datetime) -> None:
    """Have the log show as put right what waited for this job alone. Call it inside the transaction that issues it."""
    for report in reports_noted(store, number):
        _settle(store, report, who=who, at=at)


def settle_report(store: Store, number: str, *, who: str, at: datetime) -> None:
    """The same of one report, because of a note that came from elsewhere. Call it inside a transaction."""
    _settle(store, number, who=who, at=at)


def reports_put_right(store: Store, number: str) -> tuple[str, ...]:
    """The reports that stand as put right, and this job among the papers that did it."""
    return tuple(report for report in reports_noted(store, number) if _is_put_right_by(store, report, number))


def reports_noted(store: Store, number: str) -> tuple[str, ...]:
    """The reports of which somebody noted that this job is to put them right."""
    return tuple(dict.fromkeys(note.text for note in store.notes.of(topic_of_remedy(number), "")))


def _is_put_right_by(store: Store, report: str, number: str) -> bool:
    stored = store.get(report)
    if stored is None or not stored.put_right:
        return False
    return any(item.note and item.note.number == number for item in remedial_status(store, stored.job).items)


def _settle(store: Store, number: str, *, who: str, at: datetime) -> None:
    stored = store.get(number)
    if why_out(store, number):
        # Whoever holds it shows it as put right once they hear of this.
        return
    if stored is None or stored.put_right or stored.state is State.REPLACED or not can_be_put_right(stored.job):
        return
    if (now := remedial_status(store, stored.job)).is_done:
        what = f"Put right: {'; '.join(now.papers)}"
        keep(store, replace(stored, put_right=True), stored.job, TrailEntry(who, at, what))


def _job(store: Store, number: str) -> Job | None:
    stored = store.get(number)
    return stored.job if stored else None
