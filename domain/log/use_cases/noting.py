"""Notes beside all jobs; one on a duty changes what is due for its job."""

from domain.duties.noted import TOPIC, noted
from domain.log.store import Store
from domain.log.use_cases.stored import keep_duties
from domain.log_note import LogNote


def add_note(store: Store, topic: str, note: LogNote) -> None:
    """Keep a note after all that were kept before."""
    about = next(iter(noted((note.text,))), "") if topic == TOPIC else ""
    with store.transaction(*filter(None, (about,))):
        store.notes.add(topic, note)
        stored, line = (store.get(about), store.line(about)) if about else (None, None)
        if stored and line:
            keep_duties(store, stored.job, line)
