"""What both schedules share: the circuits of one board, and what can be done to them."""

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType

from domain.editing.commands import AddCircuit, MoveCircuit, RemoveCircuit
from domain.editing.content_hash import content_hash
from domain.editing.fill_down import why_not_filled
from domain.forms.box_group import BoxGroup
from domain.job.board import Board
from domain.job.box import boxes_of, typed_in
from domain.job.circuit import Circuit
from domain.job.numbering import number_after
from domain.log.half_typed import HalfTyped
from domain.place import Place
from tui.job_page import JobPage
from tui.keys import bindings, key_name
from tui.screens.beginning_board import begin_board
from tui.screens.box_work import BoxPart, BoxWork
from tui.screens.context_panel import figures_beside, missing_beside
from tui.screens.dialogs import ConfirmScreen
from tui.screens.filling import down_to
from tui.screens.fills import Fills
from tui.screens.job_session import JobSession
from tui.screens.job_step import JobStep, StepHost
from tui.screens.kinds_offered import KindsOffered
from tui.screens.like_above import like_above
from tui.screens.raising import raise_here
from tui.screens.schedule_kind import ScheduleKind
from tui.screens.schedule_rows import ScheduleRows, title_of
from tui.widgets.box_entry import BoxEntry
from tui.widgets.box_page import BoxPage
from tui.widgets.box_panel import BoxPanel, Line
from tui.widgets.box_view import BoxView, notes_of
from tui.widgets.grid_columns import column_for
from tui.widgets.open_entry import OpenEntry
from tui.widgets.page_layout import Part
from tui.widgets.schedule_grid import ScheduleGrid

_COLUMNS = {BoxGroup.CIRCUIT, BoxGroup.CIRCUIT_USE}
_FIXED = ("number", "description")


class ScheduleStep(JobStep):
    """A schedule of one board at a time; minor works, with its one circuit, is a page of boxes instead."""

    BINDINGS: ClassVar[list[BindingType]] = bindings(
        *("circuit-add", "circuit-remove", "circuit-up", "circuit-down", "fill-down", "like-above"),
        *("board-next", "board-previous", "board-add", "raise-here"),
    )

    def __init__(self, kind: ScheduleKind, session: JobSession, host: StepHost) -> None:
        """`kind` tells what is typed into here."""
        super().__init__(session, host)
        self._kind = kind
        self._remembered = kind.remembered(session)
        self._fills = Fills(session, host)
        self._kinds = KindsOffered(session, host)
        part = BoxPart(self, lambda: self.entering, self.asides, lambda: self.nothing_here, self._fills.of_spare)
        self._boxes = BoxWork(session, host, part)
        self._shown = ""
        """Id of the board that was come to; "" before any was."""
        self._rows = ScheduleRows()

    @property
    def page(self) -> JobPage:
        return self._kind.page

    @property
    def explains(self) -> str:
        return self._kind.explains

    def compose(self) -> ComposeResult:
        boxes = boxes_of(Circuit)
        widths = {"number": 5, "description": self._kind.description_width}
        columns = [column_for(name, boxes[name], widths.get(name, 0)) for name in self._names]
        first = 0 if _FIXED[0] in self._kind.boxes else len(_FIXED)
        yield ScheduleGrid(self._boxes, self, columns, fixed=len(_FIXED), first_stop=first).add_class("step")
        yield BoxPage(self._boxes).add_class("step")
        yield BoxPanel().add_class("working")

    def expect(self, place: Place) -> None:
        self._shown = place.board

    def resume(self) -> None:
        self._remembered.look_up()
        self._boxes.speak()

    def commit_open_entry(self) -> bool:
        return self._boxes.commit()

    def reopen(self, left: HalfTyped) -> None:
        self._boxes.take_up(left)

    @property
    def typing(self) -> Place | None:
        return self._boxes.typing

    @property
    def told_here(self) -> tuple[Line, ...]:
        return self._boxes.told_here

    @property
    def goes_across(self) -> bool:
        """The way Enter goes on, as last turned on any schedule."""
        return self.host.ohmfolio.goes_across

    def turn_way(self) -> None:
        """Turn it, on every schedule."""
        self.host.ohmfolio.goes_across = not self.goes_across

    @property
    def grid(self) -> ScheduleGrid:
        """The schedule."""
        return self.query_one(ScheduleGrid)

    @property
    def has_grid(self) -> bool:
        """Minor works has none, unless more circuits came in than it may have."""
        return self.job is None or not self.job.profile.covers_one_circuit or len(self.job.circuits()) != 1

    @property
    def entering(self) -> BoxEntry:
        return self.grid if self.has_grid else self.query_one(BoxPage)

    @property
    def nothing_here(self) -> str:
        if self.job and not self.job.boards:
            return f"There is no board yet. {key_name('board-add')} adds one."
        return f"There is no circuit on this board yet. {key_name('circuit-add')} adds one."

    def asides(self, view: BoxView | None, entry: OpenEntry | None) -> tuple[str, ...]:
        """What kind a description may mean, and what the tables, the cable, the last time and the rest of the circuit say of the box under the cursor."""
        job, assessment = self.job, self.session.assessment
        if view is None or job is None or assessment is None:
            return ()
        figures = (*figures_beside(job, view.place), *missing_beside(job, assessment, view.place))
        kinds = self._kinds.lines(view, entry, self.board)
        return (*kinds, *figures[:-1], *self._remembered.lines(view), *figures[-1:])

    @property
    def board(self) -> Board | None:
        """The board that is shown."""
        if self.job is None or not self.job.boards:
            return None
        if not self.has_grid:
            return self.job.circuits()[0][0]
        return self.job.board(self._shown) or self.job.boards[0]

    @property
    def circuit(self) -> Circuit | None:
        """The circuit the cursor is on."""
        view = self.entering.current
        return self.board.circuit(view.place.circuit) if self.board and view else None

    @property
    def board_here(self) -> str:
        return self.board.id if self.board else ""

    def where(self) -> Place | None:
        return self._boxes.where() or (Place(section="boards", board=self.board.id) if self.board else None)

    def go_to(self, place: Place) -> None:
        if self.job and place.board and place.board != self.board_here:
            self._show_board(place.board)
        if self.has_grid:
            self.grid.go_to(place)
        else:
            self.query_one(BoxPage).go_to(place)

    def show_job(self) -> None:
        job, assessment = self.session.job, self.session.assessment
        if job is None or assessment is None:
            return
        notes = notes_of(assessment)
        page, board = self.query_one(BoxPage), self.board
        rows = self._rows.of(job, board, notes, self._names) if board else []
        self.grid.display, page.display = self.has_grid, not self.has_grid
        if self.has_grid:
            self.grid.show(rows, title_of(job, board))
        else:
            page.show([Part(rows[0][0].whose, rows[0])])
        if self.screen.focused is not self.entering:
            self.screen.set_focus(self.entering)

    def action_raise_here(self) -> None:
        """Raise a snag or an observation from the box under the cursor."""
        raise_here(self)

    def action_add_board(self) -> None:
        """List the boards to begin one from, or to fill this one where it has no circuit yet."""
        begin_board(self.session, self.host, self.board, self.go_to)

    def action_add_circuit(self) -> None:
        """Add a circuit after this one, numbered on and its details alike, and go to what it feeds."""
        if self.board is None:
            self.say(f"There is no board yet; {key_name('board-add')} adds one", bad=True)
            return
        here = self.circuit.id if self.circuit else ""
        known = {circuit.id for circuit in self.board.circuits}
        if not self.host.commit_open_entry():
            return
        number = number_after(self.board, here)
        if self.do(AddCircuit(board=self.board.id, after=here, like=here, number=number)):
            added = next(circuit for circuit in self.board.circuits if circuit.id not in known)
            self.host.visit(self._place(added, "description" if number else "number"))

    def action_remove_circuit(self) -> None:
        """Remove this circuit; one that holds anything only after a question."""
        if not self.host.commit_open_entry():
            return
        circuit, board = self.circuit, self.board
        if circuit is None or board is None:
            self.say(self.nothing_here)
            return
        command = RemoveCircuit(board=board.id, circuit=circuit.id, seen=content_hash(circuit))

        def answered(yes: bool | None) -> None:  # noqa: FBT001 - the framework hands it over so
            if yes:
                self.do(command)

        if any(typed_in(circuit, name).strip() for name in boxes_of(Circuit)):
            question = f"Remove circuit {circuit.name} of {board.name}, with its readings?"
            self.host.ohmfolio.push_screen(ConfirmScreen(question), answered)
        else:
            self.do(command)

    def action_move_circuit(self, by: int) -> None:
        """Move this circuit up or down."""
        if not self.host.commit_open_entry():
            return
        circuit, board = self.circuit, self.board
        if circuit is None or board is None:
            self.say(self.nothing_here)
            return
        to = board.circuits.index(circuit) + by
        if 0 <= to < len(board.circuits):
            self.do(MoveCircuit(board=board.id, circuit=circuit.id, to=to))
        else:
            self.say(f"It is the {'first' if by < 0 else 'last'} circuit of this board already")

    def action_like_above(self) -> None:
        """Take the kind that letters of a description mean; say yes to all put forward on this board; else the text above."""
        entering = self.entering
        if taken := self._kinds.take(entering.current, entering.entry, self.board):
            entering.action_give_back()
            entering.go_past(taken)
            self.say(f"Its usual details are put forward; {key_name('undo')} takes them back")
        elif self._boxes.waits_for_yes:
            self._boxes.say_yes_to(lambda at: at.board == self.board_here and at.circuit and at.box in self._names)
        else:
            like_above(self.host, self._boxes, self.grid if self.has_grid else None)

    def fill_block(self, rows: Sequence[Sequence[BoxView]], texts: Sequence[str]) -> None:
        """Fill the boxes from the cursor down and on with what was pasted, after a question that shows it."""
        self._fills.fill_block(rows, texts)

    def action_fill_down(self) -> None:
        """Ask how far down, and which boxes, the circuits are filled like this one."""
        if not (self.host.may_type() and self.host.commit_open_entry()):
            return
        board, circuit, view = self.board, self.circuit, self.entering.current
        if board is None or circuit is None or view is None:
            self.say(self.nothing_here)
        elif why := why_not_filled(view.place.box):
            self.say(why, bad=True)
        elif view.is_wrong:
            self.say(f"{view.typed} cannot stand here; put it right first, then fill it down", bad=True)
        elif circuit is board.circuits[-1]:
            self.say("It is the last circuit of this board; none stands below it", bad=True)
        else:
            asked = down_to(board, circuit, view, self.grid.group_here)
            self.host.ask(asked, lambda typed: self._fills.fill_down(board, circuit, typed))

    def action_board(self, by: int) -> None:
        """Go to another board, round and round."""
        boards = self.job.boards if self.job else ()
        if len(boards) < 2:
            self.say(f"There is no other board; {key_name('board-add')} adds one")
        elif self.host.commit_open_entry() and self.board:
            self._show_board(boards[(boards.index(self.board) + by) % len(boards)].id)
            self.grid.action_top()

    def _show_board(self, board: str) -> None:
        self._shown = board
        self.show_job()

    def _place(self, circuit: Circuit, box: str) -> Place:
        return Place(section="boards", board=self.board_here, circuit=circuit.id, box=box)

    @property
    def _names(self) -> tuple[str, ...]:
        if not self.has_grid:
            return self._kind.boxes
        # A schedule has the same columns whatever the papers; what only the one form asks is typed on its page.
        common = (name for name in self._kind.boxes if boxes_of(Circuit)[name].group in _COLUMNS)
        return (*_FIXED, *(name for name in common if name not in _FIXED))
