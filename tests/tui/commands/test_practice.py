"""`practice`: how somebody's practice stands, as text, JSON and PDF."""

from pathlib import Path

import pytest

from domain.coach.answered import TOPIC, given_to
from domain.coach.case import cases
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT
from tests.tui.commands.command_line import ohmfolio, sentence_of

CASE = cases()[0]


@pytest.fixture
def home(tmp_path: Path) -> Path:
    home = tmp_path / "home"
    log = SqliteJobLog.open(home)
    log.add_note(TOPIC, given_to(CASE, CASE.right).model_dump_json(), who="Wren Tansy", at=AT)
    log.close()
    return home


def test_the_summary_counts_what_was_answered_and_is_no_assessment(home: Path) -> None:
    said = ohmfolio("practice", "--summary", "wren tansy", "--json", home=home)
    assert said.code == 0
    assert (said.value["who"], said.value["answers"], said.value["right"]) == ("Wren Tansy", 1, 1)
    assert {"which papers", "safe isolation"} <= {line["kind"] for line in said.value["kinds"]}
    assert said.value["practise_next"]
    assert "not an assessment of competence" in said.value["note"]
    text = ohmfolio("practice", "--summary", "Wren Tansy", home=home).out
    assert "Practice of Wren Tansy" in text
    assert ohmfolio("practice", "--json", home=home).value == ["Wren Tansy"]


def test_the_summary_is_made_a_file_and_none_is_written_over(home: Path, tmp_path: Path) -> None:
    out = tmp_path / "wren.pdf"
    assert ohmfolio("practice", "--summary", "Wren Tansy", "--out", out, home=home).out == f"{out}\n"
    assert out.read_bytes().startswith(b"%PDF")
    again = ohmfolio("practice", "--summary", "Wren Tansy", "--out", out, home=home)
    assert "exists already" in sentence_of(again)


def test_nobody_of_that_name_is_a_no(home: Path) -> None:
    said = ohmfolio("practice", "--summary", "Piet", home=home)
    assert (said.code, said.error) == (1, "")
    assert "Practised so far: Wren Tansy" in said.out


@pytest.mark.parametrize(
    ("typed", "says"), [(("--out", "x.pdf"), "goes with --summary"), (("--summary", "W", "--out", "x.txt"), "PDF file")]
)
def test_what_cannot_be_used_is_refused_in_a_sentence(typed: tuple[str, ...], says: str, home: Path) -> None:
    assert says in sentence_of(ohmfolio("practice", *typed, home=home))


def test_practising_needs_a_terminal(home: Path) -> None:
    assert "need a terminal" in sentence_of(ohmfolio("practice", home=home))
