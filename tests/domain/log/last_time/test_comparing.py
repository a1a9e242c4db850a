"""What changed since the last visit, and what deserves a question.

That insulation lost by half, and a resistance risen beyond what two instruments and a warmer day explain, deserve a
question is common practice; the widths stand in `last_time.toml` and no publication is known for them.
"""

from decimal import Decimal

import pytest

from domain.editing.commands import Observe
from domain.inspection.observation import Code
from domain.job.job import Job
from domain.log.last_time.comparing import ReadingTrend, came_back, changes_of
from domain.log.last_time.matching import matched
from domain.place import Place
from tests.builders import complete_certificate, complete_report, done, entered


def change_of(box: str, was: str, now: str) -> ReadingTrend:
    before, after = (circuit_with(box, text) for text in (was, now))
    changes = changes_of(after, before, matched(after, before))
    return next(each for each in changes if each.place.box == box and each.place.circuit == "c2")


def circuit_with(box: str, text: str) -> Job:
    return entered(complete_certificate(sign=False), {box: text}, board="b1", circuit="c2")


@pytest.mark.parametrize(
    ("box", "was", "now", "asks"),
    [
        ("ir_earth", "200", "100", False),
        ("ir_earth", "200", "99.9", True),
        ("ir_earth", ">999", "600", False),
        ("ir_earth", ">999", "499", True),
        ("ir_live", ">999", ">500", False),
        ("ir_live", "200", "LIM", False),
        ("zs", "0.49", "0.64", False),
        ("zs", "0.49", "0.65", True),
        ("zs", "0.65", "0.49", False),
        ("zs", "0.49", ">20", True),
        ("r1_r2", "0.28", "0.39", False),
        ("r1_r2", "0.28", "0.41", True),
        ("rcd_time", "24", "36", False),
        ("rcd_time", "24", "37", True),
        ("rcd_time", "24", ">300", True),
    ],
)
def test_only_a_change_beyond_measuring_deserves_a_question(box: str, was: str, now: str, asks: bool) -> None:
    change = change_of(box, was, now)
    assert bool(change.asks) is asks
    if asks:
        assert was in change.asks
        assert now in change.asks
        assert "(common practice)" in change.source.cited


def test_a_change_is_told_with_its_sign() -> None:
    assert change_of("zs", "0.49", "0.45").difference == Decimal("-0.04")
    assert change_of("ir_earth", ">999", "200").difference is None


def test_the_origin_and_the_boards_are_compared_too() -> None:
    before = complete_certificate(sign=False)
    after = entered(entered(before, {"ze": "0.35"}, section="supply"), {"zs": "0.22"}, board="b1")
    changes = {each.place: each for each in changes_of(after, before, matched(after, before))}
    assert changes[Place(section="supply", box="ze")].asks
    assert changes[Place(section="boards", board="b1", box="zs")].difference == Decimal("0.01")


def test_a_board_renamed_is_the_same_board_where_there_is_but_one() -> None:
    before = complete_certificate(sign=False)
    after = entered(before, {"designation": "CU"}, board="b1")
    changes = changes_of(after, before, matched(after, before))
    assert all(each.was == each.now for each in changes)


def test_a_code_on_the_same_item_or_in_like_words_came_back() -> None:
    before = done(complete_report(), Observe(finding="Cover loose at the board", code=Code.C2, items=("4.4",)))
    same = done(complete_report(), Observe(finding="No blank in way 5", code=Code.C1, items=("4.4", "4.5")))
    alike = done(complete_report(), Observe(finding="cover loose at board", code=Code.C2))
    other = done(complete_report(), Observe(finding="Bonding missing", code=Code.C2, items=("3.6",)))
    assert [(each.now.code, each.was.code) for each in came_back(same, before)] == [(Code.C1, Code.C2)]
    assert len(came_back(alike, before)) == 1
    assert came_back(other, before) == ()
