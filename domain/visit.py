"""Several minor works from one visit: a job for each circuit, with what they share typed once."""

from collections.abc import Mapping
from datetime import date

from domain.applying import apply
from domain.choice.answers import Answers
from domain.choice.chosen import Chosen
from domain.commands import Declined, Enter
from domain.form_set import FormSet
from domain.instrument import Instruments
from domain.job import Job
from domain.people import Firm
from domain.place import Place
from domain.start import new_job

SHARED: tuple[Place, ...] = tuple(
    Place(section=section, box=box)
    for section, box in (
        ("client", "name"),
        ("client", "address"),
        ("premises", "address"),
        ("premises", "postcode"),
        ("work", "completed_on"),
        ("supply", "system"),
    )
)
"""The boxes that are the same on every minor works of a visit. Readings are taken on each circuit."""


def minor_works_each(
    answers: Answers,
    circuits: tuple[str, ...],
    shared: Mapping[Place, str],
    *,
    on: date,
    firm: Firm | None = None,
    instruments: Instruments | None = None,
) -> tuple[Job, ...]:
    """A fresh minor works for each circuit named, the other accepted way beside one certificate for all."""
    chosen = Chosen(
        form_set=FormSet.MEIWC,
        advised=FormSet.EIC,
        answers=answers.model_copy(update={"circuits": len(circuits)}),
        because=f"Each of the {len(circuits)} circuits altered on this visit has a Minor Works of its own.",
    )
    first = new_job(chosen, on=on, firm=firm, instruments=instruments)
    for place, text in shared.items():
        first = _entered(first, place, text)
    board = first.boards[0]
    description = Place(section="boards", board=board.id, circuit=board.circuits[0].id, box="description")
    return tuple(_entered(first, description, circuit) for circuit in circuits)


def of_visit(job: Job, first: str) -> Job:
    """The job as another of the visit that began with the job of this number."""
    return job.model_copy(update={"chosen": job.chosen.model_copy(update={"visit": first})})


def _entered(job: Job, place: Place, text: str) -> Job:
    after = apply(job, Enter(place=place, text=text))
    return job if isinstance(after, Declined) else after
