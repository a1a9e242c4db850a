"""The system of earthing and the voltage a job declares."""

from domain.job import Job
from domain.limits.loader import named_figure


def is_tn(job: Job) -> bool:
    """The system is TN, or none is typed yet."""
    return job.supply.system.strip().upper() not in {"TT", "IT"}


def is_tt(job: Job) -> bool:
    """The installation has an electrode of its own and relies on RCDs."""
    return job.supply.system.strip().upper() == "TT"


def is_public_voltage(job: Job) -> bool:
    """The tables hold for the public voltage; a typed U0 within its tolerance means that voltage."""
    u0 = job.supply.voltage_to_earth.figure
    lowest, highest = (
        named_figure("supply_voltage", f"{end}, line to earth", job.edition).value for end in ("lowest", "highest")
    )
    return u0 is None or lowest <= u0 <= highest
