"""What the search index holds of a job."""

from domain.job.job import Job
from domain.job.next_due import done_on
from domain.log.job_log import JobLine
from domain.log.log_line import Findable, findable
from storage.search import SEEN, WHEN, facets_of

_ENGINEER = "ze"


def text_values(job: Job, line: JobLine) -> dict[str, str]:
    """Its words and filters, by the columns of the index."""
    words = findable(job, updated=line.updated)
    return {
        "client": " ".join(words.client),
        "place": " ".join(words.place),
        "other": " ".join(words.other),
        "facets": " ".join(
            (
                *facets_of(line.form_set, line.state, line.outcome, open_snags=line.open_snags > 0, number=line.number),
                *(f"zy{day.year}" for day in (done_on(job),) if day),
                *((SEEN,) if job.chosen.seen else ()),
                *(f"{_ENGINEER}{word}" for word in words.engineer),
                *(f"{WHEN}{word}" for word in words.when),
            )
        ),
    }


def findable_in(client: str, place: str, other: str, facets: str) -> Findable:
    """What a job is found by, from what the index holds of it."""
    facet = facets.split()
    return Findable(
        tuple(client.split()),
        tuple(place.split()),
        tuple(other.split()),
        tuple([word[len(_ENGINEER) :] for word in facet if word.startswith(_ENGINEER)]),
        tuple([word[len(WHEN) :] for word in facet if word.startswith(WHEN)]),
    )
