"""Judging again only what an edit can touch says the same as judging everything, whatever is edited."""

import re
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from domain import checks
from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.part_by_part import NOT_LOOKED_AT, WaysOfBoard, board_by_board, way_by_way
from domain.editing.commands import AddCircuit, Command, Enter, MoveCircuit, RemoveBoard, RemoveCircuit
from domain.editing.reducer import apply
from domain.gate.assessment import assess
from domain.job.board import Board
from domain.job.box import boxes_of
from domain.job.circuit import Circuit
from domain.job.job import SECTIONS, Job
from domain.place import Place
from tests.builders import done
from tests.domain.checks.jobs import RCD_30, RING, SOUND_RADIAL, job
from tests.examples import examples

TEXTS = (
    *("", "0.01", "0.42", "1.9", "200", ">999", "<0.05", "LIM", "N/A", "✓", "✗", "2", "3", "0.8", "16", "500", "0.35"),
    *("AC", "A S", "B", "spare", "ring", "radial", "DB1", "DB2/1", "DB1/2", "TT", "TN-S", "BS EN 61009", "BS EN 60898"),
    *("supply to DB2", "sub-main", "Sockets", "Shower", "charging point", "electrode of its own", "industrial"),
)
_Drawn = tuple[int, int, str, str]
_MOVES: tuple[Callable[[Board, Circuit], Command], ...] = (
    lambda board, circuit: AddCircuit(board=board.id, after=circuit.id, like=circuit.id),
    lambda board, circuit: MoveCircuit(board=board.id, circuit=circuit.id, to=0),
    lambda board, circuit: RemoveCircuit(board=board.id, circuit=circuit.id),
    lambda board, _: RemoveBoard(board=board.id),
)
_BOXES = (
    *(f"circuit {box}" for box in boxes_of(Circuit)),
    *(f"board {box}" for box in boxes_of(Board)),
    *(f"{section} {box}" for section, kind in SECTIONS.items() for box in boxes_of(kind)),
    *(f"move {at}" for at in range(len(_MOVES))),
)
_EDITS = st.tuples(st.integers(0, 1), st.integers(0, 2), st.sampled_from(_BOXES), st.sampled_from(TEXTS))


def two_boards() -> Job:
    """A ring, a circuit that feeds the second board, and one behind an RCD; three radials there."""
    feeder = {"description": "supply to DB2", "rating": "50", "live_csa": "16", "cpc_csa": "16", "zs": "0.5"}
    below = {"id": "b2", "designation": "DB2", "supplied_from": "DB1/2", "phases": "1", "zs": "0.35", "ipf": "0.7"}
    ways = [SOUND_RADIAL | {"id": f"b2c{at}", "number": str(at)} for at in range(1, 4)]
    return job(RING, feeder, RCD_30, more_boards=[below | {"circuits": ways}])


def _edited(held: Job, drawn: _Drawn) -> Job:
    board_at, way_at, what, text = drawn
    owner, _, box = what.partition(" ")
    if owner in SECTIONS:
        return _done(held, Enter(place=Place(section=owner, box=box), text=text))
    if not held.boards:
        return held
    board = held.boards[board_at % len(held.boards)]
    if owner == "board":
        return _done(held, Enter(place=Place(section="boards", board=board.id, box=box), text=text))
    if not board.circuits:
        return held
    circuit = board.circuits[way_at % len(board.circuits)]
    if owner == "move":
        return _done(held, _MOVES[int(box)](board, circuit))
    place = Place(section="boards", board=board.id, circuit=circuit.id, box=box)
    return _done(held, Enter(place=place, text=text))


def _done(held: Job, command: Command) -> Job:
    after = apply(held, command)
    return after if isinstance(after, Job) else held


@given(st.lists(_EDITS, min_size=1, max_size=8))
@examples(0.2)
def test_after_any_edits_what_is_said_part_by_part_is_what_is_said_of_the_whole(edits: Sequence[_Drawn]) -> None:
    held, said = two_boards(), list[tuple[Job, object]]()
    for drawn in edits:
        said.append((held, assess(held)))
        held = _edited(held, drawn)
    said.append((held, assess(held)))
    for each, part_by_part in said:
        # Read anew, no part of it is one that was judged before.
        assert assess(Job.model_validate_json(each.model_dump_json())) == part_by_part


def _read(held: Job, circuit: str, zs: str) -> Job:
    return done(held, Enter(place=Place(section="boards", board="b1", circuit=circuit, box="zs"), text=zs))


def test_after_a_reading_only_its_circuit_and_its_board_are_judged_again() -> None:
    ways, boards = list[str](), list[str]()

    def way(_: Job, judged: Way) -> Iterator[str]:
        ways.append(judged.circuit.id)
        yield judged.circuit.zs.typed

    def board(_: Job, judged: WaysOfBoard) -> Iterator[str]:
        boards.append(judged.board.id)
        yield " ".join(each.circuit.zs.typed for each in judged.ways)

    of_ways, of_boards = way_by_way(way), board_by_board(board)
    held = two_boards()
    assert [len([*of_ways(held)]), len([*of_boards(held)])] == [6, 2]
    held, ways[:], boards[:] = _read(held, "c3", "0.77"), [], []
    assert [zs for _, zs in of_ways(held)][2] == "0.77"
    assert "0.77" in next(of_boards(held))[1]
    assert (ways, boards) == (["c3"], ["b1"])
    # The second circuit feeds the second board, and what is before a circuit is part of its surroundings.
    held, ways[:], boards[:] = _read(held, "c2", "0.45"), [], []
    assert [len([*of_ways(held)]), len([*of_boards(held)])] == [6, 2] == [len(ways), len(boards)]


def test_no_check_looks_at_what_the_surroundings_leave_out() -> None:
    looked_at = re.compile(rf"job\.({'|'.join(NOT_LOOKED_AT)})\b")
    rooms = Path(checks.__file__).parent.rglob("*.py")
    assert [each.name for each in rooms if looked_at.search(each.read_text(encoding="utf-8"))] == []
