"""Has several boxes filled at once, each time after what it comes to was shown."""

from collections.abc import Mapping, Sequence

from domain.editing.commands import Declined, Fill
from domain.editing.fill_down import filled_down
from domain.editing.spare_way import emptied
from domain.job.board import Board
from domain.job.circuit import Circuit
from domain.place import Place
from tui.keys import key_name
from tui.screens.dialogs import ConfirmScreen
from tui.screens.filling import counted, filling_of, replaced_by
from tui.screens.job_session import JobSession
from tui.screens.job_step import StepHost
from tui.widgets.box_view import BoxView


class Fills:
    """Columns pasted, and details taken down a schedule."""

    def __init__(self, session: JobSession, host: StepHost) -> None:
        self._session = session
        self._host = host

    def fill_block(self, rows: Sequence[Sequence[BoxView]], texts: Sequence[str]) -> None:
        """Fill the boxes from the cursor down and on with what was pasted, after a question that shows it."""
        filling = filling_of(rows, texts)
        if isinstance(filling, str):
            self._host.say(filling, bad=True)
        elif self._host.may_type():
            self._host.confirm(ConfirmScreen(filling.question, filling.about), lambda: self._fill(filling.command))

    def fill_down(self, board: Board, circuit: Circuit, typed: Mapping[str, str]) -> None:
        """Fill circuits like this one as far down as was answered; over other texts only after a question."""
        command = filled_down(board, circuit.id, typed["to"], typed["boxes"].split())
        if isinstance(command, Declined):
            self._host.say(command.says, bad=True)
        elif self._session.job and (replaced := replaced_by(self._session.job, command)):
            question = f"Fill {counted(command)}?"
            about = f"{replaced} of them hold another text now, which goes."
            self._host.confirm(ConfirmScreen(question, about), lambda: self._fill(command))
        else:
            self._fill(command)

    def of_spare(self, place: Place) -> None:
        """Offer to empty a way that has just become spare."""
        board = self._session.job.board(place.board) if self._session.job else None
        circuit = board.circuit(place.circuit) if board and place.box == "shape" else None
        command = emptied(place.board, circuit) if circuit else None
        if circuit and command:
            question = f"{circuit.name} is spare now. Empty it: {counted(command)}?"
            about = f"Number and remarks stay; {key_name('undo')} takes it back. No leaves what was typed, which is printed."
            self._host.confirm(ConfirmScreen(question, about), lambda: self._fill(command))

    def _fill(self, command: Fill) -> None:
        if self._session.do(command):
            self._host.say(f"{counted(command)} filled; {key_name('undo')} takes all of it back")
