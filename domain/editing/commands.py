"""What can be done to a job: small frozen commands, as the log keeps them."""

from collections.abc import Mapping
from datetime import date
from typing import Annotated, Literal

from pydantic import Field, TypeAdapter

from domain.editing.board_commands import TakeBoards
from domain.editing.inspection_commands import (
    AddItem,
    AnswerFailures,
    MarkItems,
    Observe,
    RecordAction,
    RemoveItem,
    SetOutcome,
    Withdraw,
)
from domain.editing.picture_commands import AddPicture, RemovePicture
from domain.editing.usual_commands import FillBoard, FillCircuit
from domain.edition import Edition
from domain.forms.choice.chosen import ChosenPapers
from domain.job.board import Board
from domain.job.finding import Finding
from domain.job.signature import Role
from domain.place import Place
from domain.value import PROSE_MAX, Line, Moment, Value

FILLED_MAX = 10_000
"""Boxes one filling may take."""


class Declined(Value):
    """A command that cannot be done, with the reason for the person."""

    says: str


class Enter(Value):
    """Type a text into a box, replacing what stood there; an empty text clears it."""

    do: Literal["enter"] = "enter"
    place: Place
    text: Annotated[str, Field(max_length=PROSE_MAX)]


class Fill(Value):
    """Type texts into several boxes in one go: into all of them, or into none where one cannot be."""

    do: Literal["fill"] = "fill"
    entries: Annotated[tuple[Enter, ...], Field(min_length=1, max_length=FILLED_MAX)]

    @property
    def place(self) -> Place:
        """The first of the boxes stands for all."""
        return self.entries[0].place


class PutForward(Value):
    """Put what is known into boxes that are empty, for somebody to confirm. Measured values are left out."""

    do: Literal["put-forward"] = "put-forward"
    entries: Annotated[tuple[Enter, ...], Field(min_length=1, max_length=FILLED_MAX)]
    known_from: Line = ""
    """Where it is known from, such as the number of an earlier paper."""

    @property
    def place(self) -> Place:
        """The first of the boxes stands for all."""
        return self.entries[0].place


class Confirm(Value):
    """Say yes to what was put forward in boxes; those that hold nothing of the kind are left as they are."""

    do: Literal["confirm"] = "confirm"
    places: Annotated[tuple[Place, ...], Field(min_length=1, max_length=FILLED_MAX)]


class Choose(Value):
    """Change the form set; `because` is required where it differs from the advice."""

    do: Literal["choose"] = "choose"
    chosen: ChosenPapers


class SetEdition(Value):
    """Work to another edition of BS 7671."""

    do: Literal["edition"] = "edition"
    edition: Edition
    named: Line = ""
    """Which one, where it is an earlier edition."""


class AddBoard(Value):
    """Add an empty board at the end."""

    do: Literal["add-board"] = "add-board"


class RemoveBoard(Value):
    """Remove a board with its circuits; not when it is another than the person saw."""

    do: Literal["remove-board"] = "remove-board"
    board: str
    seen: str = ""
    """`content_hash` of the board, as the person saw it."""


class AddCircuit(Value):
    """Add a circuit after another (or at the end), its details like a given one, less what is counted on each; readings are never copied."""

    do: Literal["add-circuit"] = "add-circuit"
    board: str
    after: str = ""
    like: str = ""
    number: str = ""
    """What it is called at the board."""


class RemoveCircuit(Value):
    """Remove a circuit with its readings; not when it is another than the person saw."""

    do: Literal["remove-circuit"] = "remove-circuit"
    board: str
    circuit: str
    seen: str = ""
    """`content_hash` of the circuit, as the person saw it."""


class MoveCircuit(Value):
    """Move a circuit to another row of its board; rows count from 0."""

    do: Literal["move-circuit"] = "move-circuit"
    board: str
    circuit: str
    to: int


class RaiseSnag(Value):
    """Put something on the snagging list."""

    do: Literal["raise-snag"] = "raise-snag"
    what: str
    where: str = ""
    about: Place | None = None
    by: str
    on: date


class ClearSnag(Value):
    """Clear a snag, with a word on how it was put right."""

    do: Literal["clear-snag"] = "clear-snag"
    snag: str
    by: str
    on: date
    how: str


class ReopenSnag(Value):
    """Open a cleared snag again."""

    do: Literal["reopen-snag"] = "reopen-snag"
    snag: str


class Explain(Value):
    """Give the reason for what a check asked about; an empty reason takes it back."""

    do: Literal["explain"] = "explain"
    check: str
    case: str = ""
    place: Place
    typed: Mapping[str, str] = {}
    """What the question was about, as it was typed when it was answered."""
    measured: str = ""
    reason: str
    by: str
    on: date

    @classmethod
    def of(cls, finding: Finding, *, reason: str, by: str, on: date) -> "Explain":
        """The reason for one finding, with all it is known by."""
        return cls(
            check=finding.check,
            case=finding.case,
            place=finding.place,
            typed=finding.typed,
            measured=finding.measured,
            reason=reason,
            by=by,
            on=on,
        )


class SayWhy(Value):
    """Say why the document that this one replaces is corrected."""

    do: Literal["say-why"] = "say-why"
    because: Annotated[str, Field(max_length=PROSE_MAX)]


class Sign(Value):
    """Sign for one role, over the job as it stands; not when it is another than the person saw."""

    do: Literal["sign"] = "sign"
    seen: str = ""
    """The fingerprint of the job, as the person saw it."""
    role: Role
    name: str
    position: str = ""
    firm: str = ""
    at: Moment


class Unsign(Value):
    """Take a signature back."""

    do: Literal["unsign"] = "unsign"
    role: Role


class LayAside(Value):
    """Lay a draft aside: it keeps its number and all that was typed, and stands in the list of such drafts alone."""

    do: Literal["lay-aside"] = "lay-aside"


class TakeUp(Value):
    """Take a draft up again that was laid aside."""

    do: Literal["take-up"] = "take-up"


class Carried(Value):
    """A text carried over into a box of a section."""

    section: str
    box: str
    text: Annotated[str, Field(max_length=PROSE_MAX)]


class CarryOver(Value):
    """Take details of an earlier paper over; readings, ticks and dates in it are left out."""

    do: Literal["carry-over"] = "carry-over"
    earlier: str
    """Number of the earlier paper."""
    boxes: tuple[Carried, ...] = ()
    boards: tuple[Board, ...] = ()


Command = Annotated[
    Enter
    | Fill
    | PutForward
    | Confirm
    | FillBoard
    | FillCircuit
    | Choose
    | SetEdition
    | AddBoard
    | RemoveBoard
    | AddCircuit
    | RemoveCircuit
    | MoveCircuit
    | SetOutcome
    | MarkItems
    | AddItem
    | RemoveItem
    | RaiseSnag
    | ClearSnag
    | ReopenSnag
    | Observe
    | AnswerFailures
    | RecordAction
    | Withdraw
    | AddPicture
    | RemovePicture
    | Explain
    | SayWhy
    | Sign
    | Unsign
    | CarryOver
    | TakeBoards
    | LayAside
    | TakeUp,
    Field(discriminator="do"),
]
COMMAND: TypeAdapter[Command] = TypeAdapter(Command)
"""Reads and writes commands as the log keeps them."""
