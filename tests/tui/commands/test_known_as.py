"""Several people who come through one account of a computer, each named by the forced command of their key."""

import os
import pwd
import stat
from pathlib import Path

import pytest

from tests.builders import complete_minor_works
from tests.tui.commands.command_line import Said, ohmfolio, sentence_of, written

ACCOUNT = pwd.getpwuid(os.geteuid()).pw_name
ROOTS = pytest.mark.skipif(os.geteuid() != 0, reason="only root can make a file that is root's")


@pytest.fixture
def computers(tmp_path: Path) -> Path:
    """The computer's own file of settings, which says that this account is shared."""
    file = tmp_path / "xdg" / "ohmfolio" / "config.toml"
    file.parent.mkdir(parents=True)
    file.write_text(f'shared = "{ACCOUNT}"\n', encoding="utf-8")
    return file


@pytest.fixture
def home(tmp_path: Path) -> Path:
    home = tmp_path / "home"
    assert ohmfolio("bring-in", written(complete_minor_works(), tmp_path / "job.json"), home=home).code == 0
    return home


def come(computers: Path, home: Path, asked: str, name: str = "hester") -> Said:
    return ohmfolio(
        "known-as", name, home=home, XDG_CONFIG_DIRS=str(computers.parent.parent), SSH_ORIGINAL_COMMAND=asked
    )


@ROOTS
def test_what_ssh_was_given_is_done_as_the_person_the_key_names(computers: Path, home: Path, tmp_path: Path) -> None:
    assert "A-0001" in come(computers, home, "ohmfolio find --json").out
    lines = tmp_path / "lines"
    computers.write_text(f'shared = "{ACCOUNT}"\njournal = "{lines}"\n', encoding="utf-8")
    assert come(computers, home, "ohmfolio due").code == 0
    assert f"]: hester: opened {home}" in lines.read_text(encoding="utf-8")


@ROOTS
@pytest.mark.parametrize(
    "asked",
    [
        "ohmfolio restore /tmp/copy",
        "ohmfolio known-as robin",
        "ohmfolio exchange /tmp",
        "ohmfolio exchange --line --trust x",
        "ohmfolio due --csv /tmp/list.csv",
        "ohmfolio hand-over --all --to=/tmp/all.json",
        "ohmfolio check /etc/passwd",
        "ohmfolio check job.json",
        "sh",
        "ohmfolio; sh",
        "find 'unclosed",
    ],
)
def test_nothing_that_writes_looks_after_the_log_or_names_a_file_comes_through_that_account(
    computers: Path, home: Path, asked: str
) -> None:
    assert sentence_of(come(computers, home, asked))


@ROOTS
def test_who_it_is_counts_only_where_root_alone_can_have_said_that_the_account_is_shared(
    computers: Path, home: Path
) -> None:
    computers.chmod(computers.stat().st_mode | stat.S_IWOTH)
    assert "nobody else may write it" in sentence_of(come(computers, home, "ohmfolio find"))
    computers.chmod(0o644)
    os.chown(computers, 65534, 65534)
    assert "counts only in" in sentence_of(come(computers, home, "ohmfolio find"))
    os.chown(computers, 0, 0)
    computers.write_text('shared = "somebody-else"\n', encoding="utf-8")
    assert "is not shared" in sentence_of(come(computers, home, "ohmfolio find"))


def test_neither_the_environment_nor_a_persons_own_file_shares_an_account(home: Path, tmp_path: Path) -> None:
    assert "counts only in" in sentence_of(ohmfolio("known-as", "hester", home=home, OHMFOLIO_SHARED=ACCOUNT))
    own = tmp_path / "own" / "ohmfolio" / "config.toml"
    own.parent.mkdir(parents=True)
    own.write_text(f'shared = "{ACCOUNT}"\n', encoding="utf-8")
    assert "counts only in" in sentence_of(
        ohmfolio("known-as", "hester", home=home, XDG_CONFIG_HOME=str(tmp_path / "own"))
    )
    assert "is not shared" in sentence_of(ohmfolio("known-as", "hester", home=home))
