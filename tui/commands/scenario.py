"""A job of the demo as its file tells it, played through the domain's commands."""

import tomllib
from collections.abc import Iterator, Mapping
from datetime import date, datetime
from typing import Annotated

from pydantic import Field

from domain.editing.commands import (
    AddBoard,
    AddCircuit,
    ClearSnag,
    Command,
    Declined,
    Enter,
    Observe,
    RaiseSnag,
    SetOutcome,
    Sign,
)
from domain.editing.reducer import apply
from domain.forms.choice.answers import Answers
from domain.forms.choice.choosing import choose
from domain.forms.choice.chosen import ChosenPapers
from domain.inspection.item_outcome import InspectionOutcome
from domain.inspection.observation import Code
from domain.job.instrument import Instruments
from domain.job.job import SECTIONS, Job
from domain.job.people import Firm
from domain.job.signature import Role
from domain.job.start import new_job
from domain.place import Place
from domain.value import Value

Boxes = dict[str, str]


class BoardTold(Value):
    """A board: its boxes, what is the same on every circuit, and its circuits as a table with `|` between columns."""

    boxes: Boxes = Field(default_factory=dict[str, str])
    every: Boxes = Field(default_factory=dict[str, str])
    circuits: str = ""

    def rows(self) -> list[Boxes]:
        """The circuits, each as boxes and their texts. A spare way has only what its row says."""
        heading, *rows = [[cell.strip() for cell in line.split("|")] for line in self.circuits.strip().splitlines()]
        told = [dict(zip(heading, row, strict=True)) for row in rows]
        return [row if row["shape"] == "spare" else self.every | row for row in told]


class ClearedTold(Value):
    """How a snag was cleared."""

    by: str
    on: date
    how: str


class SnagTold(Value):
    """A snag, and how it was cleared if it was."""

    what: str
    where: str
    by: str
    on: date
    cleared: ClearedTold | None = None


class ObservationTold(Value):
    """An observation."""

    finding: str
    code: Code
    where: str
    items: tuple[str, ...] = ()
    reason: str = ""
    answers: tuple[str, ...] = ()
    """The failing boxes it answers: board, circuit and box, such as `DB1 5 ir_earth`."""


class SignatureTold(Value):
    """Who signed what, and when."""

    role: Role
    name: str
    position: str
    at: datetime


class IssueTold(Value):
    """Who issued it, and when."""

    by: str
    at: datetime


class Scenario(Value):
    """One job file."""

    by: str
    at: datetime
    replaces: str = ""
    """The file name, without its ending, of the issued job that this one corrects."""
    replaces_because: str = ""
    answers: Answers = Answers()
    boards: Annotated[tuple[BoardTold, ...], Field(alias="board")] = ()
    inspection: Mapping[str, str | tuple[str, ...] | Boxes] = Field(default_factory=dict)
    """Items by mark; `rest` is the mark of all others, `notes` what is remarked on single items."""
    observations: Annotated[tuple[ObservationTold, ...], Field(alias="observation")] = ()
    snags: Annotated[tuple[SnagTold, ...], Field(alias="snag")] = ()
    signatures: Annotated[tuple[SignatureTold, ...], Field(alias="signature")] = ()
    issue: IssueTold | None = None
    sections: Mapping[str, Boxes] = Field(default_factory=dict)


def scenario_in(text: str) -> Scenario:
    """The scenario a TOML text tells."""
    told = tomllib.loads(text)
    sections = {name: told.pop(name) for name in SECTIONS if name in told}
    return Scenario.model_validate({**told, "sections": sections})


def started(told: Scenario, firm: Firm, instruments: Instruments) -> Job:
    """A fresh job for what was answered, and all that the file says was typed and found."""
    advised = choose(told.answers).form_set
    assert advised, "the answers of a scenario are complete"
    chosen = ChosenPapers(form_set=advised, advised=advised, answers=told.answers)
    job = new_job(chosen, on=told.at.date(), firm=firm, instruments=instruments)
    # The firm said so itself: nothing of it waits for a yes.
    job = job.model_copy(update={"unconfirmed": ()})
    for command in typed_sections(told):
        job = _must(job, command)
    return _found(told, _with_boards(told, job))


def typed_sections(told: Scenario) -> Iterator[Enter]:
    """What was typed into the pages of boxes."""
    for section, boxes in told.sections.items():
        yield from _typed(Place(section=section), boxes)


def signed(told: Scenario) -> Iterator[Sign]:
    """The signatures, in the order they were given."""
    for each in told.signatures:
        yield Sign(role=each.role, name=each.name, position=each.position, at=each.at)


def _typed(place: Place, boxes: Boxes) -> Iterator[Enter]:
    for box, text in boxes.items():
        if text:
            yield Enter(place=place.model_copy(update={"box": box}), text=text)


def _with_boards(told: Scenario, job: Job) -> Job:
    for order, board in enumerate(told.boards):
        if order == len(job.boards):
            job = _must(job, AddBoard())
        place = Place(section="boards", board=job.boards[order].id)
        for command in _typed(place, board.boxes):
            job = _must(job, command)
        for row, boxes in enumerate(board.rows()):
            if row == len(job.boards[order].circuits):
                job = _must(job, AddCircuit(board=place.board))
            circuit = job.boards[order].circuits[row].id
            for command in _typed(place.model_copy(update={"circuit": circuit}), boxes):
                job = _must(job, command)
    return job


def _found(told: Scenario, job: Job) -> Job:
    notes = told.inspection.get("notes", {})
    assert isinstance(notes, dict)
    for item, mark in _marks(told, job).items():
        job = _must(job, SetOutcome(item=item, mark=mark, note=notes.get(item, "")))
    for each in told.observations:
        answers = tuple(_place(job, *typed.split()) for typed in each.answers)
        job = _must(job, Observe.model_validate({**dict(each), "answers": answers}))
    for snag in told.snags:
        job = _must(job, RaiseSnag(what=snag.what, where=snag.where, by=snag.by, on=snag.on))
        if snag.cleared:
            job = _must(job, ClearSnag(snag=job.snags[-1].id, **dict(snag.cleared)))
    return job


def _place(job: Job, designation: str, number: str, box: str) -> Place:
    board = next(each for each in job.boards if each.designation == designation)
    circuit = next(each for each in board.circuits if each.bears(number))
    return Place(section="boards", board=board.id, circuit=circuit.id, box=box)


def _marks(told: Scenario, job: Job) -> dict[str, InspectionOutcome]:
    marked = {
        item: InspectionOutcome(mark)
        for mark, items in told.inspection.items()
        if isinstance(items, tuple)
        for item in items
    }
    rest = told.inspection.get("rest")
    if isinstance(rest, str):
        marked |= {item.number: InspectionOutcome(rest) for item in job.items if item.number not in marked}
    return marked


def _must(job: Job, command: Command) -> Job:
    done = apply(job, command)
    if isinstance(done, Declined):
        raise ValueError(f"the scenario cannot be played: {done.says}")
    return done
