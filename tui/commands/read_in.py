"""`read-in`: readings from a CSV file of any layout into a job of the log."""

import json
from collections.abc import Mapping

from domain.editing.commands import Declined, Fill
from domain.editing.reading_table import TABLE_MAX, Columns, ReadIn, ReadingRow, ReadingTableError, columns_in, read_in
from domain.value import cleaned
from domain.words import uncapitalised
from tui.commands.check import not_found
from tui.commands.command import (
    JSON,
    NO,
    Command,
    CommandAnswer,
    CommandOption,
    Environment,
    GivenDocuments,
    TypedArgument,
    UnusableError,
)
from tui.commands.input_files import document_in
from tui.services import Services

_COLUMNS = CommandOption("--columns", "which column holds which box: 'number=Circuit; zs=Zs'", "MAPPING")
_SAVE = CommandOption("--save", "keep the mapping in the log under a name", "NAME")
_BY = CommandOption("--by", "use the mapping kept under a name", "NAME")
_BOARD = CommandOption("--board", "the board the readings are of, where the job has several", "DESIGNATION")
_REPLACE = CommandOption("--replace", "replace what other readings stand there already")
_TOPIC = "reading columns"
_TOLD_MAX = 20


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Type the readings of the file into the job: all of them, or none where anything stands against it."""
    name, number = typed.words[0], cleaned(typed.words[1])
    with environment.open_services() as services:
        columns = _columns(typed, services)
        job = services.log.load(number)
        if job is None:
            return not_found(number)
        if job.issued:
            raise UnusableError(f"{number} has been issued and is never changed; correct it by a new paper")
        rows = _rows(name, columns, environment.documents())
        reading = read_in(job, rows, cleaned(typed.value(_BOARD.name)))
        if reading.problems:
            return CommandAnswer(_as_value(reading, wrote=False), _told("Nothing was read in", reading.problems), NO)
        if reading.overwrites and not typed.has(_REPLACE.name):
            clashes = tuple(
                f"{each.where}: {each.was} stands there, the file has {each.command.text}"
                for each in reading.overwrites
            )
            says = "Nothing was read in; --replace takes the file's readings"
            return CommandAnswer(_as_value(reading, wrote=False), _told(says, clashes), NO)
        if reading.taken:
            # In one go: all of them are kept, or none, whatever ends the program meanwhile.
            typed_in = Fill(entries=tuple(each.command for each in reading.taken))
            done = services.log.edit(number, typed_in, who=services.who, at=services.now())
            if isinstance(done, Declined):
                raise UnusableError(f"{number} was changed meanwhile. {done.says}. Look at it, then read in again")
        if kept := cleaned(typed.value(_SAVE.name)):
            text = json.dumps({"name": kept, "headings": dict(columns.headings)}, ensure_ascii=False)
            services.log.add_note(_TOPIC, text, who=services.who, at=services.now())
    count = len(reading.taken)
    says = f"{count} reading{'' if count == 1 else 's'} typed into {number}" if count else "Nothing there that was new"
    return CommandAnswer(_as_value(reading, wrote=True), says)


def _columns(typed: TypedArgument, services: Services) -> Columns:
    by = cleaned(typed.value(_BY.name))
    if bool(by) is typed.has(_COLUMNS.name):
        raise UnusableError(f"Say which column holds which box, either by {_COLUMNS.name} or by {_BY.name}")
    try:
        return _kept(services, by) if by else columns_in(cleaned(typed.value(_COLUMNS.name)))
    except ReadingTableError as error:
        raise UnusableError(str(error)) from None


def _kept(services: Services, name: str) -> Columns:
    kept: dict[str, Mapping[str, str]] = {}
    for note in services.log.notes(_TOPIC):
        held = json.loads(note.text)
        kept[held["name"]] = held["headings"]
    if name not in kept:
        named = f"; there are {', '.join(kept)}" if kept else "; none is kept yet"
        raise ReadingTableError(f"No mapping is kept as {name!r}{named}")
    return Columns(headings=kept[name])


def _rows(name: str, columns: Columns, documents: GivenDocuments) -> tuple[ReadingRow, ...]:
    try:
        return documents.rows_given(document_in(name, TABLE_MAX), columns)
    except ReadingTableError as error:
        says = str(error)
        raise UnusableError(f"{name}: {uncapitalised(says)}") from None


def _as_value(reading: ReadIn, *, wrote: bool) -> dict[str, object]:
    taken = [{"where": each.where, "typed": each.command.text, "was": each.was} for each in reading.taken]
    return {"written": wrote, "readings": taken, "problems": list(reading.problems)}


def _told(says: str, lines: tuple[str, ...]) -> str:
    more = [f"and {len(lines) - _TOLD_MAX} more"] if len(lines) > _TOLD_MAX else []
    return "\n".join([says, *(f"✗ {line}" for line in lines[:_TOLD_MAX]), *more])


COMMAND = Command(
    name="read-in",
    run=run,
    words="FILE.csv NUMBER",
    least=2,
    most=2,
    options=(JSON, _COLUMNS, _SAVE, _BY, _BOARD, _REPLACE),
    explains=(
        "Each circuit is found by its number. Readings land as they stand in the file, through the same checks as typed ones; empty cells change nothing. "
        "Cells may be parted by comma, semicolon, tab or |, and the headings may stand on any line. A mapping may also name "
        "board=HEADING.\n"
        "All is read in or nothing: exit 1 where a circuit is not there, a text cannot stand in its box, or "
        "another reading stands there already and --replace is not given."
    ),
)
