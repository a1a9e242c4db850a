"""A sound installation with any text typed into any of its boxes: the checks answer, and never raise."""

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from domain.checks import findings_of
from domain.checks.compared.references import implied_length, references_of
from domain.checks.shared.circuits_in_use import ways_in_use
from domain.checks.shared.expected import expected_of
from domain.job.board import Board
from domain.job.box import BoxKind, boxes_of
from domain.job.circuit import Circuit
from domain.job.job import SECTIONS, Job
from domain.job.place_in_words import box_at
from tests.domain.checks.installations import INSTALLATIONS, job_of
from tests.domain.checks.test_every_check import TYPED, WORDS
from tests.examples import examples

SOUND = {name: job_of(told).model_dump(mode="json") for name, told in INSTALLATIONS.items()}
OWNERS = {"board": Board, "circuit": Circuit, **SECTIONS}
BOXES = [(owner, box) for owner, made in OWNERS.items() for box in boxes_of(made)]  # type: ignore[arg-type]


def text_for(owner: str, box: str) -> st.SearchStrategy[str]:
    kind = boxes_of(OWNERS[owner])[box].kind
    return TYPED if kind in {BoxKind.NUMBER, BoxKind.READING, BoxKind.TICK} else WORDS


CHANGE = st.sampled_from(BOXES).flatmap(
    lambda place: st.tuples(st.just(place), text_for(*place), st.integers(0, 30), st.integers(0, 30))
)


@examples(1)
@given(name=st.sampled_from(sorted(SOUND)), changes=st.lists(CHANGE, min_size=1, max_size=8))
def test_no_text_in_any_box_of_a_sound_installation_makes_a_check_raise(
    name: str, changes: list[tuple[tuple[str, str], str, int, int]]
) -> None:
    document: dict[str, Any] = {**SOUND[name], "boards": [dict(each) for each in SOUND[name]["boards"]]}
    for board in document["boards"]:
        board["circuits"] = [dict(each) for each in board["circuits"]]
    for (owner, box), text, which, row in changes:
        board = document["boards"][which % len(document["boards"])]
        if owner == "board":
            board[box] = text
        elif owner == "circuit":
            board["circuits"][row % len(board["circuits"])][box] = text
        else:
            document[owner] = {**document[owner], box: text}
    made = Job.model_validate(document)
    for finding in findings_of(made):
        assert finding.says
        assert box_at(made, finding.place)
    for way in ways_in_use(made):
        expected_of(made, way)
        references_of(made, way)
        implied_length(way, made.edition)
