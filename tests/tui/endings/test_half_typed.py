"""A text typed in part is nobody's reading: it waits, open, for whoever comes back."""

from collections.abc import Iterator
from itertools import islice

import pytest

from storage.half_typed_files import HALF_TYPED
from tests.tui.endings.half_typed import OPEN_AGAIN, Desk, End, Ending, entries
from tests.tui.terminal import Terminal


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    """A log that nobody is at, whatever was done to it before."""
    desk = Desk(tmp_path_factory.mktemp("home"))
    yield desk
    desk.leave()


@pytest.mark.parametrize(
    ("at", "keys", "end", "keeps"),
    [(0, 3, End.KILLED, True), (3, 11, End.AT_ONCE, False)],
)
def test_the_old_value_stands_and_the_box_is_open_again(desk: Desk, at: int, keys: int, end: End, keeps: bool) -> None:
    place, text = next(islice(entries(desk.job), at, None))
    desk.ends(Ending(place, text[:keys], end, keeps))
    desk.leave()


def test_a_question_goes_on_as_typed_though_the_program_was_killed(desk: Desk) -> None:
    with Terminal(home=desk.home) as terminal:
        terminal.until("or go on with a job")
        terminal.press("enter", "f7").type("r").until("Raised by")
        terminal.type("Lid crac").until("Lid crac")
        terminal.kill()
    with Terminal(home=desk.home) as terminal:
        terminal.until("or go on with a job")
        terminal.press("enter").until("The line dropped in a question")
        terminal.press("f7").type("r").until("As it stood when the line dropped", "Lid crac")
        terminal.press("escape", "escape").until("F7 Snags", gone="Raised by")
        terminal.press("ctrl+x")
        assert terminal.ended() == 0
    assert not desk.job.snags
    assert not [*(desk.home / HALF_TYPED).iterdir()]


def test_a_program_that_runs_keeps_its_entry_to_itself(desk: Desk) -> None:
    with Terminal(home=desk.home) as one, Terminal(home=desk.home) as other:
        one.until("or go on with a job")
        one.press("enter").until("F3 Details")
        one.press("f3").type("Marigold").until("Marigold")
        other.until("or go on with a job")
        other.press("enter").until("F3 Details")
        assert OPEN_AGAIN not in other.text
