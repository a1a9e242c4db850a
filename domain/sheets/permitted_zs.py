"""The permitted Zs that a schedule prints where nobody typed one."""

from domain.checks.shared.circuits_in_use import ways_in_use
from domain.checks.shared.tabulated import tabulated_limit
from domain.job.job import Job


def permitted_zs(job: Job) -> dict[str, str]:
    """By circuit id, the tabulated maximum for the device as its table prints it; none where no table has it."""
    found = ((way.circuit.id, tabulated_limit(job, way)) for way in ways_in_use(job))
    return {circuit: str(limit.value) for circuit, limit in found if limit}
