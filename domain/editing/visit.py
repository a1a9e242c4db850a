"""Several minor works from one visit: a job for each circuit, with what they share typed once; each names the others."""

from collections.abc import Mapping
from datetime import date

from domain.editing.commands import Choose, Declined, Enter
from domain.editing.reducer import apply
from domain.forms.choice.answers import Answers
from domain.forms.choice.chosen import ChosenPapers
from domain.forms.form_set import FormSet
from domain.job.instrument import Instruments
from domain.job.job import Job
from domain.job.people import Firm
from domain.job.start import new_job
from domain.place import Place
from domain.value import LINE_MAX

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
    chosen = ChosenPapers(
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


def linked(job: Job, numbers: tuple[str, ...]) -> Choose:
    """What makes a minor works name all those of its visit.

    What they share is typed once, when they begin; from then on each is a paper of its own, and an edit of one
    changes no other: one of them may be issued already, and each is signed for what it says.
    """
    named = ", ".join(numbers)
    if len(named) > LINE_MAX:
        named = f"{numbers[0]} to {numbers[-1]}"
    return Choose(chosen=job.chosen.model_copy(update={"visit": named}))


def _entered(job: Job, place: Place, text: str) -> Job:
    after = apply(job, Enter(place=place, text=text))
    return job if isinstance(after, Declined) else after
