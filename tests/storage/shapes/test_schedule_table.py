"""The schedules as a table: a row a circuit, and no cell that a spreadsheet would run."""

import csv
import io

import pytest

from domain.editing.commands import AddBoard, AddCircuit
from domain.job.box import shown_in
from storage.shapes.schedule_table import plain, schedule_table
from tests.builders import RADIAL_CIRCUIT, complete_certificate, complete_minor_works, done, entered
from tests.storage.paper.test_hostile_texts import TEXTS


def _rows(job) -> list[dict[str, str]]:
    table = schedule_table(job)
    assert table is not None
    return list(csv.DictReader(io.StringIO(table.decode("utf-8-sig"), newline="")))


def test_each_circuit_of_each_board_has_a_row_with_its_readings():
    job = done(complete_certificate(), AddBoard())
    board = job.boards[-1].id
    job = entered(job, {"designation": "DB2"}, board=board)
    job = done(job, AddCircuit(board=board))
    job = entered(job, RADIAL_CIRCUIT, board=board, circuit=job.boards[-1].circuits[-1].id)
    table = schedule_table(job)
    assert table is not None
    heads = next(csv.reader(io.StringIO(table.decode("utf-8-sig"), newline="")))
    assert len(set(heads)) == len(heads)
    rows = _rows(job)
    assert [row["Board"] for row in rows] == [board.name for board, _ in job.circuits()]
    for row, (_, circuit) in zip(rows, job.circuits(), strict=True):
        for name in ("number", "description", "zs", "ir_live", "rating"):
            assert shown_in(circuit, name) in row.values() or not shown_in(circuit, name)


def test_minor_works_have_no_schedules():
    assert schedule_table(complete_minor_works()) is None


# Common practice against cells that a spreadsheet takes for a formula: an apostrophe before = + - @, tab and return.
@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("=1+1", "'=1+1"),
        ("+44 20", "'+44 20"),
        ("-1", "'-1"),
        ("@SUM(A1)", "'@SUM(A1)"),
        ("\t=1", "'\t=1"),
        ("\r=1", "'\r=1"),
        ("  =1", "'  =1"),
        ("＝1", "'＝1"),
        ("0.49", "0.49"),
        (">999", ">999"),
        ("–", "–"),
        ("", ""),
        ("N/A", "N/A"),
        ("a=b", "a=b"),
    ],
)
def test_what_could_be_a_formula_is_text(typed: str, kept: str):
    assert plain(typed) == kept


@pytest.mark.parametrize("text", [*TEXTS, '=HYPERLINK("http://example.invalid","x")', '"a",b;c\nd', "@x", "-2+3"])
def test_any_text_comes_back_from_the_table_as_typed(text: str):
    typed = text.replace("\n", " ")
    job = entered(complete_certificate(sign=False), {"description": typed}, board="b1", circuit="c2")
    table = schedule_table(job)
    assert table is not None
    assert table.startswith(b"\xef\xbb\xbf")
    (row, *others) = _rows(job)
    assert len(others) == len(job.circuits()) - 1
    shown = shown_in(job.boards[0].circuits[0], "description")
    assert shown in {text for value in row.values() for text in (value, value.removeprefix("'"))}
    for cell in row.values():
        assert not cell.startswith(("=", "+", "-", "@", "\t", "\r"))
