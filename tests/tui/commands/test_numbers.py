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
