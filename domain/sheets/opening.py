"""What every front sheet opens with: whose paper it is, its number, when it was issued, what it replaces."""

from dataclasses import replace

from domain.form_set import FormSet
from domain.sheets.facts import NOT_STATED, Facts
from domain.sheets.moment import printed
from domain.sheets.sheet import Entry, Group, Standing

_FOR = {
    FormSet.EIC: "For new work, additions and alterations to",
    FormSet.MEIWC: "For an addition or alteration to one existing circuit, to",
    FormSet.EICR: "On the condition of an existing installation, judged against",
}


def subtitle_of(facts: Facts) -> str:
    """What the paper is for, and the edition it follows."""
    return f"{_FOR[facts.job.form_set]} {facts.job.edition}"


def identity_of(facts: Facts) -> Group:
    """Number, issue, and the document this one replaces."""
    job = facts.job
    number = Entry("Number", job.number) if job.number else _ours("Number", "not given yet")
    issued = (
        _ours("Issued", f"{printed(job.issued.at)}, by {job.issued.by}")
        if job.issued
        else _ours("Issued", "not issued")
    )
    rows = ((number, Entry("Edition worked to", job.edition), replace(issued, weight=2)),)
    if job.replaces:
        why = Entry("Because", job.replaces_because, weight=2) if job.replaces_because.strip() else None
        corrects = (Entry("Replaces and corrects document", job.replaces), why or _ours("Because", NOT_STATED))
        return Group("", (*rows, corrects))
    return Group("", rows)


def people_of(facts: Facts) -> tuple[Group, Group]:
    """Who ordered it and where it is; who answers for it."""
    return (
        facts.group(
            "Client and installation",
            (("client.name", 2), "client.contact"),
            (("client.address", 2), "client.postcode"),
            (("premises.address", 2), "premises.postcode"),
            ("premises.use", ("premises.occupier", 2)),
            ("premises.age", "premises.alterations", "premises.alterations_age"),
            ("premises.records", "premises.records_held_by"),
            ("premises.last_inspection", "premises.last_report"),
        ),
        facts.group(
            "Firm responsible",
            ("firm.name", "firm.membership"),
            ("firm.address", "firm.contact"),
        ),
    )


def _ours(label: str, value: str) -> Entry:
    return Entry(label, value, standing=Standing.OURS)
