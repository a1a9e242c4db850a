"""Kinds of circuit, offered by a letter or two where it is typed what a circuit feeds."""

from domain.editing.board_filling import boxes_filled, is_without_circuits
from domain.editing.usual_commands import FillCircuit
from domain.job.board import Board
from domain.log.job_log import JobLogError
from domain.place import Place
from domain.register.entries import KnownBoard, RegisterKind
from domain.usual.circuit_kinds import CircuitKind, kinds_begun
from tui.keys import key_name
from tui.screens.job_session import JobSession
from tui.screens.job_step import StepHost
from tui.widgets.box_view import BoxView
from tui.widgets.open_entry import OpenEntry

_OWN_MAX = 20


class KindsOffered:
    """What the letters of a description may mean, with the firm's usual cable and device, else the program's."""

    def __init__(self, session: JobSession, host: StepHost) -> None:
        self._session = session
        self._host = host

    def lines(self, view: BoxView, entry: OpenEntry | None, board: Board | None) -> tuple[str, ...]:
        """What would be taken, or that a letter or two are enough."""
        key = key_name("like-above")
        if board and entry is None and view.place.box != "description" and is_without_circuits(board):
            return (
                f"{key_name('board-add')} fills this board from a list: your firm's own, house, flat, three phases",
            )
        if view.place.box == "description" and not view.typed and entry is None:
            return (f"A letter or two, then {key}, take a kind with its usual cable and device: cooker, ring, lights",)
        first, *others = self._known(view, entry, board) or (None,)
        more = f" (then {', '.join(each.description for each in others[:3])})" if others else ""
        return (f"{key} takes {first.told}{more}",) if first else ()

    def take(self, view: BoxView | None, entry: OpenEntry | None, board: Board | None) -> tuple[Place, ...]:
        """Put the first kind forward that the letters mean; the boxes it filled, none where nothing was taken."""
        first, *_ = (self._known(view, entry, board) if view else ()) or (None,)
        if first is None or view is None or board is None or not self._host.may_type():
            return ()
        command = FillCircuit(board=board.id, circuit=view.place.circuit, usual=first.details)
        if self._session.job is None or not self._session.do(command):
            return ()
        return boxes_filled(self._session.job, command)

    def _known(self, view: BoxView, entry: OpenEntry | None, board: Board | None) -> tuple[CircuitKind, ...]:
        if view.place.box != "description" or entry is None or not entry.is_changed:
            return ()
        others = (
            board.model_copy(
                update={"circuits": tuple(each for each in board.circuits if each.id != view.place.circuit)}
            )
            if board
            else None
        )
        return kinds_begun(entry.editor.text, others, self._own())

    def _own(self) -> tuple[Board, ...]:
        try:
            kept = self._host.ohmfolio.services.log.registered(RegisterKind.BOARD, limit=_OWN_MAX)
        except JobLogError:
            return ()
        return tuple(each.entry.board for each in kept if isinstance(each.entry, KnownBoard))
