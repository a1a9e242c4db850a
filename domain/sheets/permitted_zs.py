"""The permitted Zs that a schedule prints where nobody typed one."""

from domain.circuit import Circuit
from domain.job import Job


def permitted_zs(circuit: Circuit, job: Job) -> str:
    """The tabulated maximum for the circuit's device as printed in its table; "" where none is known."""
    return ""
