"""Declarations, each kept together with the signature under it and the particulars of whoever signs."""

from dataclasses import replace

from domain.civil_time import written_moment
from domain.job.job import Job, fingerprint
from domain.job.signature import Role, Signature
from domain.sheets.facts import NOTHING
from domain.sheets.sheet import SheetEntry, Signing, ValueOrigin

_HEADINGS = {
    Role.DESIGN: "Declaration: design",
    Role.SHARED_DESIGN: "Declaration: design, second designer",
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
    Role.SHARED_DESIGN: _CERTIFIES + _UNIMPAIRED + " My part of the design is named below.",
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
_PARTS = {
    Role.DESIGN: "design",
    Role.SHARED_DESIGN: "design",
    Role.CONSTRUCTION: "construction",
    Role.INSPECTION: "inspection and testing",
}
_TESTED_UNDER = frozenset({Role.INSPECTION, Role.INSPECTED})
_AS_ABOVE = "as above"
_PARTICULARS = {
    Role.DESIGN: "design",
    Role.SHARED_DESIGN: "second",
    Role.CONSTRUCTION: "construction",
    Role.INSPECTION: "inspection",
}
"""How the boxes of a role's signatory begin."""


def declarations_of(job: Job) -> tuple[Signing, ...]:
    """One declaration for each role of the papers, signed or waiting."""
    now = fingerprint(job) if job.signatures else ""
    standing = {signature.role: signature for signature in job.signatures if signature.fingerprint == now}
    return tuple(_declaration(job, role, standing.get(role)) for role in job.roles)


def signature_for_results(job: Job) -> SheetEntry:
    """The signature of whoever answers for inspection and testing, as the results sheets repeat it."""
    now = fingerprint(job) if job.signatures else ""
    for each in job.signatures:
        if each.role in _TESTED_UNDER and each.fingerprint == now:
            return SheetEntry("Signature", f"{_signed_words(each)}, {written_moment(each.at)}", weight=2)
    return SheetEntry("Signature", "", origin=ValueOrigin.BLANK, weight=2)


def _declaration(job: Job, role: Role, signature: Signature | None) -> Signing:
    declares = _DECLARES[role].format(part=_PARTS.get(role, ""), edition=job.edition_in_full)
    part = ((SheetEntry("Part of the design", job.signatories.second_part),),) if role is Role.SHARED_DESIGN else ()
    amended_to = SheetEntry("BS 7671 as amended to", job.amended_to or NOTHING, origin=ValueOrigin.OURS)
    amended = replace(amended_to, weight=2)
    firm, *reached = _belongs_to(job, role, signature)
    who = (*_who(job, role, signature), firm)
    return Signing(_HEADINGS[role], declares, (*part, who, (*reached, amended), _signed(signature)))


def _who(job: Job, role: Role, signature: Signature | None) -> tuple[SheetEntry, ...]:
    if signature is None:
        named = job.signatories.second_designer if role is Role.SHARED_DESIGN else ""
        name, position = SheetEntry("Name", named) if named else _blank("Name"), _blank("Position")
    else:
        name, position = SheetEntry("Name", signature.name), _or_else("Position", signature.position, NOTHING)
    return (replace(name, weight=2), replace(position, weight=2))


def _belongs_to(job: Job, role: Role, signature: Signature | None) -> tuple[SheetEntry, ...]:
    """The signatory's own firm with its address, or else the firm responsible, whose address the sheet holds already."""
    own = {part: _typed(job, role, part) for part in ("firm", "address", "contact")}
    firm = (signature.firm if signature else "") or own["firm"]
    otherwise = NOTHING
    if not firm.strip() or firm.strip().casefold() == job.firm.name.strip().casefold():
        firm, otherwise = job.firm.name, _AS_ABOVE
    named = replace(SheetEntry("For", firm) if firm.strip() else _blank("For"), weight=2)
    if otherwise == _AS_ABOVE and not own["address"].strip() and not own["contact"].strip():
        return (named, SheetEntry("Address and telephone", _AS_ABOVE, origin=ValueOrigin.OURS, weight=2))
    return (
        named,
        replace(_or_else("Address", own["address"], otherwise), weight=2),
        replace(_or_else("Telephone or e-mail", own["contact"], otherwise), weight=2),
    )


def _typed(job: Job, role: Role, part: str) -> str:
    begins = _PARTICULARS.get(role)
    return getattr(job.signatories, f"{begins}_{part}") if begins else ""


def _signed(signature: Signature | None) -> tuple[SheetEntry, ...]:
    if signature is None:
        return (SheetEntry("Signature", "", origin=ValueOrigin.BLANK, weight=6), replace(_blank("Date"), weight=3))
    return (
        SheetEntry("Signature", _signed_words(signature), weight=6),
        SheetEntry("Date", written_moment(signature.at), weight=3),
    )


def _signed_words(signature: Signature) -> str:
    return f"{signature.name.strip()}, on screen; record {signature.fingerprint[:16]}"


def _blank(label: str) -> SheetEntry:
    return SheetEntry(label, "", origin=ValueOrigin.BLANK)


def _or_else(label: str, value: str, otherwise: str) -> SheetEntry:
    return SheetEntry(label, value) if value.strip() else SheetEntry(label, otherwise, origin=ValueOrigin.OURS)
