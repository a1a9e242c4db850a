"""The entries of the registers: people, firms, clients, premises, instruments, and boards that come filled."""

from collections.abc import Iterable
from datetime import date, datetime
from enum import StrEnum
from typing import Annotated, Literal

from pydantic import Field, TypeAdapter

from domain.job.board import Board
from domain.job.logo import Logo
from domain.job.signature import Role
from domain.value import Line, Prose, Value, is_empty
from domain.words import joined, on_one_line, words_of

CHECKS_MAX = 500


class RegisterKind(StrEnum):
    """Which register an entry belongs to."""

    PERSON = "person"
    FIRM = "firm"
    CLIENT = "client"
    PREMISES = "premises"
    BOARD = "board"
    INSTRUMENT = "instrument"


class Person(Value):
    """Somebody who tests or signs. Whoever may sign nothing is in training."""

    kind: Literal[RegisterKind.PERSON] = RegisterKind.PERSON
    name: Line
    position: Line = ""
    firm: Line = ""
    """Where it is not the firm of the papers."""
    signs: tuple[Role, ...] = ()
    """What the office lets them sign."""


class KnownFirm(Value):
    """A firm whose people design, build, inspect or report."""

    kind: Literal[RegisterKind.FIRM] = RegisterKind.FIRM
    name: Line
    address: Prose = ""
    contact: Line = ""
    membership: Line = ""
    logo: Annotated[Logo | None, Field(exclude_if=is_empty)] = None
    """In the letterhead of its papers."""


class KnownClient(Value):
    """Somebody who orders work or reports."""

    kind: Literal[RegisterKind.CLIENT] = RegisterKind.CLIENT
    name: Line
    address: Prose = ""
    postcode: Line = ""
    contact: Line = ""


class KnownPremises(Value):
    """A place with an installation."""

    kind: Literal[RegisterKind.PREMISES] = RegisterKind.PREMISES
    address: Prose
    postcode: Line = ""
    occupier: Line = ""
    use: Line = ""


class CrossCheck(Value):
    """One look at what an instrument reads where the true value is known."""

    on: date
    by: Line
    known: Line
    """What it should read, such as: 0.50 Ω check resistor."""
    read: Line


class Instrument(Value):
    """A test instrument."""

    kind: Literal[RegisterKind.INSTRUMENT] = RegisterKind.INSTRUMENT
    serial: Line
    name: Line = ""
    """What it is, such as: multifunction tester."""
    due: Line = ""
    """The day its calibration is due again, as typed."""
    checks: Annotated[tuple[CrossCheck, ...], Field(max_length=CHECKS_MAX)] = ()


class KnownBoard(Value):
    """A board as the firm usually fills it, kept from one of its jobs: circuits, sizes, devices, methods."""

    kind: Literal[RegisterKind.BOARD] = RegisterKind.BOARD
    name: Line
    board: Board


RegisterEntry = Annotated[
    Person | KnownFirm | KnownClient | KnownPremises | Instrument | KnownBoard, Field(discriminator="kind")
]
ENTRY: TypeAdapter[RegisterEntry] = TypeAdapter(RegisterEntry)
"""Reads and writes entries as the log keeps them."""


class Kept(Value):
    """One version of an entry, as the log keeps it."""

    id: str
    """Stays with the entry however it is changed."""
    version: int
    """Counts its versions from 1."""
    at: datetime
    who: str
    entry: RegisterEntry
    retired: bool = False
    """No longer offered; it stays in the register."""


def still_asked(of_one_name: Iterable[Kept]) -> tuple[Person, ...]:
    """The people whom the register answers for: those not retired; else who left it while in training, and still may sign nothing."""
    kept = tuple(of_one_name)
    there = tuple(each.entry for each in kept if not each.retired and isinstance(each.entry, Person))
    left = tuple(each.entry for each in kept if each.retired and isinstance(each.entry, Person))
    return there or tuple(person for person in left if not person.signs)


def title_of(entry: RegisterEntry) -> str:
    """What an entry is listed under, on one line."""
    match entry:
        case KnownPremises():
            return on_one_line(entry.address)
        case Instrument():
            return f"{entry.serial}, {entry.name}" if entry.name.strip() else entry.serial
        case _:
            return entry.name


def words_in(entry: RegisterEntry) -> tuple[str, ...]:
    """The words an entry is found by, each once."""
    match entry:
        case Person():
            texts = [entry.name]
        case KnownFirm() | KnownBoard():
            texts = [entry.name]
        case KnownClient():
            texts = [entry.name, entry.address, entry.postcode, joined(entry.postcode)]
        case KnownPremises():
            texts = [entry.address, entry.postcode, joined(entry.postcode)]
        case Instrument():
            texts = [entry.serial, joined(entry.serial), entry.name]
    return tuple(dict.fromkeys(word for text in texts for word in words_of(text)))


def identity_of(entry: RegisterEntry) -> str:
    """What makes two entries the same thing in the world, however it was typed."""
    match entry:
        case KnownClient():
            return f"{joined(entry.name)} {joined(entry.postcode) or joined(entry.address)}"
        case KnownPremises():
            return f"{joined(entry.address)} {joined(entry.postcode)}"
        case Instrument():
            return joined(entry.serial)
        case _:
            return joined(entry.name)
