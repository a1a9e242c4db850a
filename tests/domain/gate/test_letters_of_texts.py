"""Texts outside the boxes: a letter that no font of the papers has holds a paper back wherever it would be printed."""

from datetime import date
from typing import Any

import pytest

from domain.gate.letter_gaps import letter_gaps
from domain.inspection.observation import Code, ImmediateAction, Observation
from domain.job.explanation import Explanation
from domain.job.job import Job
from domain.job.snag import Cleared, Snag
from domain.place import Place
from tests.builders import AT, INSPECTOR, ON, complete_report, done
from tests.domain.gate.changed import written

ODD = "漢"
PLAIN = {
    "observations": (
        Observation(id="o1", finding="Rust", code=Code.C1, where="Hall", reason="Seen", action=ImmediateAction(made_safe=True, how="Isolated", told="The tenant", told_at="noon")),
        Observation(id="o2", finding="Rust", code=Code.C3),
    ),
    "snags": (
        Snag(id="s1", what="Grommet", where="Hall", raised_by=INSPECTOR, raised_on=ON, cleared=Cleared(by=INSPECTOR, on=ON, how="Fitted")),
        Snag(id="s2", what="Label", raised_by=INSPECTOR, raised_on=ON),
    ),
    "explanations": (Explanation(check="insulation", place=Place(section="boards", board="b1", box="zs"), reason="Long run", by=INSPECTOR, on=date(2026, 3, 2)),),
}  # fmt: skip


def with_texts() -> Job:
    """A report in which every text outside the boxes says something."""
    job = written(
        complete_report(sign=False),
        {"document": {"own_items": [{"item": "A1", "title": "Lift", "regulations": "132"}]}},
    )
    return done(job).model_copy(update=PLAIN)


SOUND = with_texts()
SIGNED = complete_report()


@pytest.mark.parametrize(
    ("path", "place"),
    [
        ("chosen/because", {"section": "chosen"}),
        ("replaces", {"section": "signatures"}),
        ("replaces_because", {"section": "signatures"}),
        ("own_items/A1/title", {"section": "inspection", "item": "A1"}),
        ("own_items/A1/regulations", {"section": "inspection", "item": "A1"}),
        ("inspection/4.3/note", {"section": "inspection", "item": "4.3"}),
        ("observations/o1/finding", {"observation": "o1"}),
        ("observations/o1/where", {"observation": "o1"}),
        ("observations/o2/reason", {"observation": "o2"}),
        ("observations/o1/action/told", {"observation": "o1"}),
        ("snags/s2/what", {"snag": "s2"}),
        ("snags/s1/where", {"snag": "s1"}),
        ("snags/s1/raised_by", {"snag": "s1"}),
        ("snags/s1/cleared/how", {"snag": "s1"}),
        ("snags/s1/cleared/by", {"snag": "s1"}),
    ],
)
def test_a_letter_that_cannot_be_printed_is_told_at_the_place_of_its_text(path: str, place: dict[str, str]) -> None:
    (found,) = letter_gaps(written(SOUND, {"document": {path: f"Plain {ODD}"}}))
    assert found.place == Place.model_validate(place)
    assert found.says.endswith(f"“{ODD}” (U+6F22) is in no font of the paper; write it with other letters")


@pytest.mark.parametrize("text", ["reason", "by"])
def test_a_reason_given_to_a_check_is_told_at_the_box_it_is_about(text: str) -> None:
    (given,) = SOUND.explanations
    odd = given.model_copy(update={text: f"Plain {ODD}"})
    assert [each.place for each in letter_gaps(SOUND.model_copy(update={"explanations": (odd,)}))] == [given.place]


@pytest.mark.parametrize("text", ["name", "position", "firm"])
def test_a_signature_is_told_by_its_part(text: str) -> None:
    changed: dict[str, Any] = {"document": {f"signatures/authorised for issue/{text}": f"Plain {ODD}"}}
    (found,) = letter_gaps(written(SIGNED, changed))
    assert found.place == Place(section="signatures", box="authorised for issue")


def test_texts_that_can_be_printed_hold_nothing() -> None:
    assert SIGNED.signatures[0].at == AT
    assert [*letter_gaps(SOUND), *letter_gaps(SIGNED)] == []
