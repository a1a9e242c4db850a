"""The number that comes after a circuit's number, as ways are numbered at a board."""

import re

from domain.job.board import Board

_PHASES = ("L1", "L2", "L3")
_PHASE = re.compile(r"(?P<way>.*\d)(?P<phase>L[123])", re.IGNORECASE)
_LAST_FIGURES = re.compile(r"(?P<before>.*?)(?P<figures>\d+)(?P<after>\D*)")


def number_after(board: Board, circuit_id: str) -> str:
    """The next number for a way after a circuit: 4 after 3, 2L2 after 2L1, 3L1 after 2L3; "" where that is taken."""
    circuit = board.circuit(circuit_id)
    offered = _next(circuit.number.strip()) if circuit else ""
    return "" if any(each.bears(offered) for each in board.circuits) else offered


def _next(number: str) -> str:
    if match := _PHASE.fullmatch(number):
        at = _PHASES.index(match["phase"].upper())
        if at < len(_PHASES) - 1:
            return f"{match['way']}{match['phase'][0]}{_PHASES[at + 1][1]}"
        return f"{_next(match['way'])}{match['phase'][0]}1"
    match = _LAST_FIGURES.fullmatch(number)
    return f"{match['before']}{int(match['figures']) + 1}{match['after']}" if match else ""
