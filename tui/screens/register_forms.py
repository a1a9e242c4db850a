"""The forms that entries of the registers are typed into."""

from collections.abc import Callable, Mapping
from datetime import date
from typing import NamedTuple

from domain.dates import date_in, date_problem
from domain.register.entries import (
    CrossCheck,
    Instrument,
    KnownBoard,
    KnownClient,
    KnownFirm,
    KnownPremises,
    Person,
    RegisterEntry,
    RegisterKind,
)
from domain.register.signing import SIGNS, signs_in, signs_shown
from domain.value import PROSE_MAX
from domain.words import on_one_line
from tui.keys import key_name
from tui.screens.dialogs import FormScreen
from tui.widgets.entry_lines import AskedLine

Typed = Mapping[str, str]

NAMES: Mapping[RegisterKind, str] = {
    RegisterKind.PERSON: "People",
    RegisterKind.FIRM: "Firms",
    RegisterKind.CLIENT: "Clients",
    RegisterKind.PREMISES: "Premises",
    RegisterKind.BOARD: "Boards",
    RegisterKind.INSTRUMENT: "Instruments",
}
_LINES: Mapping[RegisterKind, tuple[AskedLine, ...]] = {
    RegisterKind.PERSON: (
        AskedLine("name", "Name", must=True),
        AskedLine("position", "Position"),
        AskedLine("firm", "Firm, if another"),
        AskedLine("signs", "May sign"),
    ),
    RegisterKind.FIRM: (
        AskedLine("name", "Name", must=True),
        AskedLine("address", "Address", limit=PROSE_MAX),
        AskedLine("contact", "Telephone or e-mail"),
        AskedLine("membership", "Registration"),
    ),
    RegisterKind.CLIENT: (
        AskedLine("name", "Name", must=True),
        AskedLine("address", "Address", limit=PROSE_MAX),
        AskedLine("postcode", "Postcode"),
        AskedLine("contact", "Telephone or e-mail"),
    ),
    RegisterKind.PREMISES: (
        AskedLine("address", "Address", must=True, limit=PROSE_MAX),
        AskedLine("postcode", "Postcode"),
        AskedLine("occupier", "Occupier"),
        AskedLine("use", "Use"),
    ),
    RegisterKind.INSTRUMENT: (
        AskedLine("serial", "Serial number", must=True),
        AskedLine("name", "What it is"),
        AskedLine("due", "Calibration due"),
    ),
    RegisterKind.BOARD: (AskedLine("name", "Name", must=True),),
}
_ABOUT: Mapping[RegisterKind, str] = {
    RegisterKind.PERSON: f"May sign: any of {', '.join(SIGNS)}; or all. Left empty: in training, signs nothing.",
    RegisterKind.BOARD: f"What is in it is kept from a job: {key_name('board-add')} there, then {key_name('board-save')}.",
    RegisterKind.INSTRUMENT: "The day as 25/11/2026. Readings taken after that day bring up a question to answer.",
}


class Wrong(NamedTuple):
    """A line of a form that has to be typed otherwise, and why."""

    line: str
    says: str


def entry_form(kind: RegisterKind, typed: Typed, wrong: Wrong | None = None) -> FormScreen:
    """Asks for the parts of an entry, or once more where one of them cannot stand."""
    lines = tuple(
        AskedLine(line.name, line.label, typed.get(line.name, ""), must=line.must, limit=line.limit)
        for line in _LINES[kind]
    )
    question = wrong.says if wrong else f"{NAMES[kind]}: an entry"
    return FormScreen(question, lines, _ABOUT.get(kind, ""), at=wrong.line if wrong else "")


def typed_of(entry: RegisterEntry) -> Typed:
    """An entry as its form shows it."""
    typed = {
        line.name: on_one_line(getattr(entry, line.name))
        for line in _LINES[RegisterKind(entry.kind)]
        if line.name != "signs"
    }
    return typed | ({"signs": signs_shown(entry.signs)} if isinstance(entry, Person) else {})


def entry_from(kind: RegisterKind, typed: Typed, before: RegisterEntry | None) -> RegisterEntry | Wrong:
    """The entry a form makes, or what is wrong with it. What the form does not show stays as it was."""
    return _MAKE[kind](typed, before)


def check_form(instrument: Instrument, who: str, today: date) -> FormScreen:
    """Asks for one cross-check of an instrument."""
    known = instrument.checks[-1].known if instrument.checks else ""
    return FormScreen(
        f"Cross-check of {instrument.serial}",
        (
            AskedLine("known", "Known value", known, must=True),
            AskedLine("read", "What it read", must=True),
            AskedLine("on", "On", f"{today:%d/%m/%Y}", must=True),
            AskedLine("by", "By", who, must=True),
        ),
        "Against a check resistor, a check box or a socket whose value is known, such as: 0.50 ohm, loop.",
    )


def check_from(typed: Typed) -> CrossCheck | None:
    """The cross-check a form makes; None where its day is no date."""
    day = date_in(typed["on"])
    return CrossCheck(on=day, by=typed["by"], known=typed["known"], read=typed["read"]) if day else None


def _address(typed: Typed, before: str) -> str:
    """A form has one line for it; the lines it had stay while nobody changes it."""
    return before if on_one_line(before) == typed["address"] else typed["address"]


def _person(typed: Typed, before: RegisterEntry | None) -> Person | Wrong:
    signs = signs_in(typed["signs"])
    if isinstance(signs, str):
        return Wrong("signs", f"{signs!r} is nothing that is signed; any of {', '.join(SIGNS)}, or all")
    return Person(name=typed["name"], position=typed["position"], firm=typed["firm"], signs=signs)


def _firm(typed: Typed, before: RegisterEntry | None) -> KnownFirm:
    was = before.address if isinstance(before, KnownFirm) else ""
    logo = before.logo if isinstance(before, KnownFirm) else None
    return KnownFirm.model_validate({**typed, "address": _address(typed, was), "logo": logo})


def _client(typed: Typed, before: RegisterEntry | None) -> KnownClient:
    was = before.address if isinstance(before, KnownClient) else ""
    return KnownClient.model_validate({**typed, "address": _address(typed, was)})


def _premises(typed: Typed, before: RegisterEntry | None) -> KnownPremises:
    was = before.address if isinstance(before, KnownPremises) else ""
    return KnownPremises.model_validate({**typed, "address": _address(typed, was)})


def _instrument(typed: Typed, before: RegisterEntry | None) -> Instrument | Wrong:
    if typed["due"] and date_in(typed["due"]) is None:
        return Wrong("due", date_problem(typed["due"]))
    checks = before.checks if isinstance(before, Instrument) else ()
    return Instrument(serial=typed["serial"], name=typed["name"], due=typed["due"], checks=checks)


def _board(typed: Typed, before: RegisterEntry | None) -> KnownBoard | Wrong:
    if not isinstance(before, KnownBoard):
        return Wrong("name", "A board is kept from a job, with what is in it; here it can be renamed")
    return before.model_copy(update={"name": typed["name"]})


_MAKE: Mapping[RegisterKind, Callable[[Typed, RegisterEntry | None], RegisterEntry | Wrong]] = {
    RegisterKind.PERSON: _person,
    RegisterKind.FIRM: _firm,
    RegisterKind.CLIENT: _client,
    RegisterKind.PREMISES: _premises,
    RegisterKind.INSTRUMENT: _instrument,
    RegisterKind.BOARD: _board,
}


def phrase_form(name: str, *, is_set: bool) -> FormScreen:
    """Asks for a signing phrase twice, and for the one before where there may be one. Nothing of it is shown or kept unfinished."""
    before = (AskedLine("before", "As it is now", is_secret=True),) if is_set else ()
    return FormScreen(
        f"The signing phrase of {name}",
        (
            *before,
            AskedLine("phrase", "The new one", must=True, is_secret=True),
            AskedLine("again", "The same again", must=True, is_secret=True),
        ),
        "Several words are easiest to keep in mind. It is kept only as a hash, and nobody can read it back: type it yourself.",
    )
