"""How the boxes of one job read on paper: labels from their declaration, values as typed."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from pydantic import BaseModel

from domain.checks import findings_of
from domain.checks.shared.circuits_in_use import is_at_origin
from domain.dates import date_in, written
from domain.gate.answered import answering, answering_finding
from domain.gate.assessment import explanation_of
from domain.job.board import Board
from domain.job.box import Box, BoxKind, boxes_of, shown_in, typed_in
from domain.job.explanation import Explanation
from domain.job.finding import Finding, Severity
from domain.job.job import SECTIONS, Job
from domain.job.next_due import next_due
from domain.place import Place
from domain.sheets.permitted_zs import permitted_zs
from domain.sheets.sheet import Block, SheetEntry, SheetGroup, Signing, ValueOrigin
from domain.value import says_nothing

NOTHING = "None"
NOT_APPLICABLE = "N/A"
_THE_INSTALLATIONS = "the installation's"
_RECOMMENDED = {
    "work": "Next inspection, as the designer recommends",
    "report": "Next inspection, as the inspector recommends",
}
_DAYS_AS_TEXT = frozenset({"last_inspection", "next_inspection"})
"""Boxes of text that may hold a day."""

_WORDS = frozenset({BoxKind.LINE, BoxKind.PROSE})
_BRIEF = 28
_SIDE_BY_SIDE = 3
"""Texts of no more letters than this share a row, so many to a row."""

_WORKED_IN = frozenset({"instruments", "firm"})
"""Sections whose boxes all have their place among others, or need none while they are empty."""

Asked = str | tuple[str, int]
"""A box as `section.box`, alone or with its share of the row."""


@dataclass(frozen=True)
class Facts:
    """A job as the sheets ask of it."""

    job: Job

    @cached_property
    def failing(self) -> tuple[Finding, ...]:
        """Findings outside a limit."""
        return tuple(finding for finding in self._findings if finding.severity is Severity.FAILS)

    @cached_property
    def explained(self) -> tuple[tuple[Finding, Explanation], ...]:
        """What a check asked about, with the reason a person gave."""
        asked = (finding for finding in self._findings if finding.severity is Severity.ASK)
        return tuple((finding, reason) for finding in asked if (reason := explanation_of(self.job, finding)))

    @cached_property
    def _findings(self) -> tuple[Finding, ...]:
        return findings_of(self.job)

    @cached_property
    def permitted_zs(self) -> Mapping[str, str]:
        """The tabulated maximum Zs by circuit id."""
        return permitted_zs(self.job)

    @cached_property
    def _failing_places(self) -> frozenset[Place]:
        return frozenset(place for finding in self.failing for place in finding.places)

    @cached_property
    def _failing_within(self) -> frozenset[Place]:
        return frozenset(place.model_copy(update={"box": ""}) for place in self._failing_places)

    def fails_within(self, of: Place) -> bool:
        """A check found some value of the circuit at this place outside its limit."""
        return of in self._failing_within

    def fails(self, place: Place) -> bool:
        """A check found the value at this place outside its limit."""
        return place in self._failing_places

    def answered_beside(self, place: Place) -> str:
        """The numbers of the observations that answer the failure at this place, to stand beside it: `(1, 3)`."""
        about = next((each for each in self.failing if place in each.also), None)
        answered = answering_finding(self.job, about) if about else answering(self.job, place)
        numbers = ", ".join(str(number) for number, _ in answered)
        return f"({numbers})" if numbers else ""

    def entry(self, owner: BaseModel, place: Place, *, weight: int = 1) -> SheetEntry:
        """The box at a place, as a labelled value."""
        box = boxes_of(type(owner))[place.box]
        value, origin = self._value(owner, box, place)
        unit = box.unit if origin in {ValueOrigin.TYPED, ValueOrigin.FAILS} and _is_figure(value) else ""
        if origin is ValueOrigin.BLANK:
            unit = box.unit
        label = _RECOMMENDED.get(place.section, box.label) if place.box == "next_inspection" else box.label
        return SheetEntry(label, value, unit, origin, place, weight)

    def _value(self, owner: BaseModel, box: Box, place: Place) -> tuple[str, ValueOrigin]:
        value = shown_in(owner, place.box)
        if value.strip():
            return self._dated(value, box, place), ValueOrigin.FAILS if self.fails(place) else ValueOrigin.TYPED
        if box.is_required(self.job.form_set, owner):
            return "", ValueOrigin.BLANK
        if box.when is not None and not box.when(owner):
            return NOT_APPLICABLE, ValueOrigin.OURS
        if owner == self._board_of_main_switch and place.box == "main_switch":
            return _THE_INSTALLATIONS, ValueOrigin.OURS
        return (NOTHING if box.kind in _WORDS else NOT_APPLICABLE), ValueOrigin.OURS

    @cached_property
    def _board_of_main_switch(self) -> Board | None:
        """The only board at the origin: the main switch of the installation is its own, recorded once."""
        at_origin = [board for board in self.job.boards if is_at_origin(self.job, board)]
        return at_origin[0] if len(at_origin) == 1 and not says_nothing(self.job.main_switch.standard) else None

    def _dated(self, value: str, box: Box, place: Place) -> str:
        """A value that names a day, with the day written as everywhere; an interval with the day it leads to."""
        if box.kind is not BoxKind.DATE and place.box not in _DAYS_AS_TEXT:
            return value
        if day := date_in(value):
            return written(day)
        due = next_due(self.job) if place.box == "next_inspection" else None
        return f"{written(due)} ({value})" if due else value

    def row(self, *asked: Asked) -> tuple[SheetEntry, ...]:
        """Boxes of the sections side by side, less those this form set does not ask for."""
        entries: list[SheetEntry] = []
        for each in asked:
            name, weight = each if isinstance(each, tuple) else (each, 1)
            section, box = name.split(".")
            if boxes_of(SECTIONS[section])[box].is_asked(self.job.form_set):
                place = Place(section=section, box=box)
                entries.append(self.entry(getattr(self.job, section), place, weight=weight))
        return tuple(entries)

    def packed(self, *names: str) -> tuple[tuple[str, ...], ...]:
        """Boxes of running text in rows, in their order: short ones side by side, longer ones over the full width."""
        rows: list[tuple[str, ...]] = []
        for name in names:
            joins = rows and len(rows[-1]) < _SIDE_BY_SIDE and self.is_brief(rows[-1][0]) and self.is_brief(name)
            rows = [*rows[:-1], (*rows[-1], name)] if joins else [*rows, (name,)]
        return tuple(rows)

    def is_brief(self, asked: str) -> bool:
        """What was typed leaves room for other boxes beside it."""
        section, name = asked.split(".")
        text = shown_in(getattr(self.job, section), name)
        return len(text) <= _BRIEF and "\n" not in text

    def group(self, heading: str, *rows: tuple[Asked, ...], note: str = "") -> SheetGroup:
        """Rows of boxes under one heading; rows with nothing asked fall away."""
        made = (self.row(*asked) for asked in rows)
        return SheetGroup(heading, tuple(row for row in made if row), note)

    def left_over(self, blocks: tuple[Block, ...], *, but: frozenset[str] = _WORKED_IN) -> tuple[Block, ...]:
        """Boxes this form set asks for that no block shows yet, so that none is ever lost; `but` sections worked in."""
        shown = [place for block in blocks for place in _places(block)]
        missing = [
            Place(section=section, box=name)
            for section, model in SECTIONS.items()
            if section not in but
            for name, box in boxes_of(model).items()
            if box.is_asked(self.job.form_set) and Place(section=section, box=name) not in shown
            if not box.quiet or typed_in(getattr(self.job, section), name).strip()
        ]
        entries = [self.entry(getattr(self.job, place.section), place) for place in missing]
        short = [entry for entry in entries if not _is_prose(entry)]
        rows = [tuple(short[at : at + 3]) for at in range(0, len(short), 3)]
        rows += [(entry,) for entry in entries if _is_prose(entry)]
        return (SheetGroup("Further particulars", tuple(rows)),) if rows else ()


def _is_prose(entry: SheetEntry) -> bool:
    place = entry.place
    return place is not None and boxes_of(SECTIONS[place.section])[place.box].kind is BoxKind.PROSE


def rows_for(
    facts: Facts, owner: BaseModel, place: Place, *rows: tuple[str, ...]
) -> tuple[tuple[SheetEntry, ...], ...]:
    """Boxes of a board or circuit in rows; those asked for but not named follow three to a row."""
    boxes = boxes_of(type(owner))
    asked = [name for name, box in boxes.items() if box.is_asked(facts.job.form_set)]
    named = [tuple(name for name in row if name in asked) for row in rows]
    untold = {name for name in asked if boxes[name].quiet and not typed_in(owner, name).strip()}
    named = [tuple(name for name in row if name not in untold) for row in named]
    rest = [name for name in asked if name not in untold and not any(name in row for row in named)]
    named += [tuple(rest[at : at + 3]) for at in range(0, len(rest), 3)]
    return tuple(
        tuple(facts.entry(owner, place.model_copy(update={"box": name})) for name in row) for row in named if row
    )


def _is_figure(value: str) -> bool:
    return any(letter.isdigit() for letter in value)


def _places(block: Block) -> tuple[Place | None, ...]:
    match block:
        case SheetGroup():
            return tuple(entry.place for row in block.rows for entry in row)
        case Signing():
            return tuple(entry.place for row in block.entries for entry in row)
        case _:
            return ()
