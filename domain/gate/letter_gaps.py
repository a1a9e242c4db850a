"""Texts outside the boxes that hold a letter no font of the paper has: they hold a paper back before it is signed."""

from collections.abc import Iterator

from domain.gate.letters import letter_problem
from domain.gate.sentence import gap
from domain.job.finding import Gap
from domain.job.job import Job
from domain.place import Place


def letter_gaps(job: Job) -> Iterator[Gap]:
    """One for each text that cannot be printed whole."""
    for place, text in _texts(job):
        if problem := letter_problem(text):
            yield gap("cannot-stand", place, problem=problem)


def _texts(job: Job) -> Iterator[tuple[Place, str]]:
    yield Place(section="chosen"), job.chosen.because
    yield Place(section="signatures"), f"{job.replaces} {job.replaces_because}"
    for item in job.own_items:
        yield Place(section="inspection", item=item.item), f"{item.title} {item.regulations}"
    for outcome in job.inspection:
        yield Place(section="inspection", item=outcome.item), outcome.note
    for each in job.observations:
        yield (
            Place(observation=each.id),
            f"{each.finding} {each.where} {each.reason} {each.action.sentence if each.action else ''}",
        )
    for snag in job.snags:
        cleared = f"{snag.cleared.how} {snag.cleared.by}" if snag.cleared else ""
        yield Place(snag=snag.id), f"{snag.what} {snag.where} {snag.raised_by} {cleared}"
    for explanation in job.explanations:
        yield explanation.place, f"{explanation.reason} {explanation.by}"
    for signature in job.signatures:
        yield Place(section="signatures", box=signature.role), f"{signature.name} {signature.position} {signature.firm}"
