"""`tend`: the log looked after from the command line."""

from pathlib import Path

import pytest

from tests.builders import complete_minor_works
from tests.tui.commands.command_line import ohmfolio, sentence_of, written


@pytest.fixture
def home(tmp_path: Path) -> Path:
    return tmp_path / "home"


def test_tend_says_well_then_what_is_wrong_then_that_it_cannot_look(home: Path, tmp_path: Path) -> None:
    assert "There is no job log" in sentence_of(ohmfolio("tend", home=home))
    assert not home.exists()
    ohmfolio("bring-in", written(complete_minor_works(), tmp_path / "job.json"), home=home)
    well = ohmfolio("tend", "--json", home=home)
    assert (well.code, well.value["well"], well.value["faults"]) == (0, True, [])
    assert well.value["proof"] == {"jobs": 1, "issued": 0, "head": "00" * 32}
    (home / "ohmfolio.db").chmod(0o644)
    told = ohmfolio("tend", home=home)
    assert told.code == 1
    assert "✗ Open to people the log is not open to" in told.out
    assert "chmod -R go= " in told.out
    assert "no group" in sentence_of(ohmfolio("tend", "--share", "nobody-of-that-name", home=home))


def test_a_copy_is_made_refused_over_a_file_and_gone_back_to(home: Path, tmp_path: Path) -> None:
    ohmfolio("bring-in", written(complete_minor_works(), tmp_path / "job.json"), home=home)
    copy = tmp_path / "copy.ohmfolio"
    made = ohmfolio("backup", copy, "--json", home=home)
    assert (made.code, made.value["path"], made.value["proof"]["jobs"]) == (0, str(copy), 1)
    assert "exists already" in sentence_of(ohmfolio("backup", copy, home=home))
    assert "OHMFOLIO_COPIES is 0" in sentence_of(ohmfolio("backup", home=home, OHMFOLIO_COPIES="0"))
    of_today = ohmfolio("backup", "--json", home=home)
    assert Path(of_today.value["path"]).parent == home / "copies"
    restored = ohmfolio("restore", copy, home=home)
    assert restored.code == 0
    assert "The log that was here is kept in" in restored.out
    assert "numbered from B-0001" in restored.out
    assert "There is no file" in sentence_of(ohmfolio("restore", tmp_path / "none", home=home))
