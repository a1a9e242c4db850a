"""Subjects that came with the edition of the job, where the installation has them: rows for them are offered."""

from collections.abc import Iterator

from domain.checks.shared.finding_factory import FindingFactory
from domain.inspection.new_subject import NewSubject, OfferedItem, new_subjects
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.place import Place

_found = FindingFactory("new-in-edition")


def new_in_edition(job: Job) -> Iterator[Finding]:
    """A note for each subject whose rows are not on the inspection yet."""
    for subject in subjects_of(job):
        if _missing(job, subject):
            said = {"about": subject.about, "says": subject.says, "edition": subject.edition.value}
            place = Place(section="inspection")
            yield _found(job, place, Severity.NOTE, "offered", source=subject.source, measured="", said=said)


def subjects_of(job: Job) -> tuple[NewSubject, ...]:
    """The new subjects of its edition that its record names; none where nothing is inspected by a list."""
    subjects = new_subjects(job.edition) if job.profile.checklist else ()
    if not subjects:
        return ()
    texts = [job.supply.other_sources, job.premises.use]
    texts += [f"{board.designation} {board.location}" for board in job.boards]
    texts += [f"{circuit.description} {circuit.feeds}" for _, circuit in job.circuits()]
    return tuple(each for each in subjects if each.is_named_in(texts))


def offered_items(job: Job) -> tuple[OfferedItem, ...]:
    """The rows that can still be added for them."""
    return tuple(item for subject in subjects_of(job) for item in _missing(job, subject))


def _missing(job: Job, subject: NewSubject) -> tuple[OfferedItem, ...]:
    there = {own.title for own in job.own_items}
    return tuple(item for item in subject.items if item.title not in there)
