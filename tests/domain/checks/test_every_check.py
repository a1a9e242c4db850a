import ast
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import domain
from domain.checks import findings_of
from domain.checks.shared.circuits_in_use import ways_in_use
from domain.checks.shared.expected import expected_of
from domain.edition import Edition
from domain.figures.limits.loader import table
from domain.forms.form_set import FormSet
from domain.job.board import Board
from domain.job.box import BoxKind, boxes_of
from domain.job.circuit import Circuit
from domain.job.earthing import Earthing
from domain.job.main_switch import MainSwitch
from domain.job.people import Premises
from domain.job.place_in_words import box_at
from domain.job.reading import READING_MAX
from domain.job.supply import Supply
from domain.job.work import Work
from domain.value import LINE_MAX, cleaned
from tests.domain.checks.jobs import RCD_30, RING, job
from tests.examples import examples

TYPED = st.one_of(
    st.sampled_from(["", "N/A", "LIM", "N/V", "y", "n", "0", "0.00", "-0.3", ">999", "<0.01", ">0", "9999999.9999"]),
    st.from_regex(r"[<>≥≤]?\s?-?[0-9]{0,7}[.,]?[0-9]{0,4}", fullmatch=True),
    st.text(max_size=READING_MAX),
).map(lambda text: cleaned(text)[:READING_MAX])
WORDS = st.one_of(
    st.sampled_from(
        [
            "",
            "BS EN 60898",
            "BS EN 61009",
            "BS 88-3",
            "BS 3036",
            "BS 1361",
            "B",
            "C",
            "S",
            "N/A",
            "ring",
            "radial",
            "spare",
            "TT",
            "TN-S",
            "TN-C-S",
            "IT",
            "origin",
            "DB1 / 1",
            "1",
            "3",
            "enquiry",
            "BS 4293",
            "Sockets, ring main",
            "Lights",
            "Shower",
            "EV charge point",
            "Submain to DB1",
            "A",
            "F",
            "method 101",
            "AC",
            "domestic",
            "student HMO",
            "electrode",
            "distributor's facility",
            "copper",
            "AC 3-phase 4-wire",
            "AC 1-phase 2-wire",
            "16/10/2026",
            "new",
        ]
    ),
    st.text(max_size=40),
).map(lambda text: cleaned(text)[:LINE_MAX])


def filled(owner: type) -> st.SearchStrategy[dict[str, str]]:
    readings = {BoxKind.NUMBER, BoxKind.READING, BoxKind.TICK}
    return st.fixed_dictionaries(
        {}, optional={name: TYPED if box.kind in readings else WORDS for name, box in boxes_of(owner).items()}
    )


@examples(0.5)
@given(
    circuits=st.lists(filled(Circuit), max_size=5),
    board=filled(Board),
    supply=filled(Supply),
    switch=filled(MainSwitch),
    earthing=filled(Earthing),
    premises=filled(Premises),
    work=filled(Work),
    form_set=st.sampled_from([each.value for each in FormSet]),
    edition=st.sampled_from([each.value for each in Edition]),
)
def test_no_typed_text_makes_a_check_raise(
    circuits: list[dict[str, str]],
    board: dict[str, str],
    supply: dict[str, str],
    switch: dict[str, str],
    earthing: dict[str, str],
    premises: dict[str, str],
    work: dict[str, str],
    form_set: str,
    edition: str,
) -> None:
    second = {"id": "b2", "circuits": [{"id": "c90", **each} for each in circuits[:1]], **board}
    made = job(
        *circuits,
        board=board,
        supply=supply,
        main_switch=switch,
        earthing=earthing,
        premises=premises,
        work=work,
        form_set=form_set,
        edition=edition,
        more_boards=[second],
    )
    for finding in findings_of(made):
        assert finding.says
        assert finding.place.box
        assert box_at(made, finding.place)
    for way in ways_in_use(made):
        expected_of(made, way)


@pytest.mark.parametrize("mark", ["", "LIM", "n/v"])
@pytest.mark.parametrize("box", [name for name, box in boxes_of(Circuit).items() if box.kind is not BoxKind.LINE])
def test_an_empty_box_or_a_limitation_never_has_a_finding_of_its_own(box: str, mark: str) -> None:
    made = job(RING | RCD_30 | {box: mark}, form_set="EICR")
    assert [each for each in findings_of(made) if each.place.box == box] == []


def test_a_sound_job_has_no_findings_at_all() -> None:
    assert findings_of(job({}, RING, RCD_30)) == ()


def test_a_fresh_job_has_gaps_and_no_findings() -> None:
    empty = dict.fromkeys(boxes_of(Circuit), "")
    assert findings_of(job(empty, supply=dict.fromkeys(boxes_of(Supply), ""), board={"zs": "", "ipf": ""})) == ()


FREE = {"0", "1", "2", "3", "4", "1000", "0.001", "512", "1024"}
"""Counts, thousands, places and cache sizes; no figure of the standard is written with them."""


def test_no_figure_of_a_table_stands_in_the_checks_or_formulas() -> None:
    rooms = [Path(domain.__file__).parent / room for room in ("checks", "figures/formulas", "figures/limits")]
    files = [file for room in rooms for file in room.rglob("*.py")]
    written = {figure for file in files for figure in figures_in(file.read_text(encoding="utf-8"))}
    assert files
    assert written - FREE == set()


def figures_in(code: str) -> set[str]:
    """Numbers written as such, and texts made into a Decimal."""
    nodes = list(ast.walk(ast.parse(code)))
    bare = {str(node.value) for node in nodes if isinstance(node, ast.Constant) and type(node.value) in {int, float}}
    made = {
        str(node.args[0].value)
        for node in nodes
        if isinstance(node, ast.Call) and ast.unparse(node.func) == "Decimal" and isinstance(node.args[0], ast.Constant)
    }
    return bare | made


def test_the_search_for_figures_finds_them() -> None:
    assert figures_in('limit = Decimal("1.37") if zs > 0.87 else 32') == {"1.37", "0.87", "32"}


def test_the_tables_are_read_once() -> None:
    assert table("zs_breakers", Edition.A2) is table("zs_breakers", Edition.A2)
