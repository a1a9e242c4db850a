"""What the rest of the program may ask of a job log, whatever keeps it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from datetime import date, datetime
from enum import StrEnum
from typing import TYPE_CHECKING, Annotated, NamedTuple, Protocol

from pydantic import Field

from domain.forms.form_set import FormSet
from domain.gate.outcome import Outcome
from domain.log_note import LogNote
from domain.place import Place
from domain.value import Value

if TYPE_CHECKING:
    from domain.editing.board_commands import TakeBoards
    from domain.editing.commands import Command, Declined
    from domain.editing.undo import UndoStep
    from domain.gate.assessment import Pack, Refusal
    from domain.gate.issued_paper import IssuedPaper
    from domain.job.job import Job
    from domain.job.signature import Role
    from domain.log.due_days import DueAsked, DueRow, UnansweredRow
    from domain.log.laptops import Laptops
    from domain.log.numbering import Numbering
    from domain.log.put_right.notes import RemedyNote
    from domain.log.put_right.remedial_status import PutRight
    from domain.log.seal_keys import LogKey
    from domain.register.entries import Kept, Person, RegisterEntry, RegisterKind
    from domain.register.signing import MaySign


class State(StrEnum):
    """Where a job is in its life."""

    DRAFT = "draft"
    READY = "ready"
    """A draft in which nothing is left open. Whether its signers may sign, the gate asks the register as it is then."""
    ISSUED = "issued"
    REPLACED = "replaced"


class JobLine(Value):
    """One line of the log."""

    number: str
    client: str
    premises: str
    form_set: FormSet
    state: State
    outcome: Outcome | None
    open_snags: int
    updated: datetime
    due: date | None = None
    """When the next inspection is due, of a paper that stands."""
    put_right: bool = False
    """What an unsatisfactory report found has been put right since."""
    vouched: bool = True
    """False where the log shows it as issued, and has no record that this program made."""
    day: date | None = None
    """Of the inspection, or of the completion of the work; None where it is not typed yet."""

    laid_aside: bool = False
    """A draft that nobody works at now."""

    @property
    def is_issued(self) -> bool:
        """There is a paper."""
        return self.state in {State.ISSUED, State.REPLACED}


class Query(Value):
    """What is looked for. Everything given must hold; words match in any order, the last one by its beginning.

    `words` may hold filters too, as `domain.log.search_words.understood` reads them: `snags:open form:EICR`.
    """

    words: str = ""
    number: str = ""
    client: str = ""
    place: str = ""
    form_set: FormSet | None = None
    state: State | None = None
    outcome: Outcome | None = None
    open_snags: bool | None = None
    engineer: str = ""
    """Words of the name of somebody who tested or signed."""
    year: int | None = None
    """Of the inspection, or of the completion of the work."""
    due_before: date | None = None
    """The next inspection is due by then; what is due first comes first."""
    hand: str = ""
    """Who had a hand in it, as the trail names people."""
    to_put_right: bool = False
    """Reports issued with a C1, C2 or FI that nothing has put right yet."""
    laid_aside: bool = False
    """Drafts that were laid aside; they are in no other list."""
    on: date | None = None
    """The day that `due:60d` among the words counts from."""
    limit: Annotated[int, Field(ge=1)] = 50
    before: str = ""
    """Show what comes after this number in the list: the next page."""


class FoundBy(NamedTuple):
    """One thing asked that a job holds."""

    typed: str
    word: str
    """As the job holds it, folded."""
    where: str
    """client, place, when, or other for all else."""


class FoundJob(NamedTuple):
    """One job found."""

    line: JobLine
    by: tuple[FoundBy, ...] = ()
    lacks: tuple[str, ...] = ()
    """What was typed that the job does not hold."""


class Found(NamedTuple):
    """A page of what a search found."""

    jobs: tuple[FoundJob, ...] = ()
    is_whole: bool = True
    """Each holds everything that was asked; else what holds most of it comes first."""
    is_as_typed: bool = True
    """Nothing had to be put right to find them."""
    has_more: bool = False
    """There is another page, of what follows the last of these."""


class TrailLine(Value):
    """One edit: who did what, when."""

    version: int
    """Counts the edits of a job from 1."""
    at: datetime
    who: str
    what: str
    place: Place | None = None
    """The box or question it is about."""


class BoundPaper(Value):
    """A pack as a file."""

    pdf: bytes
    pages: int


class JobLogError(Exception):
    """The log cannot do it; the message is a plain sentence for the person."""


class LogGoneError(JobLogError):
    """What is open is no longer what lies in the folder: nothing written to it would be found again."""


class NotWritableError(JobLogError):
    """The disk takes nothing, or not from this person; what is there may be readable."""


class BusyError(JobLogError):
    """Another program holds the log and does not let go; it was waited for."""


class UnknownIfKeptError(JobLogError):
    """The answer of what keeps the log was lost: it may have been kept or not. The same once more, by its `op`, is safe."""


def no_such_job(number: str) -> JobLogError:
    """What is said of a number this log never gave."""
    return JobLogError(f"There is no job {number!r} in this log.")


class JobLog(Protocol):
    """The job log. Every change is on disk when the call returns. Methods raise JobLogError and nothing else.

    A number that the log never gave is None where None may be returned, and an error elsewhere.

    `op` names what is asked, by a text that its caller makes up once and uses for nothing else. Asked again under the
    same name it is not done twice: the answer is that of the first time, with the job as it stands. So whoever got
    UnknownIfKeptError, or no answer at all, asks again.
    """

    def create(self, job: Job, *, who: str, at: datetime, op: str = "") -> Job:
        """Keep a new job as a draft, whatever it was elsewhere, and give it its number."""
        ...

    def create_all(self, jobs: Iterable[Job], *, who: str, at: datetime, op: str = "") -> tuple[Job, ...]:
        """Keep several new jobs as drafts: every one of them, or none. Nobody waits while they are read."""
        ...

    def edit(
        self, number: str, command: Command, *, who: str, at: datetime, op: str = "", phrase: str = ""
    ) -> Job | Declined:
        """Apply a command to the job as it stands in the log, and keep both.

        Nobody signs for a part that the register of people does not let them sign, nor without their signing `phrase`
        where one is asked; what is wrong of it is counted, and after three there is a pause.
        """
        ...

    def take_boards(self, number: str, other: str, *, who: str, at: datetime) -> TakeBoards | Declined:
        """Take the boards of another job of one visit into this one, as they were tested; what was taken.

        The other is laid aside. Both must be this log's to change.
        """
        ...

    def undo(self, number: str, *, who: str, at: datetime, op: str = "") -> UndoStep | Declined:
        """Take back the last edit of this person that still stands, and note that in the trail."""
        ...

    def redo(self, number: str, *, who: str, at: datetime, op: str = "") -> UndoStep | Declined:
        """Make the edit again that this person took back last."""
        ...

    def replace(self, number: str, *, because: str, who: str, at: datetime, op: str = "") -> Job | Declined:
        """Begin a correction: a new draft, like the issued job, that names the one it will replace, and why."""
        ...

    def load(self, number: str) -> Job | None:
        """The job with this number, issued or not."""
        ...

    def line(self, number: str) -> JobLine | None:
        """The log's line for a job."""
        ...

    def version(self, number: str) -> int:
        """How many edits a job has had; 0 when there is no such job."""
        ...

    def data_version(self) -> int:
        """Another number once another program may have changed the log; cheap enough to ask every second."""
        ...

    def find(self, query: Query) -> tuple[JobLine, ...]:
        """What matches, the one touched last first."""
        ...

    def due(self, asked: DueAsked) -> Iterator[DueRow]:
        """What is due, or was noted as done, over all jobs but those replaced; no job is read."""
        ...

    def due_counted(self) -> Iterator[tuple[date, bool, int]]:
        """How much is due on each day: so much of it papers to be kept until then, so much to be done by then."""
        ...

    def unanswered(self, after: str = "", limit: int | None = None) -> Iterator[UnansweredRow]:
        """Jobs whose duties cannot all be told before a question is answered, the oldest first."""
        ...

    def count_unanswered(self) -> int:
        """How many those are."""
        ...

    def search(self, query: Query) -> Found:
        """What a person half remembers: all of it, with an error in a word put right where need be, else most of it."""
        ...

    def trail(self, number: str, *, after: int = 0) -> tuple[TrailLine, ...]:
        """The edits of a job that came after a version, oldest first."""
        ...

    def may_sign(self, name: str, roles: Iterable[Role]) -> tuple[Person | None, MaySign]:
        """The person of that name in the register, and the strictest of what it says of them over the roles."""
        ...

    def phrase_asked(self, name: str) -> bool:
        """Nobody signs under this name without a phrase: one is set, or one is required of all."""
        ...

    def set_phrase(self, name: str, phrase: str, *, before: str = "", who: str, at: datetime) -> str:
        """Keep the signing phrase of somebody in the register, hashed; why not, where it cannot be.

        Whoever has one gives it as `before`; a wrong one counts.
        """
        ...

    def require_phrases(self, *, required: bool, who: str, at: datetime) -> None:
        """Require a signing phrase of everybody who signs in this log, or of those only who set one."""
        ...

    def issue_document(
        self,
        job: Job,
        *,
        by: str,
        at: datetime,
        bind: Callable[[Pack], BoundPaper],
        op: str = "",
        earlier: bool = False,
    ) -> IssuedPaper | Refusal:
        """Take a job from elsewhere into the log and issue it: both, or nothing is kept at all. As `issue` for the rest."""
        ...

    def may_issue(self, job: Job, *, by: str, at: datetime) -> Pack | Refusal:
        """What the gate says of a job, from this log or from elsewhere, with the register of people as it is."""
        ...

    def issue(
        self,
        number: str,
        *,
        by: str,
        at: datetime,
        bind: Callable[[Pack], BoundPaper],
        seen: str = "",
        op: str = "",
        earlier: bool = False,
    ) -> IssuedPaper | Refusal:
        """Pass the gate with the job as it stands, bind it, keep the paper, and close the job. All or nothing.

        A paper dated before the day of the one issued last is held back until somebody says by `earlier` that it is right.
        `seen` is the fingerprint of the job as the person saw it; another job than that is not issued. Neither is
        one signed by somebody whom the register of people, as it is by then, does not let sign for that part.
        What `bind` raises passes through, and the job stays a draft. The registers learn what the paper names and
        they do not hold; what it corrects is replaced, and a report that waited for it alone is put right.
        """
        ...

    def issued(self, number: str) -> IssuedPaper | None:
        """The paper a job was issued as."""
        ...

    def paper(self, number: str) -> bytes:
        """The PDF a job was issued as, byte for byte; JobLogError where it is missing or altered."""
        ...

    def chain_head(self) -> str:
        """The chain over all that was ever kept, in hexadecimal; whoever holds it can tell whether any of it was altered since."""
        ...

    def had_head(self, head: str) -> bool:
        """The chain of this log was at that, at some time."""
        ...

    def numbering(self) -> Numbering:
        """By which letters this log numbers its jobs, and how far it is."""
        ...

    def begin_numbers(self, prefix: str) -> str:
        """Have numbers begin with these letters, before the first is given; why not, where they cannot."""
        ...

    def refuses(self) -> str:
        """Why nothing can be kept in this log now, in sentences; "" where it can."""
        ...

    def seal_keys(self) -> tuple[LogKey, ...]:
        """Every key the log has sealed papers with, the oldest first."""
        ...

    def begin_seal_key(self, *, who: str, at: datetime) -> LogKey | None:
        """The key the log seals with now, begun where it never had one; None for a log that seals without.

        JobLogError where the key it sealed with last is not to be had.
        """
        ...

    def rotate_seal_key(self, *, who: str, at: datetime) -> LogKey:
        """Hand over to a new key, which the one as it is signs; papers sealed before stay what they are."""
        ...

    def replace_lost_seal_key(self, *, who: str, at: datetime) -> LogKey:
        """Begin a new key where the one before was lost or may be in other hands; no statement leads to it."""
        ...

    @property
    def firm(self) -> Laptops | None:
        """The same of a log that is the office of its firm or a laptop; None while it stands alone, which is cheap to tell."""
        ...

    @property
    def laptops(self) -> Laptops | None:
        """The office and its laptops, of which this log is one or may become one; None where its keeper has no place for that."""
        ...

    def remedial_status(self, report: Job) -> PutRight:
        """How far each observation of a report has been put right, the worst code first."""
        ...

    def note_remedy(self, number: str, note: RemedyNote, *, who: str, at: datetime) -> str:
        """Note how an observation of a report is put right; why not, where that cannot be noted. It stays as issued.

        The log shows the report as put right once every C1, C2 and FI is closed.
        """
        ...

    def reports_put_right(self, number: str) -> tuple[str, ...]:
        """The reports that stand as put right by this job, with others or alone."""
        ...

    def save_position(self, number: str, where: str, *, who: str) -> None:
        """Note where somebody left a job, so that it opens there."""
        ...

    def position(self, number: str, *, who: str) -> str:
        """Where that was; "" when never opened."""
        ...

    def last_opened(self, *, who: str) -> str:
        """Number of the job somebody was in last; "" when there is none."""
        ...

    def add_note(self, topic: str, text: str, *, who: str, at: datetime) -> None:
        """Keep something of a person, after all that was kept before."""
        ...

    def notes(self, topic: str, *, who: str = "") -> tuple[LogNote, ...]:
        """What was kept under a topic, oldest first; of everybody when nobody is named."""
        ...

    def register(
        self, entry: RegisterEntry, *, entry_id: str = "", who: str, at: datetime, retired: bool = False
    ) -> Kept:
        """Keep a new entry of a register, or another version of the one with this id. Older versions stay."""
        ...

    def merge_entries(self, stays: str, goes: str, *, who: str, at: datetime) -> Kept:
        """Make two entries of a register one: `stays` is given what it lacks, `goes` is offered no more. Papers stay as they are."""
        ...

    def registered(
        self, kind: RegisterKind, words: str = "", *, retired: bool = False, limit: int = 50
    ) -> tuple[Kept, ...]:
        """Entries of a register as they are now, by their titles; those whose words begin as each of `words` does.

        What was retired is listed only when that is asked for, and then alone.
        """
        ...

    def people_named(self, names: Iterable[str]) -> tuple[Person, ...]:
        """Those of the register of people, as it is now, who have one of these names, however it is spelt."""
        ...

    def versions_of(self, entry_id: str) -> tuple[Kept, ...]:
        """Every version of an entry, oldest first; none when there is no such entry."""
        ...

    def close(self) -> None:
        """Let go of the files."""
        ...
