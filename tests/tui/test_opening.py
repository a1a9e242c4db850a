"""A dropped line or an ended program loses nothing that was typed, and leaves no broken terminal behind."""

import os
import signal
import termios
import time
from pathlib import Path

import pytest

from storage.sqlite_job_log import SqliteJobLog
from storage.upkeep.sqlite_upkeep import SqliteUpkeep
from tests.builders import AT
from tests.tui.terminal import PATIENCE, Terminal

ALTERNATE_SCREEN, CURSOR_SHOWN, WRAPPING, PASTE = (mode << 5 for mode in (1049, 25, 7, 2004))
MOUSE = {1000 << 5, 1003 << 5, 1006 << 5}
INPUT_MODES = 0
"""Where a terminal's attributes hold what it does to the keys."""


def half_typed(terminal: Terminal) -> Terminal:
    """A job begun, and a name typed into its first box without Enter."""
    terminal.until("What was done?")
    terminal.type("ny").until("Start the job")
    terminal.press("enter").until("F3 Details")
    terminal.type("Marigold Finch").until("Marigold Finch")
    return terminal


def client_kept(home: Path) -> str:
    log = SqliteJobLog.open(home)
    job = log.load("A-0001")
    log.close()
    assert job is not None
    return job.client.name


def test_a_dropped_line_ends_the_program_and_leaves_what_was_being_typed_open(tmp_path: Path) -> None:
    with Terminal(home=tmp_path) as terminal:
        half_typed(terminal).hang_up()
        assert terminal.ended() == 128 + signal.SIGHUP
    assert client_kept(tmp_path) == ""
    with Terminal(home=tmp_path) as terminal:
        terminal.until("or go on with a job", "A-0001")
        terminal.press("enter").until("Marigold Finch", "Half-typed when the program ended")
        terminal.press("enter").until("Client: Client's address")
    assert client_kept(tmp_path) == "Marigold Finch"


def test_a_lost_terminal_ends_the_program_even_when_no_signal_says_so(tmp_path: Path) -> None:
    blocked = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGHUP})
    try:
        with Terminal(home=tmp_path) as terminal:
            half_typed(terminal).hang_up()
            assert terminal.ended() == 128 + signal.SIGHUP
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, blocked)
    assert client_kept(tmp_path) == ""


@pytest.mark.parametrize(("leaves", "code"), [("term", 128 + signal.SIGTERM), ("key", 0)])
def test_leaving_gives_the_terminal_back_as_it_was(tmp_path: Path, leaves: str, code: int) -> None:
    with Terminal(home=tmp_path) as terminal:
        half_typed(terminal)
        assert ALTERNATE_SCREEN in terminal.screen.mode
        assert terminal.line_modes != terminal.found
        if leaves == "term":
            os.kill(terminal.pid, signal.SIGTERM)
        else:
            terminal.press("ctrl+x")
        assert terminal.ended() == code
        assert {CURSOR_SHOWN, WRAPPING} <= terminal.screen.mode
        assert not {ALTERNATE_SCREEN, PASTE, *MOUSE} & terminal.screen.mode
        assert terminal.screen.margins is None
        assert terminal.line_modes == terminal.found
    assert client_kept(tmp_path) == ("Marigold Finch" if leaves == "key" else "")


def test_leaving_keeps_a_copy_of_the_day_beside_the_log(tmp_path: Path) -> None:
    with Terminal(home=tmp_path, OHMFOLIO_COPIES="2") as terminal:
        half_typed(terminal).press("ctrl+x")
        assert terminal.ended() == 0
    until = time.monotonic() + PATIENCE
    while not (copies := [*tmp_path.glob("copies/*.ohmfolio")]):
        assert time.monotonic() < until, "no copy came"
    SqliteUpkeep(tmp_path / "other").restore(str(copies[0]), at=AT)
    assert client_kept(tmp_path / "other") == "Marigold Finch"


def test_a_job_opens_again_where_it_was_when_the_line_dropped(tmp_path: Path) -> None:
    with Terminal(home=tmp_path) as terminal:
        half_typed(terminal).press("f9").until("Signatures")
        terminal.hang_up()
        terminal.ended()
    with Terminal(home=tmp_path) as terminal:
        terminal.until("Marigold Finch")
        terminal.press("enter").until("Signatures", "Design declares")


def test_a_question_open_when_the_line_dropped_is_asked_again_with_what_was_typed_into_it(tmp_path: Path) -> None:
    with Terminal(home=tmp_path) as terminal:
        half_typed(terminal).press("f7").until("F7 Snags")
        terminal.type("r").until("Raised by")
        terminal.type("Lid crac").until("Lid crac")
        terminal.hang_up()
        terminal.ended()
    with Terminal(home=tmp_path) as terminal:
        terminal.until("Marigold Finch")
        terminal.press("enter").until("The line dropped in a question")
        terminal.type("r").until("As it stood when the line dropped", "Lid crac")
        terminal.press("up", "end")
        terminal.type("ked").until("Lid cracked")
        terminal.send("\x0f")
        terminal.until("! open", gone="Raised by:")
        terminal.type("r").until("Raised by", gone="As it stood")


def test_a_first_word_stands_there_before_the_rest_is_loaded_and_keys_are_kept_and_stop_nothing_from_then_on(
    tmp_path: Path,
) -> None:
    with Terminal(home=tmp_path, fresh=True) as terminal:
        terminal.until("Opening the job log")
        assert terminal.received < 200
        assert not terminal.line_modes[INPUT_MODES] & termios.IXON
        terminal.send("\x13ny")
        terminal.until("Start the job", gone="Opening the job log")


@pytest.mark.parametrize("kind", ["xterm", "vt100"])
def test_a_log_that_cannot_be_opened_is_told_where_the_shell_is_seen(tmp_path: Path, kind: str) -> None:
    (tmp_path / "ohmfolio.db").write_bytes(b"no database at all, but some other file" * 100)
    with Terminal(home=tmp_path, TERM=kind) as terminal:
        assert terminal.ended() == 2
        assert ALTERNATE_SCREEN not in terminal.screen.mode
        # The emulator keeps no second screen; a terminal that has one shows the shell again.
        assert kind == "xterm" or "Opening the job log" not in terminal.text
        assert str(tmp_path) in terminal.text.replace("\n", "")
        assert terminal.line_modes == terminal.found
