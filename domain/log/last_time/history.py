"""The earlier visits to the place of a job, as the log holds them."""

from datetime import date

from domain.job.job import Job
from domain.job.next_due import done_on
from domain.job.place_in_words import owner_at
from domain.job.reading import Reading
from domain.log.job_log import JobLog, Query, State
from domain.log.last_time.address import is_same_place, words_to_find
from domain.log.last_time.matching import Match, matched
from domain.log.last_time.notes import MatchNote, MatchNotes, noted, topic_of
from domain.place import Place
from domain.value import Value
from domain.words import joined

_LOOKED_AT_MAX = 300


class Earlier(Value):
    """An issued paper on the same place."""

    job: Job
    on: date | None
    """Day of the inspection, or of the completion of the work."""

    @property
    def number(self) -> str:
        """Its number."""
        return self.job.number


class History(Value):
    """What was at a place before, newest first."""

    visits: tuple[Earlier, ...] = ()
    notes: MatchNotes = MatchNotes()

    def visit(self, number: str) -> Earlier | None:
        """The visit of this number."""
        return next((visit for visit in self.visits if visit.number == number), None)

    def matches(self, now: Job, earlier: Earlier) -> tuple[Match, ...]:
        """Circuit by circuit, with what people said of them."""
        return matched(now, earlier.job, self.notes.on(earlier.number))


class LastTime(Value):
    """The last visit with the circuits matched, ready to be asked for one reading after another."""

    visit: Earlier
    matches: tuple[Match, ...]

    def reading(self, now: Job, place: Place) -> Reading | None:
        """What stood in the box of a place then; None where there was no such box, or nothing in it."""
        return reading_at(self.visit.job, self.place_then(now, place))

    def place_then(self, now: Job, place: Place) -> Place | None:
        """The place of the earlier paper that is the same as one now."""
        return place_then(now, self.visit.job, self.matches, place)


def history_of(log: JobLog, job: Job) -> History:
    """Issued papers on the place of a job that are no later than it, and those linked by hand."""
    notes = noted(note.text for note in log.notes(topic_of(job.number)))
    found = [*_at_the_place(log, job), *(log.load(number) for number in notes.linked)]
    jobs = {each.number: each for each in found if each is not None and _comes_before(each, job)}
    visits = [Earlier(job=each, on=done_on(each)) for each in jobs.values()]
    visits.sort(key=lambda visit: (visit.on or date.min, visit.number), reverse=True)
    return History(visits=tuple(visits), notes=notes)


def last_time(log: JobLog, job: Job) -> LastTime | None:
    """The newest earlier visit; None where the place is new to the log."""
    history = history_of(log, job)
    if not history.visits:
        return None
    return LastTime(visit=history.visits[0], matches=history.matches(job, history.visits[0]))


def place_then(now: Job, earlier: Job, matches: tuple[Match, ...], place: Place) -> Place | None:
    """The place of an earlier paper that is the same as one now."""
    if place.circuit:
        match = next((each for each in matches if each.circuit == place.circuit and each.was), None)
        return place.model_copy(update={"board": match.was_board, "circuit": match.was}) if match else None
    if not place.board:
        return place
    board = now.board(place.board)
    same = [each for each in earlier.boards if board and joined(each.designation) == joined(board.designation)]
    if not same and len(now.boards) == len(earlier.boards) == 1:
        same = list(earlier.boards)
    return place.model_copy(update={"board": same[0].id}) if same else None


def reading_at(job: Job, place: Place | None) -> Reading | None:
    """The reading in a box; None where there is none."""
    owner = owner_at(job, place) if place else None
    held: Reading | None = getattr(owner, place.box, None) if owner is not None and place else None
    return held if isinstance(held, Reading) and held.is_given else None


def linking(log: JobLog, job: Job, number: str) -> MatchNote | str:
    """The note that links an earlier paper by its number, or why it cannot be linked."""
    line = log.line(number)
    if line is None:
        return f"There is no job {number!r} in this log"
    if line.state not in {State.ISSUED, State.REPLACED}:
        return f"{number} has not been issued; only what was issued can be laid beside a job"
    other = log.load(number)
    if other is None or not _comes_before(other, job):
        return f"{number} is not earlier than this job"
    return MatchNote(earlier=number)


def _at_the_place(log: JobLog, job: Job) -> tuple[Job, ...]:
    words = words_to_find(job.premises)
    if not words:
        return ()
    lines = log.find(Query(place=words, limit=_LOOKED_AT_MAX))
    loaded = (log.load(line.number) for line in lines if line.state is State.ISSUED and line.number != job.number)
    return tuple(each for each in loaded if each and is_same_place(each.premises, job.premises))


def _comes_before(earlier: Job, job: Job) -> bool:
    if earlier.number == job.number or earlier.issued is None:
        return False
    then, now = done_on(earlier), done_on(job)
    if job.issued and earlier.issued.at >= job.issued.at:
        return False
    return then is None or now is None or then <= now
