"""Whether the trails are whole, and the search index holds what the jobs hold; and all that is derived, made anew."""

import json
from collections.abc import Collection, Iterator

from domain.log.job_log import BusyError, JobLogError, NotWritableError
from domain.log.spelling import heard_gaps_of
from domain.log.upkeep import Concern, LogFault, Unproven
from domain.misspelling import may_be_misspelt
from storage.log_file import LogFile
from storage.reindex import write_lines_anew
from storage.upkeep.derived import write_hands_anew, write_registers_anew
from storage.upkeep.job_history import REBUILD, told
from storage.upkeep.whole_file import GO_BACK
from storage.vocabulary import is_listed


def faults_of_trails(file: LogFile) -> Iterator[LogFault]:
    """Trails with gaps."""
    gaps = [
        row[0]
        for row in file.run(
            "SELECT job.number FROM job JOIN (SELECT job_id, sum(edits) AS edits, max(last) AS last FROM ("
            " SELECT job_id, count(*) AS edits, max(version) AS last FROM edit GROUP BY job_id"
            " UNION ALL SELECT job_id, last, last FROM folded_trail)"
            " GROUP BY job_id) ON job_id = job.id WHERE edits <> job.version OR last <> job.version"
            " UNION SELECT number FROM job WHERE id NOT IN (SELECT job_id FROM edit)"
        )
    ]
    if gaps:
        says = f"The trail of {told(gaps)} has gaps: edits were taken out."
        yield LogFault(about=Concern.TRAIL, says=says, do=GO_BACK, jobs=tuple(gaps))


def faults_of_words(file: LogFile) -> Iterator[LogFault]:
    """Words of jobs are missing from the list of words by which a beginning is looked up."""
    file.run("CREATE VIRTUAL TABLE IF NOT EXISTS temp.word_of_column USING fts5vocab (main, job_fts, col)")
    try:
        held = file.run(
            "SELECT DISTINCT term FROM temp.word_of_column WHERE (col <> 'facets' OR term GLOB 'ze*')"
            " AND term NOT IN (SELECT word FROM main.term)"
        )
    except JobLogError:
        # The index itself cannot be read, which is told of it.
        return
    missing = [word for (word,) in held if is_listed(word)]
    missing += _not_near(file)
    if missing:
        says = (
            f"Jobs that hold {told(sorted(missing))} are not found by the beginning of such a word, or by one near it."
        )
        yield LogFault(about=Concern.SEARCH, says=says, do=REBUILD)


def _not_near(file: LogFile) -> Iterator[str]:
    """Words that are not found by all that is near them, or by what is not."""
    rows = file.run(
        "SELECT word, json_group_array(gap) FROM (SELECT word, gap FROM near UNION ALL SELECT word, NULL FROM term) GROUP BY word"
    )
    for word, gaps in rows:
        held, near = set(json.loads(gaps)) - {None}, heard_gaps_of(word) if may_be_misspelt(word) else ()
        # A text out of JSON ends at a letter of no width, when it is written and when it is asked for.
        expected = {gap.partition("\0")[0] for gap in near}
        # Names of engineers are kept with a mark before them, and nobody misspells that.
        if held != expected and (held or not word.startswith("ze")):
            yield word


def faults_of_index(file: LogFile) -> Iterator[LogFault | Unproven]:
    """The index over the search words does not hold what it should."""
    if file.refuses:
        yield Unproven(
            says=f"the search index was not held against the jobs, since that asks for a log that can be written. {file.refuses}"
        )
        return
    try:
        with file.writing():
            # Asks for the index to be held against the words; nothing is written.
            file.run("INSERT INTO job_fts (job_fts, rank) VALUES ('integrity-check', 1)")
    except (BusyError, NotWritableError) as busy:
        yield Unproven(says=f"the search index was not held against the jobs. {busy}")
    except JobLogError:
        says = "The search index does not hold what the jobs hold; some may not be found."
        yield LogFault(about=Concern.SEARCH, says=says, do=REBUILD)


def mend_derived(file: LogFile, unproven: Collection[str], *, registers: bool) -> str:
    """Make the lines, the search words and their index anew from the jobs, but for those that nothing proves; what was done.

    `registers` has what register entries are found by made anew as well.
    """
    with file.writing():
        write_lines_anew(file, unproven)
        if registers:
            write_registers_anew(file)
        write_hands_anew(file)
    done = "The lines of the log and its search index were made anew from the jobs."
    if unproven:
        done += f" Left as they are, for nothing proves what they should say: {told(sorted(unproven))}."
    return done
