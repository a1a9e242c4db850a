"""What the search index holds of a job."""

from domain.job.job import Job
from domain.job.next_due import done_on
from domain.log.job_log import JobLine
from domain.log.log_line import findable
from storage.search import SEEN, facets_of


def text_values(job: Job, line: JobLine) -> dict[str, str]:
    """Its words and filters, by the columns of the index."""
    words = findable(job)
    return {
        "client": " ".join(words.client),
        "place": " ".join(words.place),
        "other": " ".join(words.other),
        "facets": " ".join(
            (
                *facets_of(line.form_set, line.state, line.outcome, open_snags=line.open_snags > 0, number=line.number),
                *(f"zy{day.year}" for day in (done_on(job),) if day),
                *((SEEN,) if job.chosen.seen else ()),
                *(f"ze{word}" for word in words.engineer),
            )
        ),
    }
