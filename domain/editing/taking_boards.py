"""Boards of another job of the same visit taken into this one: readings as typed, and all that was found there."""

from domain.editing.board_commands import TakeBoards
from domain.editing.carrying import is_blank
from domain.editing.commands import Declined
from domain.inspection.observation import Observation
from domain.job.board import Board
from domain.job.job import Job
from domain.job.picture import PICTURES_MAX
from domain.job.snag import Snag
from domain.place import Place
from domain.words import joined


def boards_of(job: Job, other: Job) -> TakeBoards | Declined:
    """The command that takes all of another job's boards that hold anything into a job; why not, where it cannot be."""
    if why := _why_not_one_visit(job, other):
        return Declined(says=why)
    boards = tuple(board for board in other.boards if not is_blank(other, board))
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
    if other.issued:
        return f"{other.number} has been issued, and its paper stands; its boards go into no other"
    if job.form_set is not other.form_set:
        return f"{other.number} ends in other papers than {job.number}; choose the same for both first"
    if joined(job.premises.address) != joined(other.premises.address):
        return f"{other.number} is of another address than {job.number}; put right which of them is wrong"
    if job.profile.covers_one_circuit:
        return f"{job.profile.opens_a_sentence} covers one circuit of one board"
    return ""


def with_boards(job: Job, command: TakeBoards) -> Job | Declined:
    """The job with the boards behind its own, numbered on; a board of the same name is there twice for nobody."""
    own = [board for board in job.boards if not is_blank(job, board)]
    names = {joined(board.designation) for board in own}
    if twice := next((board for board in command.boards if joined(board.designation) in names), None):
        return Declined(
            says=f"There is a board {twice.name} already, and {command.tested_in} has one as well; rename or remove one of them"
        )
    if len(job.pictures) + len(command.pictures) > PICTURES_MAX:
        return Declined(says="A job holds no more pictures; remove some first")
    taken = _Taken(job, command)
    with_them = job.model_copy(update={"boards": (*own, *map(taken.board, command.boards))})
    listed = {item.number for item in with_them.items}
    return with_them.model_copy(
        update={
            "observations": (*job.observations, *(taken.observation(each, listed) for each in command.observations)),
            "snags": (*job.snags, *map(taken.snag, command.snags)),
            "explanations": (
                *job.explanations,
                *(each.model_copy(update={"place": taken.place(each.place)}) for each in command.explanations),
            ),
            "pictures": (
                *job.pictures,
                *(
                    each.model_copy(update={"id": taken.ids[each.id], "about": taken.place(each.about)})
                    for each in command.pictures
                ),
            ),
            "unconfirmed": (*job.unconfirmed, *map(taken.place, command.unconfirmed)),
            "next_id": taken.next_id,
        }
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

    def board(self, board: Board) -> Board:
        circuits = tuple(each.model_copy(update={"id": self.ids[each.id]}) for each in board.circuits)
        return board.model_copy(update={"id": self.ids[board.id], "circuits": circuits})

    def observation(self, given: Observation, listed: set[str]) -> Observation:
        """As it was written; of the items it belongs to, those that this job has."""
        return given.model_copy(
            update={
                "id": self.ids[given.id],
                "about": self.place(given.about) if given.about else None,
                "answers": tuple(map(self.place, given.answers)),
                "items": tuple(item for item in given.items if item in listed),
            }
        )

    def snag(self, given: Snag) -> Snag:
        about = self.place(given.about) if given.about else None
        return given.model_copy(update={"id": self.ids[given.id], "about": about})

    def place(self, place: Place) -> Place:
        """The same place in the job; of a board that was not taken nothing is left but where it stands."""
        named = {name: getattr(place, name) for name in ("board", "circuit", "snag", "observation")}
        return place.model_copy(update={name: self.ids.get(was, "") for name, was in named.items() if was})
