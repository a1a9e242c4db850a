"""What the log knows of earlier papers on a place, for the boxes of a report that ask for them."""

from domain.dates import written
from domain.editing.commands import Enter, PutForward
from domain.job.job import Job
from domain.log.last_time.history import Earlier, History
from domain.place import Place
from domain.value import LINE_MAX


def known_records(job: Job, history: History) -> PutForward | None:
    """Earlier papers, the firm that holds them, and number and day of the last report, to be put forward; None where the log knows of none."""
    if not history.visits or not job.profile.states_a_condition:
        return None
    texts = {"records": _named(history.visits), "records_held_by": history.visits[0].job.firm.name}
    if last := next((each for each in history.visits if each.job.profile.states_a_condition), None):
        texts |= {"last_inspection": written(last.on) if last.on else "", "last_report": last.number}
    entries = (Enter(place=Place(section="premises", box=box), text=text) for box, text in texts.items() if text)
    return PutForward(entries=tuple(entries), known_from="earlier papers of this log")


def _named(visits: tuple[Earlier, ...]) -> str:
    """The papers by number, the newest first, as many as a box has room for."""
    named = ""
    for each in visits:
        more = f"{named}, {each.number}" if named else each.number
        if len(more) > LINE_MAX:
            break
        named = more
    return named
