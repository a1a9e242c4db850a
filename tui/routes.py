"""Where a screen leads, as data: what is gone to, and what it is given. The router alone knows which screen that is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from textual.dom import DOMNode
    from textual.screen import Screen

    from domain.duties.owing import Owing
    from domain.editing.commands import Command
    from domain.forms.choice.answers import Answers
    from domain.forms.choice.choosing import FormChoice
    from domain.job.board import Board
    from domain.job.circuit import Circuit
    from domain.job.job import Job
    from domain.log.last_time.comparing import ReadingTrend
    from domain.log.last_time.history import Earlier, History
    from domain.place import Place
    from domain.register.entries import Kept, RegisterKind
    from tui.job_page import JobPage
    from tui.keys import Key
    from tui.question_form import Asking


@dataclass(frozen=True, slots=True)
class Route:
    """A way to one screen; each kind of it is a class of its own."""


@dataclass(frozen=True, slots=True)
class ToIntake(Route):
    """The first question. `practises`: somebody came to practise, and goes there first."""

    practises: bool = False


@dataclass(frozen=True, slots=True)
class ToJob(Route):
    """A step of a job, the first where none is named, with the cursor on a place.

    `begun` is a job that the log does not hold yet, without a number: it gets one with the first entry.
    """

    number: str
    step: JobPage | None = None
    place: Place | None = None
    begun: Job | None = None


@dataclass(frozen=True, slots=True)
class ToJobAsLeft(Route):
    """A job where somebody left it: at an entry that is still open, else as the note they left with tells."""

    number: str
    note: str
    open_at: Place | None = None


@dataclass(frozen=True, slots=True)
class ToIssued(Route):
    """The page of an issued paper."""

    number: str


@dataclass(frozen=True, slots=True)
class Origin:
    """What a job comes from: what it begins with, and who hears of its number."""

    prepared: Callable[[Job], Job]
    begun: Callable[[str], None]


@dataclass(frozen=True, slots=True)
class ToDecision(Route):
    """Which papers the answers lead to. `keep` hears what was answered on what else is owed, for a second coming."""

    advice: FormChoice
    answers: Answers
    keep: Callable[[Mapping[str, object]], None]
    origin: Origin | None = None


@dataclass(frozen=True, slots=True)
class ToFind(Route):
    """Finding a job, by words that were typed already."""

    words: str = ""


@dataclass(frozen=True, slots=True)
class ToDue(Route):
    """What is due for all jobs."""


@dataclass(frozen=True, slots=True)
class ToRegisters(Route):
    """The registers."""


@dataclass(frozen=True, slots=True)
class ToKeeping(Route):
    """Keeping the log whole, and carrying jobs."""


@dataclass(frozen=True, slots=True)
class ToOffice(Route):
    """The office and its laptops."""


@dataclass(frozen=True, slots=True)
class ToSettle(Route):
    """What has to be settled between the office and its laptops."""


@dataclass(frozen=True, slots=True)
class ToRegisterPick(Route):
    """One register, to take an entry from."""

    kind: RegisterKind
    take: Callable[[Kept], None]


@dataclass(frozen=True, slots=True)
class ToWhoPractises(Route):
    """The question who practises, before the practice."""


@dataclass(frozen=True, slots=True)
class ToPractice(Route):
    """The practice of somebody."""

    who: str


@dataclass(frozen=True, slots=True)
class ToPracticeSummary(Route):
    """How somebody's practice stands."""

    who: str


@dataclass(frozen=True, slots=True)
class ToOwed(Route):
    """What else is owed. `owing` tells it by the answers; `keep` keeps what was answered, False when it cannot.

    `told` names the days that the paper itself tells: they are not asked for.
    """

    asking: Asking
    owing: Callable[[Answers], Owing]
    keep: Callable[[Asking], bool]
    told: frozenset[str] = frozenset(("issued_on",))


@dataclass(frozen=True, slots=True)
class ToTrail(Route):
    """Who changed what in a job."""

    number: str


@dataclass(frozen=True, slots=True)
class ToVisitSheet(Route):
    """The visit sheet of a job."""

    job: Job


@dataclass(frozen=True, slots=True)
class ToLastTime(Route):
    """What was found at the address of a job before. `do` changes the job; False when it could not be."""

    job: Job
    do: Callable[[Command], bool]


@dataclass(frozen=True, slots=True)
class ToReadings(Route):
    """Readings of one circuit, board or page then and now."""

    job: Job
    history: History
    changes: tuple[ReadingTrend, ...]


@dataclass(frozen=True, slots=True)
class ToMatch(Route):
    """The circuits of an earlier paper, to pick the one that a circuit was."""

    circuit: Circuit
    earlier: Earlier
    was: str
    take: Callable[[str], None]


@dataclass(frozen=True, slots=True)
class ToPutRight(Route):
    """How what a report found is put right."""

    report: Job


@dataclass(frozen=True, slots=True)
class ToRemedy(Route):
    """What work will be done to put something right, for the papers it needs."""

    what: str
    origin: Origin


@dataclass(frozen=True, slots=True)
class ToFilledBoards(Route):
    """Boards that come filled. `here` is the board one comes from; `take` gets a name and what is in it, None for an empty one."""

    here: Board | None
    take: Callable[[str, Board | None], None]


@dataclass(frozen=True, slots=True)
class ToHelp(Route):
    """What the screen on top is for, and its keys."""

    over: Screen[Any]


@dataclass(frozen=True, slots=True)
class ToPalette(Route):
    """Everything that can be done on the screen on top."""

    doings: tuple[tuple[Key, DOMNode], ...]


@dataclass(frozen=True, slots=True)
class ToLeaving(Route):
    """Whether to leave although something could not be saved."""

    question: str
