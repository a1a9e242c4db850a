"""What the checks make of a reading that is no plain figure: each box of the two schedules, each kind of reading."""

import pytest

from domain.checks import findings_of
from domain.forms.form_set import FormSet
from domain.job.board import Board
from domain.job.box import BoxKind, boxes_of
from domain.job.circuit import Circuit
from domain.job.earthing import Earthing
from domain.job.finding import Severity
from domain.job.job import Job
from domain.job.supply import Supply
from tests.domain.checks.installations import INSTALLATIONS, job_of

OVER, UNDER, ZERO, NOT_APPLICABLE, LIM = ">99", "<99", "0.00", "N/A", "LIM"
FORMS = (OVER, UNDER, ZERO, NOT_APPLICABLE, LIM)
SILENT = frozenset(
    {
        # Over the range of an insulation tester is as good as it gets, and under it is judged as a figure.
        ("ir_live", OVER), ("ir_earth", OVER),
        # A run of some centimetres may read as nothing; an end of a ring may not.
        ("r1_r2", ZERO),
        # R1+R2 stands in place of R2, and R2 of nothing is a run of centimetres.
        ("r2", ZERO), ("r2", NOT_APPLICABLE),
        # Lives joined, an RCD tested elsewhere, no electrode: the help of each box says when.
        ("ir_live", NOT_APPLICABLE), ("electrode_resistance", NOT_APPLICABLE), ("board rcd_time", NOT_APPLICABLE),
    }
)  # fmt: skip
"""What no check says anything of, each for the reason above it; LIM on a certificate is refused by the box itself."""


def boxes() -> list[tuple[str, str]]:
    circuit = [("CU 4", name) for name, box in boxes_of(Circuit).items() if box.kind is BoxKind.READING]
    board = [("CU", name) for name, box in boxes_of(Board).items() if box.kind is BoxKind.READING]
    supply = [("supply", name) for name, box in boxes_of(Supply).items() if box.kind is BoxKind.READING]
    earthing = [("earthing", name) for name, box in boxes_of(Earthing).items() if box.kind is BoxKind.READING]
    return [*circuit, *board, *supply, *earthing]


def with_reading(owner: str, box: str, typed: str) -> Job:
    """A new house, one ring of it, its board with an RCD and its earth with an electrode where the box is about them."""
    change = {f"{owner} {box}": typed}
    if (owner, box) == ("CU", "rcd_time"):
        change |= {"CU rcd_type": "A S", "CU rcd_idn": "100", "CU rcd_rating": "100"}
    if box == "r2" and typed != ZERO:
        change |= {"CU 4 r1_r2": "N/A"}
    return job_of({"name": "with a reading", "installation": "new house", "change": change})


def at(job: Job, owner: str, box: str) -> list[Severity]:
    """What is found at the box, or of what it is held against."""
    return [
        each.severity for each in findings_of(job) if each.place.box == box or _is_held_against(each.place.box, box)
    ]


def _is_held_against(found_at: str, box: str) -> bool:
    return box == "ipf" and found_at == "breaking_capacity"


@pytest.mark.parametrize("typed", FORMS)
@pytest.mark.parametrize(("owner", "box"), boxes())
def test_no_reading_slips_by_for_being_no_figure(owner: str, box: str, typed: str) -> None:
    job = with_reading(owner, box, typed)
    name = f"board {box}" if owner == "CU" else box
    refused = bool(boxes_of(_owner(owner))[box].problem(typed, FormSet.EIC))
    holds = any(severity is not Severity.NOTE for severity in at(job, owner, box))
    assert (holds or refused) is not ((name, typed) in SILENT), (holds, refused)


def _owner(owner: str) -> type[Circuit] | type[Board] | type[Supply] | type[Earthing]:
    return {"CU 4": Circuit, "CU": Board, "supply": Supply, "earthing": Earthing}[owner]


@pytest.mark.parametrize("typed", FORMS)
def test_every_box_of_every_sound_job_takes_every_kind_of_reading_without_a_fall(typed: str) -> None:
    """Each with the changed circuit and the one beside it: what is found of the others is the same each time."""
    for case in INSTALLATIONS.values():
        job = job_of(case)
        for board in job.boards:
            row = board.circuits[0]
            for name, box in boxes_of(Circuit).items():
                if box.kind in {BoxKind.READING, BoxKind.NUMBER}:
                    changed = row.model_validate(row.model_dump() | {name: typed})
                    circuits = (changed, *board.circuits[1:2])
                    boards = tuple(
                        each.model_copy(update={"circuits": circuits}) if each is board else each for each in job.boards
                    )
                    assert isinstance(findings_of(job.model_copy(update={"boards": boards})), tuple)


@pytest.mark.parametrize(
    ("box", "typed"),
    [
        ("rating", "0"),
        ("rating", "<32"),
        ("rating", "-6"),
        ("live_csa", "0.0"),
        ("cpc_csa", "0"),
        ("test_voltage", "0"),
        ("breaking_capacity", "0"),
        ("rcd_idn", "0"),
        ("rcd_rating", "0"),
        ("design_current", "0"),
        ("length", "<9"),
    ],
)
def test_what_cannot_be_is_refused_where_it_is_typed(box: str, typed: str) -> None:
    assert boxes_of(Circuit)[box].problem(typed, FormSet.EIC)
