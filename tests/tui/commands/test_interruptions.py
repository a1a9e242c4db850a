"""When the reader leaves, the disk is full, or somebody stops it: a sentence at most, never a traceback."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from storage.turn import Turn
from tests.tui.commands.command_line import ROOT, RUN, empty_log, ohmfolio, sentence_of

ENVIRONMENT = {"PATH": os.environ.get("PATH", ""), "PYTHONPATH": str(ROOT)}


def begun(*typed: str | Path, out: int = subprocess.PIPE, program: str = RUN, **settings: str) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-c", program, *map(str, typed)],
        env=ENVIRONMENT | settings,
        stdout=out,
        stderr=subprocess.PIPE,
        text=True,
        # Whoever runs the tests in the background hands on that nothing can be stopped.
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),
    )


def test_a_reader_who_has_enough_is_no_trouble() -> None:
    with begun("schema") as running:
        assert running.stdout
        assert running.stderr
        running.stdout.read(1)
        running.stdout.close()
        assert running.stderr.read() == ""
        assert running.wait(timeout=60) == 0


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device here that is always full")
def test_an_answer_that_finds_no_room_is_said() -> None:
    with Path("/dev/full").open("wb") as full, begun("schema", out=full.fileno()) as running:
        assert running.stderr
        assert running.stderr.read() == "The answer cannot be written: No space left on device\n"
        assert running.wait(timeout=60) == 2


def test_waiting_for_a_log_that_another_program_holds_is_said_and_so_is_stopping_it(tmp_path: Path) -> None:
    held = Turn(tmp_path)
    with held.taken(), begun("numbers", "HM", OHMFOLIO_HOME=str(tmp_path)) as running:
        assert running.stderr
        assert running.stderr.readline() == "Another program is at the job log; waiting for it.\n"
        running.send_signal(signal.SIGINT)
        assert running.stderr.read() == "Stopped\n"
        assert running.wait(timeout=60) == 130
    held.close()


def test_a_log_that_cannot_be_opened_is_said(tmp_path: Path) -> None:
    home = tmp_path / "home"
    home.write_text("a file where the folder should be", encoding="utf-8")
    sentence_of(ohmfolio("find", home=home))
    assert home.read_text(encoding="utf-8") == "a file where the folder should be"


@pytest.mark.parametrize("typed", [("find",), ("check",), ("hand-over",)])
def test_words_that_are_no_text_find_nothing(typed: tuple[str, ...], tmp_path: Path) -> None:
    said = ohmfolio(*typed, os.fsdecode(b"x\xffy"), home=empty_log(tmp_path / "home"))
    assert said.code == 1
    assert said.error == ""


PRESSES_CTRL_C = """
import signal, sys

class WhileItLoads:
    def find_spec(self, name, *_):
        if name == "tui.commands.registry":
            signal.raise_signal(signal.SIGINT)

sys.meta_path.insert(0, WhileItLoads())
from tui.__main__ import main
sys.exit(main())
"""


def test_ctrl_c_while_a_shell_asks_what_may_stand_there_ends_it_without_a_word() -> None:
    asked = {"_OHMFOLIO_COMPLETE": "zsh_complete", "COMP_WORDS": "ohmfolio ver", "COMP_CWORD": "1"}
    with begun(program=PRESSES_CTRL_C, **asked) as running:
        assert running.communicate(timeout=60) == ("", "")
        assert running.returncode == 130
