"""What a screen reader follows: the terminal's own cursor stands on the box, row or question that was come to."""

import re
from pathlib import Path

from domain.forms.form_set import FormSet
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, INSPECTOR, complete_minor_works, fresh
from tests.tui.terminal import PATIENCE, Terminal
from tui.terminal.screen_buffer import Picture
from tui.terminal.sgr import MARK, REVERSE, STANDS, Look


def comes_to(terminal: Terminal, *wanted: str) -> None:
    """Read until the cursor stands, seen, on a line that holds the wanted texts."""
    while terminal.screen.cursor.hidden or not all(each in line_at_cursor(terminal) for each in wanted):
        assert terminal.listen(PATIENCE), f"the cursor stands on {line_at_cursor(terminal)!r}"


def line_at_cursor(terminal: Terminal) -> str:
    return terminal.screen.display[terminal.screen.cursor.y]


def test_on_a_terminal_without_colour_the_cursor_goes_with_the_focus_and_is_seen(tmp_path: Path) -> None:
    log = SqliteJobLog.open(tmp_path)
    for job in (complete_minor_works(), fresh(FormSet.MEIWC)):
        log.create(job, who=INSPECTOR, at=AT)
    log.close()
    with Terminal(home=tmp_path, TERM="vt100", OHMFOLIO_GLYPHS="auto") as terminal:
        comes_to(terminal, ">A-0002")
        terminal.press("down")
        comes_to(terminal, ">A-0001")
        terminal.press("enter")
        comes_to(terminal, " Client .")
        terminal.press("tab").type("4 Quern Yard")
        comes_to(terminal, "Client's address", "4 Quern Yard")
        after = line_at_cursor(terminal).index("Yard") + len("Yard")
        while terminal.screen.cursor.x != after:
            assert terminal.listen(PATIENCE)
        codes = b";".join(re.findall(rb"\x1b\[([\d;]*)m", terminal.sent)).split(b";")
        assert {int(code) for code in codes if code} <= {0, 1, 2, 4, 7}, "it is legible without a colour"


def test_where_somebody_types_goes_before_what_was_only_come_to() -> None:
    picture = Picture(10, 3)
    picture.put(0, 0, "row", Look(STANDS | REVERSE))
    assert (picture.cursor, picture.rows[0][0]) == ((0, 0), ("r", Look(REVERSE)))
    picture.put(4, 1, "x", Look(MARK | REVERSE))
    assert (picture.cursor, picture.rows[1][4]) == ((4, 1), ("x", Look()))
    picture.put(4, 1, "x", Look())
    assert picture.cursor == (0, 0)
    picture.put(0, 0, "row", Look())
    assert picture.cursor is None
