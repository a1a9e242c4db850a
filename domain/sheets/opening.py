"""What every front sheet opens with: its number, when it was issued, what it replaces; then for whom and where."""

from dataclasses import replace

from domain.civil_time import written_moment
from domain.sheets.facts import Facts
from domain.sheets.sheet import SheetEntry, SheetGroup, ValueOrigin


def subtitle_of(facts: Facts) -> str:
    """What the paper is for, and the edition it follows."""
    return f"{facts.job.profile.purpose} {facts.job.edition_in_full}"


def identity_of(facts: Facts) -> SheetGroup:
    """Number, edition, issue, and the document this one replaces."""
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
        (number, SheetEntry("Edition worked to", job.edition_in_full, weight=5)),
        (issued,),
    )
    if seen := job.chosen.seen:
        whose = SheetEntry("Seen elsewhere: report number", seen.number)
        return SheetGroup("", (*rows, (whose, SheetEntry("Issued by another firm", seen.firm, weight=2))))
    if job.replaces:
        why = SheetEntry("Because", job.replaces_because, weight=2) if job.replaces_because.strip() else None
        corrects = (SheetEntry("Replaces and corrects document", job.replaces), why or _blank("Because"))
        return SheetGroup("", (*rows, corrects))
    return SheetGroup("", rows)


def client_of(facts: Facts) -> SheetGroup:
    """Who ordered it."""
    named = (("client.name", 2), "client.contact")
    reference = ("client.reference",) if facts.job.client.reference.strip() else ()
    return facts.group("", (*named, *reference), (("client.address", 3), ("client.postcode", 1)))


def premises_of(facts: Facts) -> SheetGroup:
    """Where it is."""
    return facts.group(
        "",
        (("premises.address", 3), ("premises.postcode", 1)),
        ("premises.use", "premises.occupier", "premises.age"),
        ("premises.alterations", "premises.alterations_age"),
        ("premises.records", "premises.records_held_by"),
        ("premises.last_inspection", "premises.last_report"),
    )


def _ours(label: str, value: str) -> SheetEntry:
    return SheetEntry(label, value, origin=ValueOrigin.OURS)


def _blank(label: str) -> SheetEntry:
    return SheetEntry(label, "", origin=ValueOrigin.BLANK)
