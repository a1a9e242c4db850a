"""The logo of the firm that a job is of, as the register has it now."""

from collections.abc import Iterable

from domain.job.job import Job
from domain.job.logo import Logo
from domain.log.job_log import JobLog
from domain.register.entries import Kept, KnownFirm, RegisterKind
from domain.words import joined

FIRMS_MAX = 50
"""Firms of like names that are looked through for the one of a job."""


def logo_of(log: JobLog, job: Job) -> Logo | None:
    """For a paper that is not issued; one that is keeps the logo it was issued with."""
    if not joined(job.firm.name):
        return None
    return logo_among(log.registered(RegisterKind.FIRM, job.firm.name, limit=FIRMS_MAX), job.firm.name)


def logo_among(firms: Iterable[Kept], name: str) -> Logo | None:
    """That of the firm of this name, however it is spaced and cased."""
    named = (each.entry for each in firms if isinstance(each.entry, KnownFirm))
    return next((firm.logo for firm in named if joined(firm.name) == joined(name) and firm.logo), None)
