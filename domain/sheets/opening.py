"""What every front sheet opens with: whose paper it is, its number, when it was issued, what it replaces."""

from dataclasses import replace

from domain.civil_time import written_moment
from domain.sheets.facts import NOT_STATED, Facts
from domain.sheets.sheet import SheetEntry, SheetGroup, ValueOrigin


def subtitle_of(facts: Facts) -> str:
    """What the paper is for, and the edition it follows."""
    return f"{facts.job.profile.purpose} {facts.job.edition_in_full}"


def identity_of(facts: Facts, *more: SheetEntry) -> SheetGroup:
    """Number, edition, `more` of the form's own, issue, and the document this one replaces."""
    job = facts.job
    number = (
        SheetEntry("Number", job.number, weight=2)
        if job.number
        else replace(_ours("Number", "not given yet"), weight=2)
    )
    issued = (
        _ours("Issued", f"{written_moment(job.issued.at)}, by {job.issued.by}")
        if job.issued
        else _ours("Issued", "not issued")
    )
    rows = (
        (
            number,
            SheetEntry("Edition worked to", job.edition_in_full, weight=3),
            *(replace(each, weight=2) for each in more),
            replace(issued, weight=5),
        ),
    )
    if job.replaces:
        why = SheetEntry("Because", job.replaces_because, weight=2) if job.replaces_because.strip() else None
        corrects = (SheetEntry("Replaces and corrects document", job.replaces), why or _ours("Because", NOT_STATED))
        return SheetGroup("", (*rows, corrects))
    return SheetGroup("", rows)


def people_of(facts: Facts) -> tuple[SheetGroup, SheetGroup]:
    """Who ordered it and where it is; who answers for it."""
    return (
        facts.group(
            "Client and installation",
            (("client.name", 2), "client.contact", "premises.use", "premises.occupier"),
            (("client.address", 3), ("client.postcode", 2), ("premises.address", 3), ("premises.postcode", 2)),
            ("premises.age", "premises.alterations", "premises.alterations_age"),
            ("premises.records", "premises.records_held_by", "premises.last_inspection", "premises.last_report"),
        ),
        facts.group(
            "Firm responsible",
            (("firm.name", 2), ("firm.address", 3), ("firm.contact", 3), ("firm.membership", 2)),
        ),
    )


def _ours(label: str, value: str) -> SheetEntry:
    return SheetEntry(label, value, standing=ValueOrigin.OURS)
