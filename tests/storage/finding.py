"""How tests say which jobs were found."""

from domain.log.job_log import JobLog, Query


def numbers(log: JobLog, words: str = "", **filters) -> list[str]:
    """The last figures of the numbers found, in their order."""
    return [line.number[-1] for line in log.find(Query(words=words, **filters))]
