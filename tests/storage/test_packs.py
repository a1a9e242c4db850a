"""A pack in a folder: all of it, or nothing."""

import os
from pathlib import Path

import pytest

from domain.gate.issued_paper import IssuedPaper
from domain.log.job_log import JobLogError
from storage.files import write_folder
from storage.packs import hand_out
from tests.builders import AT, INSPECTOR, complete_certificate
from tests.storage.children import ended, forked
from tests.storage.issuing import bind

FILES = {"a.pdf": b"one", "a.html": b"two", "a.csv": b"three"}


def _issued(sqlite_log) -> IssuedPaper:
    number = sqlite_log.create(complete_certificate(), who="tamsin", at=AT).number
    issued = sqlite_log.issue(number, by=INSPECTOR, at=AT, bind=bind)
    assert isinstance(issued, IssuedPaper)
    return issued


def test_a_pack_holds_the_paper_the_page_and_the_table(sqlite_log, tmp_path):
    issued = _issued(sqlite_log)
    files = hand_out(issued, sqlite_log.paper(issued.number), tmp_path / "out" / "A-0001-EIC")
    assert [file.name for file in files] == ["A-0001-EIC.pdf", "A-0001-EIC.html", "A-0001-EIC-schedules.csv"]
    assert files[0].read_bytes() == Path(issued.kept).read_bytes()
    assert issued.sha256 in files[1].read_text(encoding="utf-8")
    again = hand_out(issued, sqlite_log.paper(issued.number), tmp_path / "again" / "A-0001-EIC")
    assert [file.read_bytes() for file in again] == [file.read_bytes() for file in files]


def test_a_kept_paper_that_is_gone_is_not_handed_out_and_its_place_is_named(sqlite_log):
    issued = _issued(sqlite_log)
    Path(issued.kept).unlink()
    with pytest.raises(JobLogError, match=r"A-0001\.pdf cannot be read: .*\. Restore it from a copy"):
        sqlite_log.paper(issued.number)


def test_a_kept_paper_that_is_not_as_it_was_issued_is_not_handed_out(sqlite_log):
    issued = _issued(sqlite_log)
    kept = Path(issued.kept)
    kept.chmod(0o600)
    kept.write_bytes(b"%PDF-1.7 another")
    with pytest.raises(JobLogError, match="not as it was issued"):
        sqlite_log.paper(issued.number)


@pytest.mark.parametrize("there", ["a file", "an empty folder", "a full folder", "a broken link"])
def test_a_pack_never_takes_the_place_of_anything(tmp_path, there):
    folder = tmp_path / "pack"
    if there == "a file":
        folder.write_bytes(b"mine")
    elif there == "a broken link":
        folder.symlink_to(tmp_path / "nowhere")
    else:
        folder.mkdir()
    if there == "a full folder":
        (folder / "mine").write_bytes(b"mine")
    with pytest.raises(FileExistsError):
        write_folder(folder, FILES)
    assert [path.name for path in tmp_path.iterdir()] == ["pack"]


@pytest.mark.parametrize("after", range(1, 6))
def test_a_program_that_ends_between_two_files_leaves_the_whole_pack_or_none(tmp_path, after):
    def write_and_end() -> None:
        sync, left = os.fsync, [after]

        def sync_and_end(descriptor: int) -> None:
            sync(descriptor)
            left[0] -= 1
            if not left[0]:
                os._exit(9)

        os.fsync = sync_and_end
        write_folder(tmp_path / "pack", FILES)

    assert ended(forked(write_and_end)) == 9
    if after == 5:
        assert {file.name: file.read_bytes() for file in (tmp_path / "pack").iterdir()} == FILES
    else:
        assert not (tmp_path / "pack").exists()


def test_a_disk_that_takes_no_more_leaves_nothing(tmp_path, monkeypatch):
    def full(path, content):
        if path.name == "a.csv":
            raise OSError(28, "No space left on device")
        path.write_bytes(content)

    monkeypatch.setattr("storage.files.write_part", full)
    with pytest.raises(OSError, match="No space"):
        write_folder(tmp_path / "pack", FILES)
    assert list(tmp_path.iterdir()) == []
