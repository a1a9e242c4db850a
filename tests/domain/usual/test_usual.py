"""What circuits and boards usually hold: found by a letter or two, sound by the program's own checks, and never measured."""

from decimal import Decimal

import pytest

from domain.checks import findings_of
from domain.editing.usual_commands import FillBoard
from domain.forms.form_set import FormSet
from domain.job.board import Board
from domain.job.box import boxes_of, typed_in
from domain.job.circuit import RESULT_BOXES, Circuit
from domain.job.finding import Severity
from domain.job.job import SECTIONS
from domain.place import Place
from domain.usual.circuit_kinds import COUNTED, USUAL_BOXES, CircuitKind, circuit_kinds, kinds_begun, kinds_in
from domain.usual.filled_boards import FilledBoard, bare, boards_in, filled_boards
from domain.usual.phrases import phrases, phrases_begun, phrases_in
from tests.builders import complete_certificate, done, entered, fresh


@pytest.mark.parametrize(
    ("letters", "found"),
    [
        ("co", "Cooker"),
        ("cooker", "Cooker"),
        ("ring", "Sockets, kitchen"),
        ("li g", "Lights, ground floor"),
        ("so fi", "Sockets, first floor"),
        ("oven", "Cooker"),
        ("car", "Charging point"),
        ("IMM", "Immersion heater"),
        ("zz", ""),
        ("", ""),
    ],
)
def test_a_kind_of_circuit_is_found_by_a_letter_or_two(letters: str, found: str) -> None:
    first, *_ = (*(kind.description for kind in kinds_begun(letters, None)), "")
    assert first == found


def test_a_kind_of_the_firm_stands_before_the_programs_own_of_that_name() -> None:
    own = Board.model_validate(
        {"circuits": [{"number": "1", "description": "cooker", "live_csa": "10", "rating": "40"}]}
    )
    (first, *others) = kinds_begun("cook", None, (own,))
    assert (first.details["live_csa"], first.details["rating"]) == ("10", "40")
    assert "Cooker" not in [kind.description for kind in others]


def test_on_a_board_of_breakers_a_kind_comes_behind_a_breaker_and_the_rcd_of_the_others() -> None:
    (dual,) = (each.board for each in filled_boards() if each.name == "House, 8 ways, two RCDs")
    (cooker, *_) = kinds_begun("cook", dual)
    assert cooker.details["device_standard"] == "BS EN 60898"
    assert cooker.details["rcd_standard"] == "BS EN 61008"
    assert "rcd_rating" not in cooker.details
    (of_rcbo, *_) = kinds_begun("cook", None)
    assert of_rcbo.details["rcd_rating"] == of_rcbo.details["rating"] == "32"


@pytest.mark.parametrize("usual", filled_boards(), ids=lambda usual: usual.name)
def test_a_board_that_comes_filled_holds_nothing_counted_or_measured(usual: FilledBoard) -> None:
    assert bare(usual.board) == usual.board
    assert len({each.number for each in usual.board.circuits}) == len(usual.board.circuits)
    for circuit in usual.board.circuits:
        assert not any(typed_in(circuit, name) for name in (*RESULT_BOXES, *COUNTED))


@pytest.mark.parametrize("usual", filled_boards(), ids=lambda usual: usual.name)
def test_nothing_fails_on_a_board_that_comes_filled(usual: FilledBoard) -> None:
    supply = {
        "system": "TN-C-S",
        "live_conductors": f"AC {'3-phase 4' if usual.board.phases == '3' else '1-phase 2'}-wire",
    }
    job = entered(fresh(FormSet.EIC), supply, section="supply")
    job = done(job, FillBoard(board="b1", known_from=usual.name, usual=usual.board))
    found = {each.says for each in findings_of(job) if each.severity is not Severity.NOTE}
    assert all("charging point" in says and "PME" in says for says in found)


@pytest.mark.parametrize("kind", circuit_kinds(), ids=lambda kind: kind.description)
def test_the_usual_cable_carries_what_its_usual_device_lets_through(kind: CircuitKind) -> None:
    # Flat twin and earth clipped direct: BS 7671 Table 4D5, method C, from memory; a final ring by 433.1.204.
    carries = {"1.5": "20", "2.5": "27", "4": "37", "6": "47", "10": "64"}
    if kind.details["shape"] == "ring":
        assert (kind.details["live_csa"], kind.details["cpc_csa"], kind.details["rating"]) == ("2.5", "1.5", "32")
    elif kind.details["wiring"] == "A":
        assert Decimal(carries[kind.details["live_csa"]]) >= Decimal(kind.details["rating"])


def test_a_table_without_a_source_or_with_what_is_never_usual_is_refused() -> None:
    with pytest.raises(ValueError, match="source"):
        kinds_in("every = {}\nkind = []")
    with pytest.raises(ValueError, match="source"):
        boards_in("board = []")
    with pytest.raises(ValueError, match="source"):
        phrases_in("phrase = []")
    with pytest.raises(ValueError, match="never usual"):
        kinds_in('source = "x"\nevery = {}\n[protection.rcbo]\n[[kind]]\ndescription = "Cooker"\nlength = "12"')
    with pytest.raises(KeyError, match="Sauna"):
        boards_in('source = "x"\n[[board]]\nname = "b"\nprotection = "rcbo"\nways = ["Sauna"]')
    with pytest.raises(KeyError, match="no box"):
        phrases_in('source = "x"\n[[phrase]]\nboxes = ["work.colour"]\ntexts = ["red"]')


def test_what_a_firm_keeps_of_a_board_is_neither_read_nor_counted_nor_of_its_place() -> None:
    (board,) = complete_certificate().boards
    kept = bare(board)
    assert [each.description for each in kept.circuits] == [each.description for each in board.circuits]
    assert kept.circuits[0].live_csa == board.circuits[0].live_csa
    (first, *_) = kept.circuits
    assert not any(typed_in(first, name) for name in boxes_of(Circuit) if name not in USUAL_BOXES)
    assert (kept.location, kept.tested_by, kept.zs.typed, kept.designation) == ("", "", "", "")


def test_a_phrase_is_found_by_a_letter_and_only_in_its_own_box() -> None:
    at = Place(section="report", box="reason")
    assert phrases_begun(at, "th")[0] == "The interval has run out"
    assert phrases_begun(at, "ten") == ("A new tenancy",)
    assert phrases_begun(at, "") == phrases_begun(Place(section="client", box="name"), "th") == ()


def test_no_phrase_stands_in_a_box_for_a_reading() -> None:
    assert not any(boxes_of(SECTIONS[section])[box].is_measured for section, box in phrases())
