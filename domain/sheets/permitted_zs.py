"""The permitted Zs that a schedule prints where nobody typed one."""

from domain.checks.tabulated import tabulated_limit
from domain.checks.ways import ways_in_use
from domain.job import Job


def permitted_zs(job: Job) -> dict[str, str]:
    """By circuit id, the tabulated maximum for the device as its table prints it; none where no table has it."""
    found = ((way.circuit.id, tabulated_limit(job, way)) for way in ways_in_use(job))
    return {circuit: str(limit.value) for circuit, limit in found if limit}
