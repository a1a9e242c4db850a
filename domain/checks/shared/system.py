"""The system of earthing and the voltage a job declares."""

from decimal import Decimal

from domain.checks.shared.per_job_cache import cached_per_job_and
from domain.figures.limits.loader import named_figure
from domain.job.job import Job


def is_tn(job: Job) -> bool:
    """The system is TN, or none is typed yet."""
    return job.supply.system.strip().upper() not in {"TT", "IT"}


def is_tt(job: Job) -> bool:
    """The installation has an electrode of its own and relies on RCDs."""
    return job.supply.system.strip().upper() == "TT"


@cached_per_job_and
def is_public_voltage(job: Job) -> bool:
    """The tables hold for the public voltage; a typed U0 within its tolerance means that voltage."""
    u0 = job.supply.voltage_to_earth.figure
    return u0 is None or is_contradicted(job) or (_end(job, "lowest") <= u0 and not is_over_public_voltage(job))


def is_contradicted(job: Job) -> bool:
    """U0 is under any public one, while U is that of the public supply: U0 was mistyped, and says nothing."""
    u0, u = job.supply.voltage_to_earth.figure, job.supply.voltage.figure
    if u0 is None or u is None or u0 >= _end(job, "lowest"):
        return False
    times = Decimal(3).sqrt() if "3-phase" in job.supply.live_conductors else Decimal(1)
    return _end(job, "lowest") * times <= u <= _end(job, "highest") * times


def is_over_public_voltage(job: Job) -> bool:
    """More than any public supply has from line to earth; often that between lines, in the wrong box."""
    u0 = job.supply.voltage_to_earth.figure
    return u0 is not None and u0 > _end(job, "highest")


def _end(job: Job, end: str) -> Decimal:
    return named_figure("supply_voltage", f"{end}, line to earth", job.edition).value


def is_reduced_low_voltage(job: Job) -> bool:
    """110 V with its middle earthed, as on building sites: so little to earth that it is a measure of its own."""
    u0 = job.supply.voltage_to_earth.figure
    most = named_figure("circuit_rules", "reduced low voltage, line to earth up to", job.edition).value
    return u0 is not None and 0 < u0 <= most and not is_contradicted(job)
