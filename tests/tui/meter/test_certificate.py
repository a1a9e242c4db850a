"""Whole jobs keyed in by hands that know the program: how many keys, and how many bytes they cost.

`python -m tests.tui.meter` keys in the whole of it, and more is told; here the last circuits of one that is begun.
"""

import getpass
from collections import defaultdict
from pathlib import Path

import pytest

from domain.checks import findings_of
from domain.editing.commands import SetOutcome
from domain.gate.assessment import assess
from domain.gate.reason import ReasonKind
from domain.job.circuit import RESULT_BOXES, Circuit
from domain.job.earthing import Earthing
from domain.job.job import Job
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, done
from tests.tui.meter.asked import FEW, MOST_BYTES, spread
from tests.tui.meter.certificate import RESULTS, STAGES, Certificate
from tests.tui.meter.house import house, marks_of, same
from tests.tui.meter.jobs import Keyed, keyed_jobs
from tests.tui.meter.presses import Hands, Kind
from tests.tui.terminal import Terminal

BEGUN = 15
"""Circuits that are there already; the others are more of the same, but not their readings."""
RING_READ = 10
"""Readings of the ring, from its ends on, that are still to be typed."""
KEYS_BESIDE_TEXT = 1
"""Keys a reading, beside the characters of the reading itself: one keeps it and goes on."""


@pytest.fixture(scope="module")
def begun() -> Job:
    """The certificate with its earthing, a ring and its last circuits still to be typed."""
    job = house()
    (board,) = job.boards
    untested = {name: Circuit.model_fields[name].get_default() for name in RESULT_BOXES[:RING_READ]}
    ring = board.circuits[2].model_copy(update=untested)
    board = board.model_copy(update={"circuits": (*board.circuits[:2], ring, *board.circuits[3:BEGUN])})
    job = job.model_copy(update={"boards": (board,), "earthing": Earthing()})
    return done(job, *(SetOutcome(item=item, mark=mark) for item, mark in list(marks_of(house()).items())[2:]))


def test_nothing_is_found_on_what_is_keyed_in() -> None:
    assert not findings_of(house())


@pytest.mark.parametrize("keyed", keyed_jobs(), ids=lambda keyed: keyed.name)
def test_a_whole_job_takes_few_keys_and_comes_out_as_it_was_meant(keyed: Keyed) -> None:
    hands = keyed.hands
    strokes = list(hands.strokes())
    assert same(hands.job, keyed.wanted)
    assert {reason.kind for reason in assess(hands.job, ()).reasons} == {ReasonKind.SIGNATURE}
    assert len(strokes) <= keyed.keys
    on_results = [stroke for stroke in strokes if stroke.stage == RESULTS]
    beside_text = sum(stroke.kind is not Kind.LETTER for stroke in on_results)
    assert beside_text <= KEYS_BESIDE_TEXT * sum(stroke.fills for stroke in on_results)


def test_a_certificate_is_keyed_in_to_its_issue_with_few_bytes_a_key(tmp_path: Path, begun: Job) -> None:
    log = SqliteJobLog.open(tmp_path)
    number = log.create(begun, who=getpass.getuser(), at=AT).number
    certificate = Certificate(house(), begun)
    with Terminal(home=tmp_path) as terminal:
        terminal.until("or go on with a job", number)
        terminal.press("enter").until("F3 Details")
        hands = Hands(terminal)
        for stage in STAGES[1:]:
            hands.press(getattr(certificate, stage)())
        assert {reason.kind for reason in assess(certificate.job, ()).reasons} == {ReasonKind.SIGNATURE}
        terminal.until("SHA-256", "issued")
    assert same(log.load(number), house())
    log.close()
    costs: dict[str, list[int]] = defaultdict(list)
    for press in hands.presses:
        costs[press.stroke.kind].append(press.bytes)
    spreads = {kind: spread(costs[kind]) for kind in MOST_BYTES if len(costs[kind]) >= FEW}
    assert {Kind.LETTER, Kind.CELL, Kind.KEPT} <= spreads.keys()
    assert not {kind: of for kind, of in spreads.items() if not MOST_BYTES[kind].holds(of)}
    assert not [press.stroke for press in hands.presses if not press.answer]
