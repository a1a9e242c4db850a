"""What two people tested of one installation, put together: the boards of one job taken into another, readings and all."""

from typing import Annotated, Literal

from pydantic import Field

from domain.inspection.observation import Observation
from domain.job.board import Board
from domain.job.explanation import Explanation
from domain.job.picture import JobPicture
from domain.job.snag import Snag
from domain.place import Place
from domain.value import Line, Value

TAKEN_MAX = 1_000


class TakeBoards(Value):
    """Take boards as somebody else tested them, with what was found there; their ids are those of the other job."""

    do: Literal["take-boards"] = "take-boards"
    tested_in: Line
    """Number of the job they were tested in, which has their trail."""
    boards: Annotated[tuple[Board, ...], Field(min_length=1, max_length=TAKEN_MAX)]
    observations: Annotated[tuple[Observation, ...], Field(max_length=TAKEN_MAX)] = ()
    snags: Annotated[tuple[Snag, ...], Field(max_length=TAKEN_MAX)] = ()
    explanations: Annotated[tuple[Explanation, ...], Field(max_length=TAKEN_MAX)] = ()
    pictures: Annotated[tuple[JobPicture, ...], Field(max_length=TAKEN_MAX)] = ()
    unconfirmed: tuple[Place, ...] = ()
