"""A pipe, a device or a folder in the place of a file is refused at once, and never waited for."""

import os
from pathlib import Path

import pytest

from tests.tui.commands.command_line import ohmfolio, sentence_of

COMMANDS = {
    "verify": (),
    "bring-in": (),
    "check": (),
    "issue": ("--to", "/tmp"),
    "choose": (),
    "read-in": ("A-0001", "--columns", "number=C; zs=Zs"),
    "restore": (),
}


@pytest.mark.parametrize("command", COMMANDS)
def test_what_is_no_file_is_refused_in_a_sentence(command: str, tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.json")
    (tmp_path / "to a pipe.json").symlink_to(tmp_path / "pipe.json")
    (tmp_path / "folder.json").mkdir()
    home = tmp_path / "home"
    if command == "read-in":
        from storage.sqlite_job_log import SqliteJobLog
        from tests.builders import AT, complete_minor_works

        log = SqliteJobLog.open(home)
        log.create(complete_minor_works(), who="tamsin", at=AT)
        log.close()
    for name in ("pipe.json", "to a pipe.json", "folder.json", "/dev/zero", "/dev/tty"):
        said = sentence_of(ohmfolio(command, tmp_path / name, *COMMANDS[command], home=home))
        assert "folder" in said or "pipe or a device" in said or "pipe or device" in said
        assert name in said
