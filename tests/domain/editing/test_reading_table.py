"""Readings from tables of any layout land as typed, in the circuit they are of, or not at all."""

import pytest

from domain.editing.reading_table import ReadIn, ReadingTableError, columns_in, read_in, rows_in
from tests.builders import complete_certificate, done

COLUMNS = "number=Way; r1_r2=R1 + R2; zs=Zs (Ω); ir_live=IR L-L"


def table(document: str | bytes, columns: str = COLUMNS, *, board: str = "", job=None) -> ReadIn:
    held = document if isinstance(document, bytes) else document.encode()
    return read_in(job or complete_certificate(), rows_in(held, columns_in(columns)), board)


@pytest.mark.parametrize(
    "document",
    [
        "Way,R1 + R2,Zs (Ω),IR L-L\n1,0.31,0.52,>999\n2,,,\n",
        "Tested at,Wetherham\n\nDate;2 March\nZs (Ω);note;WAY;IR L-L;r1 +  r2\n0.52;x;1;>999;0.31\n",
        "\ufeffWay\tR1 + R2\tZs (Ω)\tIR L-L\r\n1\t0.31\t0.52\t>999\r\n\t9\t9\t9\r\n",
    ],
    ids=["commas", "headings further down, other order, semicolons", "tabs, a byte order mark, a row without a number"],
)
def test_texts_are_taken_as_they_stand_whatever_the_layout(document):
    made = table(document)
    assert made.problems == ()
    assert [(each.where, each.command.text, each.was) for each in made.taken] == [
        ("Circuit 1, R1+R2", "0.31", "0.28"),
        ("Circuit 1, Measured Zs", "0.52", "0.49"),
    ]
    assert len(made.overwrites) == 2


def test_what_is_read_in_is_what_keys_would_have_typed():
    made = table('Way,R1 + R2,Zs (Ω),IR L-L\n2,"0,96",>1.2,LIM\n')
    assert [problem.split(": ")[0] for problem in made.problems] == ["Line 2"]
    assert "LIM belongs on reports only" in made.problems[0]
    job = done(complete_certificate(), *(each.command for each in made.taken))
    circuit = job.boards[0].circuits[1]
    assert (circuit.r1_r2.typed, circuit.zs.typed, circuit.ir_live.typed) == ("0,96", ">1.2", ">999")


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ("9,0.3,0.5,>999", "no circuit of DB1 has number 9"),
        ("1,about a third,0.5,>999", "Circuit 1, R1+R2"),
        ("1,0.3,0.5,>999\n1,0.3,0.5,>999", "circuit 1 has been given before"),
    ],
)
def test_a_row_that_fits_no_circuit_or_a_text_that_cannot_stand_is_told_with_its_line(row, says):
    problems = table(f"Way,R1 + R2,Zs (Ω),IR L-L\n{row}\n").problems
    assert any(says in problem for problem in problems), problems
    assert all(problem.startswith("Line ") for problem in problems)


def test_a_row_says_its_board_by_a_column_or_by_the_word_of_the_person():
    columns = f"{COLUMNS}; board=Board"
    assert table("Board,Way,R1 + R2,Zs (Ω),IR L-L\ndb1,1,0.31,,\n", columns).problems == ()
    assert "say which board" in table("Board,Way,R1 + R2,Zs (Ω),IR L-L\nDB7,1,0.31,,\n", columns).problems[0]
    assert "say which board" in table("Way,R1 + R2,Zs (Ω),IR L-L\n1,0.31,,\n", board="DB7").problems[0]


@pytest.mark.parametrize(
    ("columns", "says"),
    [
        ("zs=Zs", "number=HEADING"),
        ("number=Way; zs", "says no column"),
        ("number=Way; volts=V", "no box 'volts'"),
        ("number=Way; zs=A; zs=B", "two columns"),
    ],
)
def test_a_mapping_that_says_too_little_or_names_no_box_is_refused(columns, says):
    with pytest.raises(ReadingTableError, match=says):
        columns_in(columns)


@pytest.mark.parametrize("document", [b"", b"\0\0\0", b"Way,Zs\n1,0.5\n", b'"Way,R1 + R2\n'])
def test_a_file_without_the_headings_is_no_table(document):
    with pytest.raises(ReadingTableError, match="No line of it holds all these headings"):
        rows_in(document, columns_in(COLUMNS))
