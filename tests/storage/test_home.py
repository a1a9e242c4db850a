import pytest

from storage.files import write_new


def test_a_written_file_is_whole_and_private(tmp_path):
    write_new(tmp_path / "packs" / "A-0001.pdf", b"whole")
    assert (tmp_path / "packs" / "A-0001.pdf").read_bytes() == b"whole"
    assert [file.name for file in (tmp_path / "packs").iterdir()] == ["A-0001.pdf"]


def test_a_file_that_is_there_is_left_alone(tmp_path):
    (tmp_path / "A-0001.pdf").write_bytes(b"first")
    with pytest.raises(FileExistsError):
        write_new(tmp_path / "A-0001.pdf", b"second")
    assert [file.read_bytes() for file in tmp_path.iterdir()] == [b"first"]
