"""What both schedules share: the circuits of one board, and what can be done to them."""

from collections.abc import Mapping, Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType

from domain.editing.commands import AddCircuit, Declined, Fill, MoveCircuit, RemoveCircuit
from domain.editing.content_hash import content_hash
from domain.editing.fill_down import filled_down, why_not_filled
from domain.forms.box_group import BoxGroup
from domain.gate.assessment import JobAssessment
from domain.job.board import Board
from domain.job.box import BoxKind, boxes_of, typed_in
from domain.job.circuit import Circuit
from domain.job.job import Job
from domain.job.numbering import number_after
from domain.place import Place
from tui.keys import bindings
from tui.screens.box_screen import BoxScreen
from tui.screens.context_panel import figures_beside, missing_beside
from tui.screens.dialogs import ConfirmScreen
from tui.screens.filling import counted, down_to, filling_of, replaced_by
from tui.widgets.box_entry import BoxEntry
from tui.widgets.box_page import BoxPage
from tui.widgets.box_panel import BoxPanel
from tui.widgets.box_view import BoxView, Notes, Said, notes_of, owner_of, views_of
from tui.widgets.grid_columns import column_for
from tui.widgets.open_entry import OpenEntry
from tui.widgets.page_layout import Part
from tui.widgets.schedule_grid import Row, ScheduleGrid

_FIXED = ("number", "description")


class TableScreen(BoxScreen):
    """A schedule of one board at a time; minor works, with its one circuit, is a page of boxes instead."""

    BOXES: ClassVar[tuple[str, ...]]
    """The boxes of a circuit that are typed into on this schedule."""
    DESCRIPTION_WIDTH: ClassVar[int]
    BINDINGS: ClassVar[list[BindingType]] = bindings(
        "circuit-add",
        "circuit-remove",
        "circuit-up",
        "circuit-down",
        "fill-down",
        "like-above",
        "board-next",
        "board-previous",
    )

    def __init__(self, number: str, place: Place | None = None) -> None:
        super().__init__(number, place)
        self._shown = place.board if place else ""
        self._rows: dict[tuple[str, bool], tuple[Circuit, Said, Row]] = {}
        """The boxes of each circuit as last shown on schedule or page, with what they were made from."""

    def compose_step(self) -> ComposeResult:
        boxes = boxes_of(Circuit)
        widths = {"number": 5, "description": self.DESCRIPTION_WIDTH}
        columns = [column_for(name, boxes[name], widths.get(name, 0)) for name in self._names]
        first = 0 if _FIXED[0] in self.BOXES else len(_FIXED)
        yield ScheduleGrid(self, columns, fixed=len(_FIXED), first_stop=first).add_class("step")
        yield BoxPage(self).add_class("step")
        yield BoxPanel().add_class("working")

    @property
    def goes_across(self) -> bool:
        """The way Enter goes on, as last turned on any schedule."""
        return self.ohmfolio.goes_across

    def turn_way(self) -> None:
        """Turn it, on every schedule."""
        self.ohmfolio.goes_across = not self.goes_across

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
            return "There is no board yet. Ctrl+O adds one."
        return "There is no circuit on this board yet. Ctrl+N adds one."

    def asides(self, view: BoxView | None, entry: OpenEntry | None) -> tuple[str, ...]:  # noqa: ARG002
        """What the tables, the cable and the rest of the circuit say of the box under the cursor."""
        if view is None or self.job is None or self.stands is None:
            return ()
        return (*figures_beside(self.job, view.place), *missing_beside(self.job, self.stands, view.place))

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
        return super().where() or (Place(section="boards", board=self.board.id) if self.board else None)

    def go_to(self, place: Place) -> None:
        if self.job and place.board and place.board != self.board_here:
            self._show_board(place.board)
        if self.has_grid:
            self.grid.go_to(place)
        else:
            self.query_one(BoxPage).go_to(place)

    def show_job(self, job: Job, stands: JobAssessment) -> None:
        notes = notes_of(stands)
        page, board = self.query_one(BoxPage), self.board
        rows = [self._row(job, board, circuit, notes) for circuit in board.circuits] if board else []
        self.grid.display, page.display = self.has_grid, not self.has_grid
        if self.has_grid:
            self.grid.show(rows, _title(job, board))
        else:
            page.show([Part(rows[0][0].whose, rows[0])])
        if self.focused is not self.entering:
            self.set_focus(self.entering)

    def action_add_circuit(self) -> None:
        """Add a circuit after this one, numbered on and its details alike, and go to what it feeds."""
        if self.board is None:
            self.say("There is no board yet; Ctrl+O adds one", bad=True)
            return
        here = self.circuit.id if self.circuit else ""
        known = {circuit.id for circuit in self.board.circuits}
        if not self.commit_open_entry():
            return
        number = number_after(self.board, here)
        if self.do(AddCircuit(board=self.board.id, after=here, like=here, number=number)):
            added = next(circuit for circuit in self.board.circuits if circuit.id not in known)
            self.visit(self._place(added, "description" if number else "number"))

    def action_remove_circuit(self) -> None:
        """Remove this circuit; one that holds anything only after a question."""
        if not self.commit_open_entry():
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
            self.ohmfolio.push_screen(ConfirmScreen(question), answered)
        else:
            self.do(command)

    def action_move_circuit(self, by: int) -> None:
        """Move this circuit up or down."""
        if not self.commit_open_entry():
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
        """Take the text of the circuit above; over a text that stands there only when Enter says so."""
        above = self.grid.above if self.has_grid else None
        if above is None:
            self.say("There is no circuit above to be like")
        elif above.box.is_measured or above.box.kind is BoxKind.TICK:
            self.say(f"{above.box.label} is measured on each circuit and never copied")
        elif not above.typed:
            self.say("The circuit above has nothing here")
        elif not self.commit_open_entry():
            return
        elif self.grid.current and self.grid.current.typed:
            self.grid.put_forward(above.typed)
        elif self.grid.current and self.keep(self.grid.current.place, above.typed):
            self.grid.action_enter()

    def fill_column(self, views: Sequence[BoxView], texts: Sequence[str]) -> None:
        """Fill a column with what was pasted, from the cursor down, after a question that shows it."""
        filling = filling_of(views, texts)
        if isinstance(filling, str):
            self.say(filling, bad=True)
        elif self.may_type():
            self.confirm(ConfirmScreen(filling.question, filling.about), lambda: self._fill(filling.command))

    def action_fill_down(self) -> None:
        """Ask how far down, and which boxes, the circuits are filled like this one."""
        if not (self.may_type() and self.commit_open_entry()):
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
            self.ohmfolio.push_screen(asked, lambda typed: self._fill_down(board, circuit, typed))

    def _fill_down(self, board: Board, circuit: Circuit, typed: Mapping[str, str] | None) -> None:
        if typed is None:
            return
        command = filled_down(board, circuit.id, typed["to"], typed["boxes"].split())
        if isinstance(command, Declined):
            self.say(command.says, bad=True)
        elif self.job and (replaced := replaced_by(self.job, command)):
            question = f"Fill {counted(command)}?"
            about = f"{replaced} of them hold another text now, which goes."
            self.confirm(ConfirmScreen(question, about), lambda: self._fill(command))
        else:
            self._fill(command)

    def _fill(self, command: Fill) -> None:
        if self.do(command):
            self.say(f"{counted(command)} filled; Ctrl+U takes all of it back")

    def action_board(self, by: int) -> None:
        """Go to another board, round and round."""
        boards = self.job.boards if self.job else ()
        if len(boards) < 2:
            self.say("There is no other board; Ctrl+O adds one")
        elif self.commit_open_entry() and self.board:
            self._show_board(boards[(boards.index(self.board) + by) % len(boards)].id)
            self.grid.action_top()

    def _show_board(self, board: str) -> None:
        self._shown = board
        if self.job and self.stands:
            self.show_job(self.job, self.stands)

    def _place(self, circuit: Circuit, box: str) -> Place:
        return Place(section="boards", board=self.board_here, circuit=circuit.id, box=box)

    def _row(self, job: Job, board: Board, circuit: Circuit, notes: Notes) -> Row:
        place = Place(section="boards", board=board.id, circuit=circuit.id)
        said = notes.get(owner_of(place), {})
        key = circuit.id, self.has_grid
        held = self._rows.get(key)
        if held is not None and held[:2] == (circuit, said):
            return held[2]
        row = views_of(circuit, place, f"{board.name}, {circuit.name}", job.form_set, said, self._names)
        self._rows[key] = circuit, said, row
        return row

    @property
    def _names(self) -> tuple[str, ...]:
        if not self.has_grid:
            return self.BOXES
        # A schedule has the same columns whatever the papers; what only the one form asks is typed on its page.
        common = (name for name in self.BOXES if boxes_of(Circuit)[name].group is BoxGroup.CIRCUIT)
        return (*_FIXED, *(name for name in common if name not in _FIXED))


def _title(job: Job, board: Board | None) -> str:
    if board is None:
        return "no board"
    if len(job.boards) == 1:
        return board.name
    return f"{board.name} ({job.boards.index(board) + 1} of {len(job.boards)})"
