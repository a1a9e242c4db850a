"""`chart`: the chart to fix inside a board, and the labels that go beside it."""

from pathlib import Path

from domain.job.board import Board
from domain.job.job import Job
from domain.sheets.board_chart import board_papers
from domain.value import cleaned
from tui.commands.check import not_found
from tui.commands.command import JSON, Command, CommandAnswer, CommandOption, Environment, TypedArgument, UnusableError

_BOARD = CommandOption("--board", "this board alone, by its designation", "CU1")
_PAPER = CommandOption("--paper", "A5 or A4; A4 when not given", "SIZE")
_TO = CommandOption("--to", "the new PDF; NUMBER-charts.pdf here when not given", "FILE.pdf")
_SIZES = ("a4", "a5")


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Set charts and labels from a job of the log into a new file."""
    word, sheet = cleaned(typed.words[0]), typed.value(_PAPER.name).casefold() or _SIZES[0]
    if sheet not in _SIZES:
        raise UnusableError(f"{_PAPER.name} takes A5 or A4; not {typed.value(_PAPER.name)!r}")
    with environment.open_services() as services:
        job = services.log.load(word)
        if job is None:
            return not_found(word)
        boards = _boards(job, typed.value(_BOARD.name))
        file = Path(typed.value(_TO.name) or f"{job.number}-charts.pdf")
        if file.exists():
            raise UnusableError(f"{file} exists already and is not written over")
        bound = services.bind_charts(board_papers(job, boards), sheet)
        try:
            services.write_new(file, bound.pdf)
        except OSError as error:
            raise UnusableError(f"{file} cannot be written: {error.strerror or error}") from None
    pages = f"{bound.pages} page{'' if bound.pages == 1 else 's'}"
    drafted = "" if job.issued else "; marked as a draft, since it is not issued"
    return CommandAnswer(
        {"file": str(file), "pages": bound.pages, "boards": [each.name for each in boards], "issued": bool(job.issued)},
        f"{file}\n{pages}, {', '.join(each.name for each in boards)}{drafted}",
    )


def _boards(job: Job, named: str) -> tuple[Board, ...]:
    if not job.boards:
        raise UnusableError(f"{job.number} has no board to make a chart of")
    if not named:
        return job.boards
    asked = tuple(each for each in job.boards if each.name.casefold() == cleaned(named).casefold())
    if not asked:
        there = ", ".join(each.name for each in job.boards)
        raise UnusableError(f"{job.number} has no board {named!r}; it has {there}")
    return asked


COMMAND = Command(
    name="chart",
    run=run,
    words="NUMBER",
    least=1,
    most=1,
    options=(_BOARD, _PAPER, _TO, JSON),
    explains="A page or more for each board, to fix inside its door, then a sheet of labels to cut out: next inspection, "
    "residual current devices, where to switch off, other sources.\n"
    "Charts of a job that is not issued are marked as drafts. Where the standard gives a notice its very words, use the "
    "printed notice. Nothing is ever written over.",
)
