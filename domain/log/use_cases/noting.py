"""Notes beside all jobs; one on a duty changes what is due for its job."""

from domain.duties.noted import TOPIC, noted
from domain.log.last_time.notes import is_topic_of_comparison
from domain.log.put_right.notes import report_of
from domain.log.store import Store
from domain.log.use_cases.out_with import is_laptop, keep_note
from domain.log.use_cases.putting_right import settle_report
from domain.log.use_cases.stored import keep_duties
from domain.log_note import LogNote


def add_note(store: Store, topic: str, note: LogNote) -> None:
    """Keep a note after all that were kept before; one about a job is told to the office or its laptops too."""
    about = _job_of_duty(topic, note)
    with store.transaction(*filter(None, (about,))):
        if topic == TOPIC or is_topic_of_comparison(topic):
            keep_note(store, topic, note)
        else:
            store.notes.add(topic, note)
        _duties_anew(store, about)


def keep_heard_note(store: Store, topic: str, note: LogNote) -> None:
    """Keep a note that was kept elsewhere. Call it inside a transaction."""
    store.notes.add(topic, note)
    _duties_anew(store, _job_of_duty(topic, note))
    if (report := report_of(topic)) and not is_laptop(store):
        settle_report(store, report, who=note.who, at=note.at)


def _job_of_duty(topic: str, note: LogNote) -> str:
    return next(iter(noted((note.text,))), "") if topic == TOPIC else ""


def _duties_anew(store: Store, about: str) -> None:
    stored, line = (store.get(about), store.line(about)) if about else (None, None)
    if stored and line:
        keep_duties(store, stored.job, line)
