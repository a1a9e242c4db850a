"""Begins a board, empty or filled with what is usual: chosen from a list, put forward, and gone to."""

from collections.abc import Callable

from domain.editing.board_filling import is_without_circuits
from domain.editing.commands import AddBoard
from domain.editing.usual_commands import FillBoard
from domain.job.board import Board
from domain.place import Place
from tui.keys import key_name
from tui.routes import ToFilledBoards
from tui.screens.job_session import JobSession
from tui.screens.job_step import StepHost


def begin_board(session: JobSession, host: StepHost, here: Board | None, go: Callable[[Place], object]) -> None:
    """List the boards to begin from; `here` is filled where it has no circuit yet, and `go` is told of its first circuit."""
    if not (host.may_type() and host.commit_open_entry()) or session.job is None:
        return
    if session.job.profile.covers_one_circuit and session.job.boards:
        session.do(AddBoard())
        return
    host.ohmfolio.go(ToFilledBoards(here, lambda name, usual: _begin(session, host, here, name, usual, go)))


def _begin(
    session: JobSession,
    host: StepHost,
    here: Board | None,
    name: str,
    usual: Board | None,
    go: Callable[[Place], object],
) -> None:
    fills = usual is not None and here is not None and is_without_circuits(here)
    command = FillBoard(board=here.id if here and fills else "", known_from=name, usual=usual) if usual else AddBoard()
    if not session.do(command) or session.job is None:
        return
    board = session.job.board(here.id) if here and fills else session.job.boards[-1]
    assert board is not None
    says = (
        f"{len(board.circuits)} ways put forward; {key_name('take-known')} says yes to all of a part" if usual else ""
    )
    if fills:
        go(Place(section="boards", board=board.id, circuit=board.circuits[0].id, box="description"))
        host.say(says)
    else:
        host.visit(Place(section="boards", board=board.id, box="designation"), says)
