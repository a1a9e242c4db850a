from pathlib import Path

import pytest

from storage.files import write_new
from storage.home import home_folder


def test_the_log_is_where_the_person_says(monkeypatch, tmp_path):
    monkeypatch.setenv("OHMFOLIO_HOME", str(tmp_path / "jobs"))
    assert home_folder() == tmp_path / "jobs"
    monkeypatch.setenv("OHMFOLIO_HOME", "~/jobs")
    assert home_folder() == Path("~/jobs").expanduser()


def test_a_relative_folder_stays_the_same_when_the_program_moves(monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("OHMFOLIO_HOME", "jobs")
    assert home_folder() == tmp_path / "jobs"


def test_without_a_word_the_log_is_among_the_persons_data(monkeypatch, tmp_path):
    monkeypatch.delenv("OHMFOLIO_HOME", raising=False)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    assert home_folder().name == "ohmfolio"


def test_a_written_file_is_whole_and_private(tmp_path):
    write_new(tmp_path / "packs" / "A-0001.pdf", b"whole")
    assert (tmp_path / "packs" / "A-0001.pdf").read_bytes() == b"whole"
    assert [file.name for file in (tmp_path / "packs").iterdir()] == ["A-0001.pdf"]


def test_a_file_that_is_there_is_left_alone(tmp_path):
    (tmp_path / "A-0001.pdf").write_bytes(b"first")
    with pytest.raises(FileExistsError):
        write_new(tmp_path / "A-0001.pdf", b"second")
    assert [file.read_bytes() for file in tmp_path.iterdir()] == [b"first"]
