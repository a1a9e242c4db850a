"""Boards of another job of the same visit taken into this one: readings as typed, and all that was found there."""

from collections import Counter
from collections.abc import Iterator

from domain.editing.board_commands import TakeBoards
from domain.editing.carrying import is_blank
from domain.editing.commands import Declined
from domain.editing.inspecting import items_followed
from domain.editing.putting_forward import marked
from domain.inspection.observation import Observation
from domain.inspection.own_item import OWN
from domain.job.board import Board
from domain.job.explanation import Explanation
from domain.job.instrument import INSTRUMENTS, due_box
from domain.job.job import Job
from domain.job.picture import PICTURES_MAX, JobPicture
from domain.job.picture_place import place_typed
from domain.job.snag import Snag
from domain.place import Place
from domain.value import says_nothing
from domain.words import joined


def boards_of(job: Job, other: Job) -> TakeBoards | Declined:
    """The command that takes all of another job's boards that hold anything into a job; why not, where it cannot be."""
    if why := _why_not_one_visit(job, other):
        return Declined(says=why)
    boards = tuple(board for board in other.boards if _holds_anything(other, board))
    if not boards:
        return Declined(says=f"There is nothing on the boards of {other.number}")
    taken = {board.id for board in boards}
    # What is about no board, such as the bonding, goes with them: nothing that was found is left behind.
    return TakeBoards(
        tested_in=other.number,
        boards=boards,
        observations=other.observations,
        snags=other.snags,
        explanations=tuple(each for each in other.explanations if each.place.board in taken),
        pictures=tuple(each for each in other.pictures if each.about.board in taken or each.about.observation),
        unconfirmed=tuple(each for each in other.unconfirmed if each.board in taken),
    )


def _why_not_one_visit(job: Job, other: Job) -> str:
    if other.number == job.number:
        return "Name two jobs: the one that goes on, and the one whose boards go into it"
    if job.issued:
        return f"{job.number} has been issued, and takes no boards; correct it by a new document that replaces it"
    if other.issued:
        return f"{other.number} has been issued, and its paper stands; its boards go into no other"
    if job.form_set is not other.form_set:
        return f"{other.number} ends in other papers than {job.number}; choose the same for both first"
    if joined(job.premises.address) != joined(other.premises.address):
        return f"{other.number} is of another address than {job.number}; put right which of them is wrong"
    return ""


def instruments_left(job: Job, other: Job) -> tuple[str, ...]:
    """The test instruments of another job that a job does not name: its readings cannot be traced to them yet."""
    named = joined(" ".join(getattr(job.instruments, box) for box in INSTRUMENTS))
    left: list[str] = []
    for box, what in INSTRUMENTS.items():
        serial, due = (getattr(other.instruments, each).strip() for each in (box, due_box(box)))
        if not says_nothing(serial) and joined(serial) not in named:
            left.append(f"{what} {serial}" + (f" (calibration due {due})" if due else ""))
    return tuple(left)


def with_boards(job: Job, command: TakeBoards) -> Job | Declined:
    """The job with the boards behind its own, numbered on; a board of the same name is there twice for nobody."""
    own = [board for board in job.boards if _holds_anything(job, board)]
    taken = _Taken(job, command)
    if why := _why_not_taken(job, own, command) or taken.why_not:
        return Declined(says=why)
    with_them = job.model_copy(update={"boards": (*own, *map(taken.board, command.boards)), "next_id": taken.next_id})
    listed = {item.number for item in with_them.items}
    observed = tuple(taken.observation(each, listed) for each in command.observations)
    found = with_them.model_copy(
        update={
            "observations": (*job.observations, *observed),
            "snags": (*job.snags, *map(taken.snag, command.snags)),
            "explanations": (*job.explanations, *taken.explanations()),
        }
    )
    pictured = found.model_copy(update={"pictures": (*job.pictures, *taken.pictures(found))})
    waiting = (place for each in command.unconfirmed if (place := taken.place(each)) and place.board)
    return marked(items_followed(job, pictured), waiting)


def _why_not_taken(job: Job, own: list[Board], command: TakeBoards) -> str:
    if job.profile.covers_one_circuit:
        return f"{job.profile.opens_a_sentence} covers one circuit of one board"
    names = {joined(board.designation) for board in own}
    if twice := next((board for board in command.boards if joined(board.designation) in names), None):
        if not twice.designation.strip():
            return f"A board here is not named yet, nor is one of {command.tested_in}; name them first"
        return f"There is a board {twice.name} already, and {command.tested_in} has one as well; rename or remove one of them"
    if len(job.pictures) + len(command.pictures) > PICTURES_MAX:
        return "A job holds no more pictures; remove some first"
    return ""


def _holds_anything(job: Job, board: Board) -> bool:
    """Something was put into the board, or found at it: of a board that is spoken of, the words would say nothing without it."""
    return not is_blank(job, board) or any(
        place.board == board.id
        for place in (
            *(each.about for each in (*job.observations, *job.snags, *job.pictures) if each.about),
            *(answered for each in job.observations for answered in each.answers),
        )
    )


class _Taken:
    """The ids of what is taken, counted on from those of the job."""

    def __init__(self, job: Job, command: TakeBoards) -> None:
        parts = (
            ("b", command.boards),
            ("c", (circuit for board in command.boards for circuit in board.circuits)),
            ("o", command.observations),
            ("s", command.snags),
            ("p", command.pictures),
        )
        known = [(letter, each.id) for letter, some in parts for each in some]
        self.ids = {was: f"{letter}{job.next_id + at}" for at, (letter, was) in enumerate(known)}
        self.next_id = job.next_id + len(known)
        self._command = command
        self._twice = next(
            (was for was, times in Counter(was for _, was in known).items() if times > 1 or not was), None
        )

    @property
    def why_not(self) -> str:
        """Why nothing can be taken: two parts of it are one by their id, or one has none; "" where all is well."""
        if self._twice is None:
            return ""
        which = f"the id {self._twice!r} is there twice" if self._twice else "one has no id"
        return (
            f"The parts of {self._command.tested_in or 'the other job'} cannot be told apart: {which}; nothing is taken"
        )

    def board(self, board: Board) -> Board:
        circuits = tuple(each.model_copy(update={"id": self.ids[each.id]}) for each in board.circuits)
        return board.model_copy(update={"id": self.ids[board.id], "circuits": circuits})

    def observation(self, given: Observation, listed: set[str]) -> Observation:
        """As it was written; of the items it belongs to, those that this job has. One of their own is another's here."""
        answers = (self.place(each) for each in given.answers)
        return given.model_copy(
            update={
                "id": self.ids[given.id],
                "about": self.place(given.about) if given.about else None,
                "answers": tuple(each for each in answers if each),
                "items": tuple(item for item in given.items if item in listed and not item.startswith(OWN)),
            }
        )

    def snag(self, given: Snag) -> Snag:
        about = self.place(given.about) if given.about else None
        return given.model_copy(update={"id": self.ids[given.id], "about": about})

    def explanations(self) -> Iterator[Explanation]:
        """Reasons for what stands on boards that are taken; a question about anything else was not asked in this job."""
        for each in self._command.explanations:
            if (place := self.place(each.place)) and place.board:
                yield each.model_copy(update={"place": place})

    def pictures(self, job: Job) -> Iterator[JobPicture]:
        """Those that show something of the job, which has all else that is taken."""
        for each in self._command.pictures:
            if (about := self.place(each.about)) and place_typed(job, about):
                yield each.model_copy(update={"id": self.ids[each.id], "about": about})

    def place(self, place: Place) -> Place | None:
        """The same place in the job; None where it is of a part that was not taken."""
        named = {name: was for name in ("board", "circuit", "snag", "observation") if (was := getattr(place, name))}
        if place.item.startswith(OWN) or any(was not in self.ids for was in named.values()):
            return None
        return place.model_copy(update={name: self.ids[was] for name, was in named.items()})
