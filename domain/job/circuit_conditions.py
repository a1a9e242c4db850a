"""When a box of a circuit is needed, by what else the circuit says; asked by every part of it."""

from typing import Any


def in_use(circuit: Any) -> bool:
    """Something is connected to the way."""
    return not circuit.is_spare


def has_rcd(circuit: Any) -> bool:
    """An RCD is named for a way in use."""
    return circuit.has_rcd and not circuit.is_spare
