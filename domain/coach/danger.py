"""What can hurt in this very job: cautions that its own values bring up, each once, at the box where the hand is."""

import tomllib
from collections.abc import Iterable
from functools import cache
from importlib.resources import files
from typing import Annotated, Any

from pydantic import Field

from domain.coach.danger_conditions import CONDITIONS, DangerScope, danger_scope
from domain.job.circuit import Circuit
from domain.job.job import Job
from domain.place import Place
from domain.source import Source
from domain.value import Value


class Danger(Value):
    """One caution, with the boxes at which it bites."""

    id: str
    at: Annotated[tuple[str, ...], Field(min_length=1)]
    """Boxes such as circuit.ir_live: more than one where the hand comes to the same thing twice, or by other forms."""
    when: str
    """The condition on the job's own values, by name."""
    once: bool = False
    """Of the circuits of a board the first it is true of carries it for all; else each does for itself."""
    says: str
    source: Source


@cache
def dangers() -> tuple[Danger, ...]:
    """Every row of the table, the gravest first where several bite at one box."""
    return dangers_in(files("domain.coach").joinpath("dangers.toml").read_text(encoding="utf-8"))


def dangers_in(text: str) -> tuple[Danger, ...]:
    """The rows a TOML text holds. KeyError for a condition nobody knows, ValueError for an id used twice."""
    data: dict[str, Any] = tomllib.loads(text)
    rows = tuple(_danger(row) for row in data["danger"])
    if unknown := {row.when for row in rows} - CONDITIONS.keys():
        raise KeyError(f"no condition is called {min(unknown)!r}")
    ids = [row.id for row in rows]
    if twice := {each for each in ids if ids.count(each) > 1}:
        raise ValueError(f"two dangers are called {min(twice)!r}")
    return rows


def _danger(row: dict[str, Any]) -> Danger:
    cited = ("standard", "table", "seen_in", "trust", "note")
    source = Source.model_validate({name: row[name] for name in cited if name in row})
    return Danger(source=source, **{name: held for name, held in row.items() if name not in cited})


def dangers_at(job: Job, place: Place) -> tuple[Danger, ...]:
    """What can hurt at a box, by what the job holds; () where nothing of the table bites."""
    owner = "circuit" if place.circuit else "board" if place.board else place.section
    key = f"{owner}.{place.box}"
    return tuple(row for row in dangers() if key in row.at and _bites(row, job, place))


def dangers_of(job: Job) -> tuple[Danger, ...]:
    """Every danger of the job, whether or not it has a box yet at which it would bite; in the order of the table."""
    scopes = [danger_scope(job, Place()), *(danger_scope(job, Place(board=board.id)) for board in job.boards)]
    return tuple(row for row in dangers() if any(map(CONDITIONS[row.when], scopes)))


def _bites(row: Danger, job: Job, place: Place) -> bool:
    scope = danger_scope(job, place)
    if not CONDITIONS[row.when](scope):
        return False
    return not (place.circuit and row.once) or place.circuit == _first(row, job, place)


def _first(row: Danger, job: Job, place: Place) -> str:
    """The id of the first circuit of the board that the condition is true of."""
    board = job.board(place.board)
    circuits: Iterable[Circuit] = board.circuits if board else ()
    at = (each.id for each in circuits if CONDITIONS[row.when](DangerScope(job, board, (each,))))
    return next(at, "")
