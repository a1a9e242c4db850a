"""The letters that numbers begin with, chosen on the command line."""

from pathlib import Path

from tests.builders import complete_minor_works
from tests.tui.commands.command_line import ohmfolio, sentence_of, written


def test_letters_are_chosen_once_and_the_first_job_has_them(tmp_path: Path) -> None:
    home = tmp_path / "home"
    chosen = ohmfolio("numbers", "tb", "--json", home=home)
    assert (chosen.code, chosen.value["prefix"], chosen.value["last"]) == (0, "TB", "")
    file = written(complete_minor_works(), tmp_path / "job.json")
    assert ohmfolio("bring-in", file, "--json", home=home).value["number"] == "TB-0001"
    refused = ohmfolio("numbers", "HM", home=home)
    assert refused.code == 2
    assert "last number given is TB-0001" in sentence_of(refused)


def test_a_log_is_begun_with_the_letters_that_are_set_or_typed_with_its_first_jobs(tmp_path: Path) -> None:
    file = written(complete_minor_works(), tmp_path / "job.json")
    assert "HM-0001" in ohmfolio("bring-in", file, home=tmp_path / "set", OHMFOLIO_LETTERS="hm").out
    assert "TO-0001" in ohmfolio("bring-in", file, "--letters", "to", home=tmp_path / "typed").out
    late = ohmfolio("bring-in", file, "--letters", "RB", home=tmp_path / "typed")
    assert (late.code, "The last number given is TO-0001" in late.error) == (2, True)
    assert "TO-0002" in ohmfolio("bring-in", file, "--letters", "TO", home=tmp_path / "typed").out
