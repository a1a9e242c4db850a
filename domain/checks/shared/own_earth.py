"""What a TN installation earths by an electrode of its own, such as an outbuilding or a charging point, and so is judged as TT."""

from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.system import is_tn, is_tt
from domain.checks.shared.tolerances import tolerance
from domain.job.board import Board
from domain.job.circuit_use import OWN_ELECTRODE
from domain.job.job import Job

_BOTH = "both"


def is_board_on_tt(job: Job, board: Board) -> bool:
    """The whole job is TT, or there is an electrode beside the distributor's earth and the board reads no less than it."""
    if is_tt(job):
        return True
    electrode, zdb = job.earthing.electrode_resistance.figure, board.zs.figure
    if not is_tn(job) or job.earthing.means.strip() != _BOTH or electrode is None or zdb is None or electrode <= 0:
        return False
    return zdb >= electrode * (1 - tolerance("Zs on TT may read under Zdb by share", job.edition).value)


def has_own_electrode(job: Job, way: Way) -> bool:
    """A charging point is said to have an electrode of its own: its loop has nothing to do with that of its board."""
    return is_tn(job) and way.circuit.open_pen.strip() == OWN_ELECTRODE


def is_way_on_tt(job: Job, way: Way) -> bool:
    """An RCD has to clear a fault on the circuit, since an electrode is its only earth."""
    return has_own_electrode(job, way) or is_board_on_tt(job, way.board)
