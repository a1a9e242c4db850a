"""Names that do not tell boards and ways apart, and boards fed from where nothing is."""

from collections import defaultdict
from collections.abc import Iterator, Mapping

from domain.checks.shared.circuits_in_use import board_place
from domain.checks.shared.feeders import Feed, feeds_of, words_of
from domain.checks.shared.finding_factory import FindingFactory
from domain.job.board import Board
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.place import Place
from domain.source import Source, Trust

_found = FindingFactory("names")
_ONE_A_PHASE = 3


def board_names(job: Job) -> Iterator[Finding]:
    """Every board and way has a name of its own, and every board is fed from a way that exists."""
    source = Source(standard=str(job.edition), table="514.9.1", trust=Trust.MEMORY)
    yield from _boards_alike(job, source)
    for board in job.boards:
        yield from _ways_alike(job, board, source)
    feeds = feeds_of(job)
    for board in job.boards:
        if board.id in feeds:
            yield from _fed_wrongly(job, board, feeds[board.id])
    yield from _circles(job, feeds)


def _boards_alike(job: Job, source: Source) -> Iterator[Finding]:
    seen: set[tuple[str, ...]] = set()
    for board in job.boards:
        name = words_of(board.designation)
        if name and name in seen:
            says = f"Two boards are called {board.name}; a reader cannot tell their schedules apart"
            yield _found(job, board_place(board, "designation"), Severity.ASK, says, source=source)
        seen.add(name)


def _ways_alike(job: Job, board: Board, source: Source) -> Iterator[Finding]:
    """A way of three phases may be listed once for each phase."""
    rows: defaultdict[tuple[str, ...], int] = defaultdict(int)
    allowed = _ONE_A_PHASE if board.phases.strip() == "3" else 1
    for circuit in board.circuits:
        number = words_of(circuit.number)
        rows[number] += 1
        if number and rows[number] == allowed + 1:
            says = f"{board.name} has more than one circuit {circuit.number.strip()}; which way is which?"
            place = Place(section="boards", board=board.id, circuit=circuit.id, box="number")
            yield _found(job, place, Severity.ASK, says, source=source)


def _fed_wrongly(job: Job, board: Board, feed: Feed) -> Iterator[Finding]:
    typed, place = board.supplied_from.strip(), board_place(board, "supplied_from")
    if feed.is_way_missing:
        says = f"{board.name} is fed from {typed}, but {feed.board.name} has no such way"
        yield _found(job, place, Severity.ASK, says)
    elif feed.way and feed.way.is_spare:
        says = f"{board.name} is fed from {typed}, but that way is marked spare"
        yield _found(job, place, Severity.ASK, says)
    elif feed.way:
        yield from _other_device(job, board, feed)


def _other_device(job: Job, board: Board, feed: Feed) -> Iterator[Finding]:
    assert feed.way
    here, there = board.device_rating.figure, feed.way.rating.figure
    if here is not None and there is not None and here != there:
        says = (
            f"The device feeding {board.name} is {board.device_rating.shown} A in its header and "
            f"{feed.way.rating.shown} A on {feed.board.name}, circuit {feed.way.name}; which is it?"
        )
        yield _found(job, board_place(board, "device_rating"), Severity.ASK, says)


def _circles(job: Job, feeds: Mapping[str, Feed]) -> Iterator[Finding]:
    """Boards that feed each other in a circle: said once for each circle, at its first board."""
    told: set[str] = set()
    for board in job.boards:
        path = [board]
        while (feed := feeds.get(path[-1].id)) and feed.board not in path:
            path.append(feed.board)
        if feed and feed.board is board and board.id not in told:
            told |= {each.id for each in path}
            chain = " from ".join([*(each.name for each in path), board.name])
            says = f"{chain}: the boards feed each other in a circle, and none is fed from the supply"
            yield _found(job, board_place(board, "supplied_from"), Severity.ASK, says)
