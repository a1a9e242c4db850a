"""Whether every job can be read as it was written, its trail is whole, and the search index tells the same."""

from collections.abc import Iterator

from domain.log.job_log import JobLogError
from domain.log.upkeep import Concern, LogFault
from storage.jobs import require
from storage.line_rows import LINE_COLUMNS, line_from
from storage.log_file import LogFile
from storage.reindex import write_lines_anew
from storage.search_text import text_values
from storage.upkeep.whole_file import GO_BACK

_PAGE = 500
_TOLD_MAX = 5
REBUILD = "Have it made anew from the jobs: `ohmfolio tend --mend`."


def faults_of_jobs(file: LogFile) -> Iterator[LogFault]:
    """Drafts that were altered on disk, trails with gaps, and jobs whose search words are not theirs."""
    astray: list[str] = []
    for number in _numbers(file):
        try:
            if not _is_found_by_its_words(file, number):
                astray.append(number)
        except JobLogError:
            if not file.first("SELECT 1 FROM issued WHERE number = ?", (number,)):
                yield LogFault(about=Concern.DRAFTS, says=f"The draft {number} is not as it was saved.", do=GO_BACK)
    if astray:
        yield _search_fault(f"{_told(astray)} cannot be found by the words they hold.")
    yield from _faults_of_trails(file)


def faults_of_index(file: LogFile) -> Iterator[LogFault]:
    """The index over the search words does not hold what it should."""
    try:
        with file.writing():
            # Asks for the index to be held against the words; nothing is written.
            file.run("INSERT INTO job_fts (job_fts, rank) VALUES ('integrity-check', 1)")
    except JobLogError:
        yield _search_fault("The search index does not hold what the jobs hold; some may not be found.")


def mend_search(file: LogFile) -> str:
    """Make the lines, the search words and their index anew from the jobs; what was done."""
    with file.writing():
        write_lines_anew(file)
    return "The lines of the log and its search index were made anew from the jobs."


def _is_found_by_its_words(file: LogFile, number: str) -> bool:
    job = require(file, number).job
    (line,) = file.run(f"SELECT {LINE_COLUMNS} FROM job WHERE number = ?", (number,))
    kept = file.first(
        "SELECT client, place, other, facets FROM job_text WHERE id = (SELECT id FROM job WHERE number = ?)", (number,)
    )
    return kept == tuple(text_values(job, line_from(line)).values())


def _faults_of_trails(file: LogFile) -> Iterator[LogFault]:
    gaps = [
        row[0]
        for row in file.run(
            "SELECT job.number FROM job JOIN (SELECT job_id, count(*) AS edits, max(version) AS last FROM edit"
            " GROUP BY job_id) ON job_id = job.id WHERE edits <> job.version OR last <> job.version"
            " UNION SELECT number FROM job WHERE id NOT IN (SELECT job_id FROM edit)"
        )
    ]
    if gaps:
        says = f"The trail of {_told(gaps)} has gaps: edits were taken out."
        yield LogFault(about=Concern.TRAIL, says=says, do=GO_BACK)


def _numbers(file: LogFile) -> Iterator[str]:
    after = 0
    while rows := file.run("SELECT id, number FROM job WHERE id > ? ORDER BY id LIMIT ?", (after, _PAGE)):
        yield from (number for _, number in rows)
        after = rows[-1][0]


def _told(numbers: list[str]) -> str:
    more = f" and {len(numbers) - _TOLD_MAX} more" if len(numbers) > _TOLD_MAX else ""
    return f"{', '.join(numbers[:_TOLD_MAX])}{more}"


def _search_fault(says: str) -> LogFault:
    return LogFault(about=Concern.SEARCH, says=says, do=REBUILD)
