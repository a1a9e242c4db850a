"""The RCD that stands before a circuit: its own, or an RCD main switch."""

from decimal import Decimal

from domain.circuit import Circuit
from domain.job import Job

_ABSENT = {"", "n/a", "na", "none"}


def main_switch_is_rcd(job: Job) -> bool:
    """The main switch is recorded as an RCD."""
    return job.main_switch.rcd_type.strip().casefold() not in _ABSENT


def residual_current(job: Job, circuit: Circuit) -> Decimal | None:
    """Rated residual current (mA) of the RCD that protects a circuit; None where none is recorded."""
    if circuit.has_rcd:
        return circuit.rcd_idn.figure
    return job.main_switch.rcd_idn.figure if main_switch_is_rcd(job) else None
