"""What a search of the log gives: the jobs, what each of them was found by, and what it lacks of what was asked."""

from typing import NamedTuple

from domain.log.job_log import JobLine


class FoundBy(NamedTuple):
    """One thing asked that a job holds."""

    typed: str
    word: str
    """As the job holds it, folded."""
    where: str
    """client, place, when, or other for all else."""


class FoundJob(NamedTuple):
    """One job found."""

    line: JobLine
    by: tuple[FoundBy, ...] = ()
    lacks: tuple[str, ...] = ()
    """What was typed that the job does not hold."""


class Found(NamedTuple):
    """A page of what a search found."""

    jobs: tuple[FoundJob, ...] = ()
    is_whole: bool = True
    """Each holds everything that was asked; else what holds most of it comes first."""
    is_as_typed: bool = True
    """Nothing had to be put right to find them."""
    has_more: bool = False
    """There is another page, of what follows the last of these."""
