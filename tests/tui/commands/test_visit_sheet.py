"""`visit-sheet`: what to have in hand on site, as text, JSON and PDF."""

from pathlib import Path

from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, INSPECTOR, complete_report
from tests.tui.commands.command_line import ohmfolio, sentence_of


def test_the_sheet_of_a_job_is_read_and_made_a_file_that_is_never_written_over(tmp_path: Path) -> None:
    home, out = tmp_path / "home", tmp_path / "visit.pdf"
    log = SqliteJobLog.open(home)
    number = log.create(complete_report(), who=INSPECTOR, at=AT).number
    log.close()
    text = ohmfolio("visit-sheet", number, home=home)
    assert text.code == 0
    assert "Isolation points" in text.out
    said = ohmfolio("visit-sheet", number, "--out", out, "--json", home=home)
    assert said.value["file"] == str(out)
    assert said.value["parts"][1]["heading"] == "Isolation points"
    assert out.read_bytes().startswith(b"%PDF")
    assert "exists already" in sentence_of(ohmfolio("visit-sheet", number, "--out", out, home=home))
    assert ohmfolio("visit-sheet", "Z-9999", home=home).code == 1
