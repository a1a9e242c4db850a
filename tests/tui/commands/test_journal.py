"""The lines for whoever looks after the computer."""

import os
import re
import socket
import stat

import pytest

from storage.log_file import FILE_NAME
from tests.builders import complete_minor_works
from tests.tui.commands.command_line import empty_log, ohmfolio, written
from tui import journal
from tui.configuration import ConfigurationError
from tui.journal import Journal

LINE = r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ ohmfolio\[\d+\]: [^:]+: "


def test_openings_issues_refusals_and_copies_leave_a_line_each_and_nothing_of_the_job(tmp_path):
    lines, home = tmp_path / "lines", tmp_path / "home"
    held = written(complete_minor_works(sign=False), tmp_path / "held.json")
    whole = written(complete_minor_works(), tmp_path / "whole.json")
    for typed in (
        ("issue", held, "--to", tmp_path),
        ("issue", whole, "--to", tmp_path),
        ("backup", tmp_path / "copy.sqlite"),
    ):
        ohmfolio(*typed, home=home, OHMFOLIO_JOURNAL=str(lines))
    said = lines.read_text(encoding="utf-8").splitlines()
    assert all(re.match(LINE, line) for line in said)
    told = [re.sub(LINE, "", line) for line in said]
    assert told[0] == told[2] == f"opened {home}"
    assert re.fullmatch(r"held back .+: \d+ reasons", told[1])
    assert re.fullmatch(r"issued A-000\d, SHA-256 [0-9a-f]{64}", told[3])
    assert told[4] == f"copied to {tmp_path / 'copy.sqlite'}"
    assert not any(word in line for line in told for word in ("Fairweather", "WQ7"))


def test_a_log_that_cannot_be_opened_leaves_a_line(tmp_path):
    home, lines = tmp_path / "home", tmp_path / "lines"
    home.mkdir()
    (home / FILE_NAME).write_bytes(b"no log at all, whatever its name says" * 99)
    assert ohmfolio("find", "kitchen", home=home, OHMFOLIO_JOURNAL=str(lines)).code == 2
    assert "not opened: " in lines.read_text(encoding="utf-8")


def test_a_file_that_cannot_be_written_is_told_at_the_start_and_one_that_fails_later_keeps_nobody_from_work(tmp_path):
    said = ohmfolio(
        "find", "kitchen", home=empty_log(tmp_path / "home"), OHMFOLIO_JOURNAL=str(tmp_path / "none" / "lines")
    )
    assert (said.code, "OHMFOLIO_JOURNAL" in said.error, "Traceback" in said.error) == (2, True, False)
    full = Journal("/dev/full", "tamsin")
    full.note("opened")


def test_the_systems_log_gets_the_line_with_its_weight_and_hostile_letters_written_out(tmp_path, monkeypatch):
    # The socket of a system is named by the system; a real one of our own stands in its place.
    heard = socket.socket(socket.AF_UNIX, socket.SOCK_DGRAM)
    heard.bind(str(tmp_path / "log"))
    monkeypatch.setattr(journal, "SOCKET", tmp_path / "log")
    Journal("syslog", "tam\x1bsin").warn("held back A-0001\n<0>forged: 3 reasons")
    line = heard.recv(4096)
    heard.close()
    assert line == f"<36>ohmfolio[{os.getpid()}]: tam\\x1bsin: held back A-0001\\x0a<0>forged: 3 reasons\0".encode()


def test_where_no_system_listens_that_is_said(tmp_path, monkeypatch):
    monkeypatch.setattr(journal, "SOCKET", tmp_path / "nobody")
    with pytest.raises(ConfigurationError, match="no system's log listens"):
        Journal("syslog", "tamsin")


def test_a_new_file_of_lines_is_its_owners_alone(tmp_path):
    Journal(str(tmp_path / "lines"), "tamsin").note("opened")
    assert stat.S_IMODE((tmp_path / "lines").stat().st_mode) & 0o007 == 0
