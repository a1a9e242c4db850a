"""The program on a real terminal that does its worst: nothing typed is lost, and the terminal is given back as it was."""

import os
import re
import signal
from pathlib import Path

import pytest

from tests.tui.terminal import KEYS, Terminal

SECOND_SCREEN, FOCUS, MOUSE = (
    1049 << 5,
    1004 << 5,
    {mode << 5 for mode in (9, 1000, 1001, 1002, 1003, 1005, 1006, 1015)},
)

ASKS = re.compile(rb"\x1b\[(?:[<=>][0-9;]*u|[>=]?[0-9]*c|[?]?[0-9]*n|[?]?[0-9]*[$]p|[0-9;]*t)|\x1b[]P]")
"""Other ways of sending keys, and questions about the terminal, its cursor, its modes, its window and its colours."""

SHELL = """
import os, signal, sys
from tui.__main__ import main
signal.signal(signal.SIGTTOU, signal.SIG_IGN)
job = os.fork()
if not job:
    os.setpgid(0, 0)
    os.tcsetpgrp(0, os.getpgrp())
    signal.signal(signal.SIGTTOU, signal.SIG_DFL)
    sys.exit(main())
os.waitpid(job, os.WUNTRACED)
os.tcsetpgrp(0, os.getpgrp())
print("back in the shell", flush=True)
sys.stdin.readline()
os.tcsetpgrp(0, job)
os.kill(job, signal.SIGCONT)
sys.exit(os.waitstatus_to_exitcode(os.waitpid(job, 0)[1]))
"""
"""What a shell with job control does, as far as one job needs it."""


def at_details(terminal: Terminal) -> Terminal:
    """A certificate just begun, the cursor on its first box."""
    terminal.until("What was done?")
    terminal.type("ny").until("Start the job")
    terminal.press("enter").until("F3 Details", "Client's address")
    return terminal


def test_a_byte_that_is_not_utf_8_is_a_letter_like_any_other(tmp_path: Path) -> None:
    with Terminal(home=tmp_path) as terminal:
        at_details(terminal).send(b"Caf\xe9 Ren\xe9, \xa35")
        terminal.until("Café René, £5")


def test_a_paste_whose_end_is_lost_swallows_no_keys(tmp_path: Path) -> None:
    with Terminal(home=tmp_path) as terminal:
        at_details(terminal).send("\x1b[200~Marigold")
        terminal.until("Marigold")
        terminal.type(" Finch").until("Marigold Finch")


def test_a_torn_arrow_key_moves_and_types_nothing(tmp_path: Path) -> None:
    with Terminal(home=tmp_path) as terminal:
        at_details(terminal).send_torn(KEYS["down"])
        assert "[B" not in terminal.until("Client: Client's address")


def test_a_keypad_types_its_digits_and_its_enter_is_enter(tmp_path: Path) -> None:
    with Terminal(home=tmp_path) as terminal:
        at_details(terminal).send("\x1bOq\x1bOt Weir Lane").until("14 Weir Lane", "Client: Client")
        terminal.send("\n")
        terminal.until("14 Weir Lane", "Client: Client's address")
        terminal.send("7\x1bOM")
        terminal.until("7", "Client: Client's postcode")


def test_a_burst_of_lines_pasted_without_marks_stands_in_the_boxes_it_reached(tmp_path: Path) -> None:
    with Terminal(home=tmp_path) as terminal:
        at_details(terminal).send("Marigold Finch\r14 Weir Lane\rWQ3 4ZZ\r")
        terminal.until("Marigold Finch", "14 Weir Lane", "WQ3 4ZZ")


def test_the_terminal_is_asked_for_nothing_it_might_answer_and_no_mouse_is_turned_on(tmp_path: Path) -> None:
    with Terminal(home=tmp_path) as terminal:
        at_details(terminal)
        assert SECOND_SCREEN in terminal.screen.mode
        assert not {FOCUS, *MOUSE} & terminal.screen.mode
        assert not ASKS.findall(terminal.sent)
        terminal.send("\x1b[<0;3;4M\x1b[<0;3;4m\x1b[M #$\x1b[O\x1b[I")
        assert "[" not in terminal.type("Marigold Finch").until("Marigold Finch").splitlines()[3]


def test_a_terminal_that_cannot_move_its_cursor_is_told_in_one_sentence(tmp_path: Path) -> None:
    with Terminal(home=tmp_path, TERM="dumb") as terminal:
        assert terminal.ended() == 2
        assert terminal.text.strip() == (
            "A 'dumb' terminal cannot show the screens; ohmfolio help lists what works on it"
        )
    assert not any(tmp_path.iterdir())


def test_stopping_for_the_shell_and_going_on_loses_nothing(tmp_path: Path) -> None:
    with Terminal(home=tmp_path, program=SHELL) as terminal:
        at_details(terminal).send("Marigold Finch\x1a")
        terminal.until("back in the shell")
        assert not {SECOND_SCREEN, *MOUSE} & terminal.screen.mode
        terminal.send("\r")
        terminal.until("Marigold Finch", "F3 Details", gone="back in the shell")
        terminal.press("down").type("14 Weir Lane").until("14 Weir Lane")
        terminal.press("ctrl+x")
        assert terminal.ended() == 0


def test_without_a_shell_to_come_back_from_it_does_not_stop(tmp_path: Path) -> None:
    with Terminal(home=tmp_path) as terminal:
        at_details(terminal).press("ctrl+z").type("Marigold").until("Marigold")


def test_a_program_stopped_from_outside_paints_its_screen_again(tmp_path: Path) -> None:
    with Terminal(home=tmp_path, fresh=True) as terminal:
        at_details(terminal).type("Marigold Finch").until("Marigold Finch")
        os.kill(terminal.pid, signal.SIGSTOP)
        os.waitpid(terminal.pid, os.WUNTRACED)
        terminal.smear("\x1b[2Jnoise")
        os.kill(terminal.pid, signal.SIGCONT)
        terminal.until("Marigold Finch", "F3 Details", gone="noise")
        terminal.type(", the elder").until("Marigold Finch, the elder")


def test_what_another_program_wrote_over_the_screen_goes_with_ctrl_l(tmp_path: Path) -> None:
    with Terminal(home=tmp_path) as terminal:
        at_details(terminal).smear("\x1b[5;10Hwall: the system goes down")
        terminal.press("ctrl+l").until("Client's address", gone="wall:")


def test_a_window_made_smaller_and_larger_again_shows_what_it_showed(tmp_path: Path) -> None:
    with Terminal(home=tmp_path) as terminal:
        at_details(terminal).type("Marigold Finch").until("Marigold Finch")
        while terminal.listen(0.5):
            pass
        before = terminal.text
        terminal.resize(60, 20).until("80", gone="F3 Details")
        terminal.resize(110, 34).until("F3 Details", "Marigold Finch")
        terminal.resize(80, 24).until("Client's address")
        terminal.press("ctrl+l")
        assert terminal.until(before) == before


@pytest.mark.parametrize("name", ["vt100", "vt220", "linux", "xterm", "screen", "tmux-256color", ""])
def test_every_terminal_shows_the_screens_in_letters_it_has(name: str, tmp_path: Path) -> None:
    with Terminal(home=tmp_path, TERM=name) as terminal:
        at_details(terminal)
        shown = terminal.press("f5").until("F5 Results", "Continuity")
        lacks_glyphs = name in {"vt100", "vt220", "linux", ""}
        assert ("Ω" not in shown) is lacks_glyphs
        assert shown.isascii() or not lacks_glyphs or name == "linux"
        coloured = {cell.fg for row in terminal.screen.buffer.values() for cell in row.values()} - {"default"}
        assert bool(coloured) is (name not in {"vt100", "vt220", ""})
        boxed = terminal.press("ctrl+p").until("Do:")
        assert ("+----" in boxed) is (lacks_glyphs and name != "linux")


def test_no_colour_is_sent_to_whoever_wants_none(tmp_path: Path) -> None:
    with Terminal(home=tmp_path, NO_COLOR="1") as terminal:
        at_details(terminal).press("f8").until("F8 Check")
        cells = [cell for row in terminal.screen.buffer.values() for cell in row.values()]
        assert {(cell.fg, cell.bg) for cell in cells} == {("default", "default")}
        assert any(cell.reverse or cell.bold for cell in cells)


def test_the_framework_can_be_left_to_paint_itself(tmp_path: Path) -> None:
    with Terminal(home=tmp_path, OHMFOLIO_DRIVER="stock", NO_COLOR="1") as terminal:
        at_details(terminal)
        assert FOCUS in terminal.screen.mode


def test_keys_typed_while_the_program_starts_are_kept(tmp_path: Path) -> None:
    with Terminal(home=tmp_path, fresh=True) as terminal:
        terminal.send("ny")
        terminal.until("Start the job")
