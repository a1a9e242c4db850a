"""Names that do not tell boards and ways apart, and boards fed from where nothing is."""

import re
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from domain.checks.shared.circuits_in_use import board_place
from domain.checks.shared.feeders import Feed, feeds_of, words_of
from domain.checks.shared.finding_factory import FindingFactory
from domain.checks.shared.phrases import phrase
from domain.figures.limits.device import breaker_type_in, standard_in
from domain.job.board import Board
from domain.job.finding import Finding, Severity
from domain.job.job import Job
from domain.place import Place
from domain.regulation import regulation
from domain.source import Source
from domain.value import says_none

_found = FindingFactory("names")
_ONE_A_PHASE = 3
_OF_ONE_PHASE = re.compile(r"[0-9][ /-]?L[123]$", re.IGNORECASE)


def board_names(job: Job) -> Iterator[Finding]:
    """Every board and way has a name of its own, and every board is fed from a way that exists."""
    source = regulation("board and circuit marking", job.edition)
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
            place = board_place(board, "designation")
            yield _found(job, place, Severity.ASK, "boards-alike", source=source, board=board.name)
        seen.add(name)


def _ways_alike(job: Job, board: Board, source: Source) -> Iterator[Finding]:
    """A way of three phases may be listed once for each phase, unless its number names the one it is on."""
    rows: defaultdict[tuple[str, ...], int] = defaultdict(int)
    allowed = _ONE_A_PHASE if board.phases.strip() == "3" else 1
    for circuit in board.circuits:
        number = words_of(circuit.number)
        rows[number] += 1
        may = 1 if _OF_ONE_PHASE.search(circuit.number.strip()) else allowed
        if number and rows[number] == may + 1:
            place = Place(section="boards", board=board.id, circuit=circuit.id, box="number")
            said = {"board": board.name, "number": circuit.number.strip()}
            yield _found(job, place, Severity.ASK, "ways-alike", source=source, said=said)


def _fed_wrongly(job: Job, board: Board, feed: Feed) -> Iterator[Finding]:
    typed, place = board.supplied_from.strip(), board_place(board, "supplied_from")
    said = {"board": board.name, "fed_from": typed, "before_board": feed.board.name}
    if feed.is_way_missing:
        yield _found(job, place, Severity.ASK, "fed-from-no-way", said=said)
    elif feed.way and feed.way.is_spare:
        yield _found(job, place, Severity.ASK, "fed-from-a-spare", said=said)
    elif feed.way:
        yield from _other_device(job, board, feed)


def _other_device(job: Job, board: Board, feed: Feed) -> Iterator[Finding]:
    """The header of a board names the device of the way that feeds it; what tells them apart first is asked about, once."""
    assert feed.way
    here, there = board.device_rating.figure, feed.way.rating.figure
    if says_none(board.device_standard) and feed.way.device_standard.strip():
        yield _named_otherwise(job, board, feed, "device_standard", "no-device", feed.way.device_standard.strip())
        return
    if here is not None and there is not None and here != there:
        yield _found(
            job,
            board_place(board, "device_rating"),
            Severity.ASK,
            "two-devices",
            board=board.name,
            here=board.device_rating,
            there=feed.way.rating,
            before_board=feed.board.name,
            circuit=feed.way.name,
        )
        return
    standards = standard_in(board.device_standard), standard_in(feed.way.device_standard)
    if None not in standards and len(set(standards)) > 1:
        yield _named_otherwise(job, board, feed, "device_standard", "two-standards", feed.way.device_standard.strip())
        return
    types = breaker_type_in(board.device_type), breaker_type_in(feed.way.device_type)
    if all(types) and len(set(types)) > 1:
        yield _named_otherwise(job, board, feed, "device_type", "two-types", feed.way.device_type.strip())


def _named_otherwise(job: Job, board: Board, feed: Feed, box: str, case: str, there: str) -> Finding:
    assert feed.way
    here: str = getattr(board, box).strip()
    said = {
        "board": board.name,
        "before_board": feed.board.name,
        "circuit": feed.way.name,
        "here": here,
        "there": there,
    }
    return _found(job, board_place(board, box), Severity.ASK, case, typed={"there": there}, said=said)


def _circles(job: Job, feeds: Mapping[str, Feed]) -> Iterator[Finding]:
    """Boards that feed each other in a circle: said once for each circle, at its first board."""
    told: set[str] = set()
    for board in job.boards:
        path = [board]
        while (feed := feeds.get(path[-1].id)) and feed.board not in path:
            path.append(feed.board)
        if feed and feed.board is board and board.id not in told:
            told |= {each.id for each in path}
            place = board_place(board, "supplied_from")
            yield _found(job, place, Severity.ASK, "circle", chain=_chain([*path, board]))


def _chain(path: Sequence[Board]) -> str:
    """`DB1 from DB2 from DB1`."""
    name, *others = (board.name for board in path)
    for other in others:
        name = phrase("from-board", board=name, before=other)
    return name
