"""Readings from a table of any layout: a small mapping says which column holds which box, the circuit's number which row.

Every text lands as it was typed, through the commands a person's keys make, so that all checks apply. The
cells are parted by the library, but by hand the headings asked for decide which letter parts them: a guess of the dialect
from the letters of a file could shift a column of readings unseen.
"""

import csv
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from domain.editing.commands import Declined, Enter
from domain.editing.reducer import apply
from domain.job.board import CIRCUITS_MAX, Board
from domain.job.box import boxes_of, typed_in
from domain.job.circuit import DETAIL_BOXES, RESULT_BOXES, Circuit
from domain.job.job import BOARDS_MAX, Job
from domain.place import Place
from domain.value import Value, cleaned

NUMBER, BOARD = "number", "board"
"""What a mapping may name beside boxes: the number that tells the circuit, and the designation that tells the board."""
TABLE_MAX = 4_000_000
_MAPPED = frozenset({*DETAIL_BOXES, *RESULT_BOXES, BOARD})
_LINES_MAX = BOARDS_MAX * CIRCUITS_MAX
_NAMED_MAX = 12
_DELIMITERS = ",;\t|"


class ReadingTableError(ValueError):
    """The table or its mapping cannot be used; the message is one plain sentence for the person."""


class Columns(Value):
    """Which column of a table holds which box, by its heading."""

    headings: Mapping[str, str]
    """Heading by name of box; `number` among them."""


class Taken(Value):
    """One text of the table, and where it belongs."""

    command: Enter
    where: str
    """`Circuit 3, Measured Zs`."""
    was: str = ""
    """What the box holds already, where that is something else."""


class ReadIn(NamedTuple):
    """What a table comes to for a job: what would be typed, and every reason why it cannot be."""

    taken: tuple[Taken, ...]
    problems: tuple[str, ...]

    @property
    def overwrites(self) -> tuple[Taken, ...]:
        """Those that would replace another text."""
        return tuple(each for each in self.taken if each.was)


class ReadingRow(NamedTuple):
    """One row of a table: its line in the file, and its cells by box."""

    line: int
    cells: Mapping[str, str]


def columns_in(typed: str) -> Columns:
    """The mapping in `number=Circuit; r1_r2=R1+R2; zs=Zs`; TableError where it is none."""
    headings: dict[str, str] = {}
    for part in filter(None, (part.strip() for part in typed.split(";"))):
        box, equals, heading = (text.strip() for text in part.partition("="))
        if not equals or not heading:
            raise ReadingTableError(
                f"{part!r} says no column; write a box, = and the heading of its column, such as zs=Zs"
            )
        if box not in _MAPPED:
            raise ReadingTableError(f"A circuit has no box {box!r}; those of the results are {', '.join(RESULT_BOXES)}")
        if box in headings:
            raise ReadingTableError(f"{box} is given two columns")
        headings[box] = heading
    if NUMBER not in headings:
        raise ReadingTableError(f"Say which column holds the circuit's number: {NUMBER}=HEADING")
    return Columns(headings=headings)


def rows_in(document: bytes, columns: Columns) -> tuple[ReadingRow, ...]:
    """The rows under the headings, wherever the table begins and whatever parts its cells; TableError where none does."""
    if len(document) > TABLE_MAX:
        raise ReadingTableError(f"It is larger than any table of readings ({TABLE_MAX // 1_000_000} MB at most)")
    text = _text_of(document).splitlines()
    if len(text) > _LINES_MAX:
        raise ReadingTableError(f"It has more than {_LINES_MAX:,} lines, and no job has so many circuits")
    for delimiter in _DELIMITERS:
        try:
            lines = list(csv.reader(text, delimiter=delimiter))
        except csv.Error:
            continue
        for at, line in enumerate(lines):
            if (places := _places(line, columns)) is not None:
                return tuple(_rows(lines[at + 1 :], at + 2, places))
    wanted = ", ".join(columns.headings.values())
    raise ReadingTableError(f"No line of it holds all these headings: {wanted}")


def read_in(job: Job, rows: Sequence[ReadingRow], board: str) -> ReadIn:
    """What the rows come to for a job; `board` is the designation of the board they are of, where no column says."""
    taken: list[Taken] = []
    problems: list[str] = []
    seen: set[str] = set()
    numbered = _Numbered(job)
    for row in rows:
        found = numbered.circuit_of(row, board)
        if isinstance(found, str):
            problems.append(f"Line {row.line}: {found}")
            continue
        if found[1].id in seen:
            problems.append(f"Line {row.line}: circuit {row.cells[NUMBER]} has been given before")
            continue
        seen.add(found[1].id)
        for each in _texts(job, *found, row):
            if isinstance(each, str):
                problems.append(f"Line {row.line}: {each}")
            else:
                taken.append(each)
    return ReadIn(tuple(taken), tuple(problems))


def _text_of(document: bytes) -> str:
    try:
        return document.decode("utf-8-sig")
    except UnicodeDecodeError:
        return document.decode("cp1252", errors="replace")


def _places(line: list[str], columns: Columns) -> dict[str, int] | None:
    """Where each box stands among the cells; None where a heading is missing."""
    headings = [_heading(cell) for cell in line]
    wanted = {box: _heading(heading) for box, heading in columns.headings.items()}
    if any(heading not in headings for heading in wanted.values()):
        return None
    return {box: headings.index(heading) for box, heading in wanted.items()}


def _heading(text: str) -> str:
    return " ".join(text.split()).casefold()


def _rows(lines: list[list[str]], first: int, places: Mapping[str, int]) -> Iterator[ReadingRow]:
    for at, line in enumerate(lines, first):
        cells = {box: cleaned(line[place]).strip() for box, place in places.items() if place < len(line)}
        if cells.get(NUMBER):
            yield ReadingRow(at, cells)


def _named(boards: Sequence[Board]) -> str:
    more = f" and {len(boards) - _NAMED_MAX} more" if len(boards) > _NAMED_MAX else ""
    return ", ".join(each.designation or "one without a name" for each in boards[:_NAMED_MAX]) + more


class _Numbered:
    """The circuits of a job by board and number, looked up in one step however many rows ask."""

    def __init__(self, job: Job) -> None:
        self._every = job.boards
        self._named = _named(job.boards)
        self._boards = defaultdict[str, list[Board]](list)
        self._circuits = defaultdict[tuple[str, str], list[Circuit]](list)
        for board in job.boards:
            self._boards[_heading(board.designation)].append(board)
            for circuit in board.circuits:
                self._circuits[board.id, _heading(circuit.number)].append(circuit)

    def circuit_of(self, row: ReadingRow, board: str) -> tuple[str, Circuit] | str:
        """The id of the board and the circuit a row is of, or why there is none."""
        designation = row.cells.get(BOARD, "") or board
        boards = self._boards.get(_heading(designation), ()) if designation else self._every
        if len(boards) != 1:
            return f"say which board it is of: {self._named}"
        number = row.cells[NUMBER]
        found = self._circuits.get((boards[0].id, _heading(number)), ())
        if len(found) != 1:
            many = "more than one" if found else "no"
            return f"{many} circuit of {boards[0].designation or 'the board'} has number {number}"
        return boards[0].id, found[0]


def _texts(job: Job, board: str, circuit: Circuit, row: ReadingRow) -> Iterator[Taken | str]:
    for name, text in row.cells.items():
        if name in {NUMBER, BOARD} or not text or text == typed_in(circuit, name):
            continue
        box = boxes_of(Circuit)[name]
        where = f"Circuit {circuit.number}, {box.label}"
        command = Enter(place=Place(section="boards", board=board, circuit=circuit.id, box=name), text=text)
        if problem := box.problem(text, job.form_set):
            yield f"{where}: {problem}"
        elif isinstance(declined := apply(job, command), Declined):
            yield f"{where}: {declined.says}"
        else:
            yield Taken(command=command, where=where, was=typed_in(circuit, name))
