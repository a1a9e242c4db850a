"""Keys typed faster than the screens come, as over a slow line, all reach the place they were meant for."""

from pathlib import Path

from tests.tui.terminal import KEYS, Terminal


def test_keys_typed_ahead_of_a_change_of_step_land_on_the_new_step(tmp_path: Path) -> None:
    with Terminal(home=tmp_path) as terminal:
        terminal.until("What was done?")
        terminal.send("ny" + KEYS["enter"] + "Fenwick Brothers\r" + KEYS["f4"] + "7\tShower\t" + KEYS["f3"])
        terminal.until("F3 Details", "Fenwick Brothers", "Client's address")
        terminal.send(KEYS["f4"])
        assert "Shower" in terminal.until("7     Shower")


def test_a_text_pasted_into_a_box_stands_there_whole(tmp_path: Path) -> None:
    with Terminal(home=tmp_path) as terminal:
        terminal.until("What was done?")
        terminal.send("ny" + KEYS["enter"])
        terminal.until("F3 Details")
        terminal.send("\x1b[200~14 Weir Lane\x1b[201~\r" + KEYS["f8"])
        terminal.until("14 Weir Lane")
