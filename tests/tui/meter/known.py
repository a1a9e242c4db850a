"""What hands know that a log or the program knows already: entries of its registers, kinds of circuit, boards that come filled."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import accumulate, product
from typing import NamedTuple

from domain.editing.commands import Enter, Fill
from domain.job.board import Board
from domain.job.box import typed_in
from domain.job.circuit import Circuit
from domain.job.job import Job
from domain.job.place_in_words import text_at
from domain.place import Place
from domain.register.entries import Person, RegisterEntry, title_of, words_in
from domain.register.filling import filled_from, filled_from_client, kind_at
from domain.usual.circuit_kinds import USUAL_BOXES, kinds_begun
from domain.usual.filled_boards import FilledBoard, filled_boards
from domain.usual.phrases import phrases_begun
from domain.words import words_of

_LETTERS_MIN = 2
"""From so many letters on the registers are looked into."""
_LEAST_ALIKE = 2
"""Circuits at the head of a board that make it worth beginning with one that comes filled."""


class Taken(NamedTuple):
    """What is typed before it is taken, and what taking it comes to."""

    letters: str
    command: Fill


class UsualKind(NamedTuple):
    """A kind of circuit, with the letters that find it first."""

    letters: str
    details: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Known:
    """Entries of the registers."""

    entries: tuple[RegisterEntry, ...] = ()
    earlier: Job | None = None
    """The last paper on the place."""

    def position_of(self, name: str) -> str:
        """The position that the register of people fills in where none is typed."""
        return next((each.position for each in self.entries if isinstance(each, Person) and each.name == name), "")

    def taken_at(self, job: Job, place: Place, wanted: Job) -> Taken | None:
        """What can be taken at a box instead of typing it, where all that it fills is right."""
        ways = [Taken("", _fill(filled_from_client(job, place)))] if filled_from_client(job, place) else []
        kind = kind_at(place)
        of_kind = [each for each in self.entries if each.kind == kind]
        ways += [
            Taken(letters, _fill(texts))
            for entry in of_kind
            if (letters := _letters_of(entry, of_kind)) and (texts := filled_from(entry, place))
        ]
        if (text := text_at(wanted, _in(wanted, place))) and (letters := _letters_for(place, text)):
            ways.append(Taken(letters, Fill(entries=(Enter(place=place, text=text),))))
        right = (
            each for each in ways if all(text_at(wanted, _in(wanted, e.place)) == e.text for e in each.command.entries)
        )
        return next(right, None)


NOTHING_KNOWN = Known()


def _in(wanted: Job, place: Place) -> Place:
    """The same place of the job that is to come out, whose board has an id of its own."""
    return place.model_copy(update={"board": wanted.boards[0].id}) if place.board else place


def _fill(texts: Mapping[Place, str]) -> Fill:
    return Fill(entries=tuple(Enter(place=at, text=text) for at, text in texts.items()))


def _letters_of(entry: RegisterEntry, others: list[RegisterEntry]) -> str:
    """The fewest letters that find an entry and no other of its register."""
    begun = [each for word in words_of(title_of(entry)) for each in accumulate(word) if len(each) >= _LETTERS_MIN]
    return next((each for each in sorted(begun, key=len) if [o for o in others if _found(o, each)] == [entry]), "")


def _letters_for(place: Place, text: str) -> str:
    """The fewest letters that bring a phrase of the box first."""
    return next((each for each in _begun(text) if phrases_begun(place, each)[:1] == (text,)), "")


def _found(entry: RegisterEntry, letters: str) -> bool:
    return any(word.startswith(letters) for word in words_in(entry))


def usual_kind(circuit: Circuit, board: Board, row: int) -> UsualKind | None:
    """The kind that a circuit is, where the program knows it with just these details, by the fewest letters."""
    circuits = tuple(each for at, each in enumerate(board.circuits) if at != row)
    others = board.model_copy(update={"circuits": circuits})
    for letters in _begun(circuit.description):
        found = kinds_begun(letters, others)
        if found and found[0].description == circuit.description:
            return UsualKind(letters, found[0].details) if _is(circuit, found[0].details) else None
    return None


def _is(circuit: Circuit, details: Mapping[str, str]) -> bool:
    return all(details.get(name, "") == typed_in(circuit, name) for name in USUAL_BOXES if name != "number")


def _begun(description: str) -> Iterator[str]:
    """Beginnings of its words, and of two of them, the shortest first."""
    words = [list(accumulate(word)) for word in words_of(description)]
    one = [each for word in words for each in word]
    two = [f"{first} {second}" for a, b in product(words, words) if a is not b for first in a for second in b]
    yield from sorted((*one, *two), key=len)


def begun_alike(board: Board) -> FilledBoard | None:
    """The board that comes filled whose first circuits are those wanted, as many as possible; None where none is worth it."""
    fitting = [each for each in filled_boards()[:9] if len(each.board.circuits) <= len(board.circuits)]
    best = max(fitting, key=lambda each: _alike(each.board, board), default=None)
    return best if best and _alike(best.board, board) >= _LEAST_ALIKE else None


def _alike(usual: Board, board: Board) -> int:
    """How many circuits from the first on are the same."""
    pairs = zip(usual.circuits, board.circuits, strict=False)
    same = [all(typed_in(a, name) == typed_in(b, name) for name in USUAL_BOXES) for a, b in pairs]
    return next((at for at, each in enumerate(same) if not each), len(same))
