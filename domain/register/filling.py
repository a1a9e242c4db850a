"""Which boxes the registers are offered at, and what taking an entry types into them. Never a reading."""

from collections.abc import Mapping

from domain.job.box import typed_in
from domain.job.instrument import INSTRUMENTS, due_box
from domain.job.job import Job
from domain.place import Place
from domain.register.entries import (
    Instrument,
    KnownBoard,
    KnownClient,
    KnownFirm,
    KnownPremises,
    Person,
    RegisterEntry,
    RegisterKind,
    title_of,
)
from domain.words import on_one_line

_SIGNATORY_FIRMS = ("design", "second", "construction", "inspection")


def _whole(section: str, *boxes: str) -> Mapping[tuple[str, str], Mapping[str, str]]:
    """At each of these boxes, all of them are filled from the parts of the entry with the same names."""
    return {(section, at): {box: box for box in boxes} for at in boxes}


_FILLS: Mapping[RegisterKind, Mapping[tuple[str, str], Mapping[str, str]]] = {
    RegisterKind.CLIENT: _whole("client", "name", "address", "postcode", "contact"),
    RegisterKind.PREMISES: {
        ("premises", at): {box: box for box in ("address", "postcode", "occupier", "use")}
        for at in ("address", "postcode")
    },
    RegisterKind.FIRM: {
        ("firm", "name"): {box: box for box in ("name", "address", "contact", "membership")},
        **{
            ("signatories", f"{who}_firm"): {
                f"{who}_firm": "name",
                f"{who}_address": "address",
                f"{who}_contact": "contact",
            }
            for who in _SIGNATORY_FIRMS
        },
    },
    RegisterKind.PERSON: {
        ("boards", "tested_by"): {"tested_by": "name"},
        ("signatories", "second_designer"): {"second_designer": "name", "second_firm": "firm"},
    },
    RegisterKind.INSTRUMENT: {("instruments", box): {box: "serial", due_box(box): "due"} for box in INSTRUMENTS},
}
"""By kind and box: the boxes of the same section or board that are filled, each with its part of the entry."""

_OF_CLIENT: Mapping[str, Mapping[str, str]] = {
    "address": {"address": "address", "postcode": "postcode"},
    "postcode": {"postcode": "postcode"},
    "occupier": {"occupier": "name"},
}
"""By box of the premises: the boxes that are filled where the work was done at the client's own address."""


def kind_at(place: Place) -> RegisterKind | None:
    """The register that is offered at a box."""
    at = ("boards" if place.board else place.section, place.box)
    return next((kind for kind, fills in _FILLS.items() if at in fills and not place.circuit), None)


def filled_from(entry: RegisterEntry, place: Place) -> Mapping[Place, str]:
    """What taking an entry at a box types, by place. Parts the entry does not hold leave their box alone."""
    fills = _FILLS[RegisterKind(entry.kind)].get(("boards" if place.board else place.section, place.box), {})
    held = ((box, str(getattr(entry, part))) for box, part in fills.items())
    return {place.model_copy(update={"box": box}): text for box, text in held if text.strip()}


def filled_from_client(job: Job, place: Place) -> Mapping[Place, str]:
    """What taking the client's own address at an empty box of the premises types. Boxes that hold something are left."""
    fills = _OF_CLIENT.get(place.box)
    if place.section != "premises" or fills is None or typed_in(job.premises, place.box).strip():
        return {}
    held = ((box, typed_in(job.client, part)) for box, part in fills.items())
    return {
        place.model_copy(update={"box": box}): text
        for box, text in held
        if text.strip() and not typed_in(job.premises, box).strip()
    }


def about(entry: RegisterEntry) -> str:
    """What tells an entry from others of the same name, on one line."""
    match entry:
        case KnownClient() | KnownPremises():
            more = (entry.address if isinstance(entry, KnownClient) else "", entry.postcode)
        case KnownFirm():
            more = (entry.address,)
        case Person():
            more = (entry.position, entry.firm)
        case KnownBoard():
            ways = len(entry.board.circuits)
            more = (f"{ways} way{'' if ways == 1 else 's'}",)
        case Instrument():
            more = (f"due {entry.due}" if entry.due.strip() else "",)
    return ", ".join(on_one_line(each) for each in (title_of(entry), *more) if each.strip())
