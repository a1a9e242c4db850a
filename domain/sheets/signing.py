"""Declarations, each kept together with the signature under it."""

from domain.job import Job, fingerprint
from domain.sheets.moment import printed
from domain.sheets.sheet import Entry, Signing, Standing
from domain.signature import Role, Signature, roles_for

_HEADINGS = {
    Role.DESIGN: "Declaration: design",
    Role.CONSTRUCTION: "Declaration: construction",
    Role.INSPECTION: "Declaration: inspection and testing",
    Role.MINOR_WORKS: "Declaration: design, construction, inspection and testing",
    Role.INSPECTED: "Inspected and tested by",
    Role.AUTHORISED: "Authorised for issue by",
}
_CERTIFIES = (
    "I am responsible for the {part} of the work described on this certificate and have done it with reasonable skill "
    "and care. To the best of my knowledge and belief that {part} complies with {edition}, except for the departures "
    "and permitted exceptions stated here. My responsibility goes no further than the work described."
)
_UNIMPAIRED = " Where existing parts were added to or altered, their safety has not been made worse."
_DECLARES = {
    Role.DESIGN: _CERTIFIES + _UNIMPAIRED,
    Role.CONSTRUCTION: _CERTIFIES,
    Role.INSPECTION: _CERTIFIES,
    Role.MINOR_WORKS: (
        "I am responsible for the design, construction, inspection and testing of the minor works described here, and "
        "have done them with reasonable skill and care. The works do not make the safety of the existing installation "
        "worse. To the best of my knowledge and belief they complied with {edition} when they were inspected and "
        "tested, except for the departures and permitted exceptions stated here."
    ),
    Role.INSPECTED: (
        "I inspected and tested the installation with reasonable skill and care. To the best of my knowledge and "
        "belief this report, its observations and its schedules are a true account of its condition, judged "
        "against {edition}, within the stated extent and limitations."
    ),
    Role.AUTHORISED: (
        "I have reviewed this report and its schedules, found them complete and in agreement with each other, and "
        "authorise the report for issue."
    ),
}
_PARTS = {Role.DESIGN: "design", Role.CONSTRUCTION: "construction", Role.INSPECTION: "inspection and testing"}


def declarations_of(job: Job) -> tuple[Signing, ...]:
    """One declaration for each role of the form set, signed or waiting."""
    now = fingerprint(job) if job.signatures else ""
    standing = {signature.role: signature for signature in job.signatures if signature.fingerprint == now}
    return tuple(_declaration(job, role, standing.get(role)) for role in roles_for(job.form_set))


def _declaration(job: Job, role: Role, signature: Signature | None) -> Signing:
    declares = _DECLARES[role].format(part=_PARTS.get(role, ""), edition=job.edition)
    return Signing(_HEADINGS[role], declares, ((*_who(signature), _firm(job)), _signed(signature)))


def _who(signature: Signature | None) -> tuple[Entry, ...]:
    if signature is None:
        return (_blank("Name"), _blank("Position"))
    return (Entry("Name", signature.name), _or_not_stated("Position", signature.position))


def _firm(job: Job) -> Entry:
    return Entry("For", job.firm.name) if job.firm.name.strip() else _blank("For")


def _signed(signature: Signature | None) -> tuple[Entry, ...]:
    if signature is None:
        return (Entry("Signature", "", standing=Standing.BLANK, weight=2), _blank("Date"))
    signed = f"Signed by {signature.name.strip()} on screen; record {signature.fingerprint[:16]}"
    return (Entry("Signature", signed, weight=2), Entry("Date", printed(signature.at)))


def _blank(label: str) -> Entry:
    return Entry(label, "", standing=Standing.BLANK)


def _or_not_stated(label: str, value: str) -> Entry:
    return Entry(label, value) if value.strip() else Entry(label, "not stated", standing=Standing.OURS)
