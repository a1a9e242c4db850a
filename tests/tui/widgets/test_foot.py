"""The foot line keeps help and the way out in sight, whatever else there is no room for."""

import pytest

from tui.keys import BY_ID, KEYS
from tui.widgets.foot import next_of, that_fit


def ids(width: int, *names: str) -> list[str]:
    return [key.id for key in that_fit(tuple(BY_ID[name] for name in names), width)]


def test_what_is_done_here_comes_before_the_coach_and_what_works_everywhere() -> None:
    everything = ("help", "coach", "mark-pass", "mark-na", "back", "next-open", "leave")
    assert ids(200, *everything) == list(everything)
    assert ids(44, *everything) == ["help", "mark-pass", "mark-na", "back"]
    assert ids(30, *everything) == ["help", "mark-pass", "back"]


@pytest.mark.parametrize("width", [17, 40, 78])
def test_help_and_the_way_out_stay_however_many_keys_there_are(width: int) -> None:
    shown = that_fit(
        tuple(key for key in KEYS if key.foot and key.id not in {"close", "coach-close", "let-be", "no"}), width
    )
    assert {"help", "back"} <= {key.id for key in shown}
    assert len("  ".join(f"{key.shown} {key.word}" for key in shown)) <= width


def next_among(*names: str) -> str:
    key = next_of(tuple(BY_ID[name] for name in names))
    return key.id if key else ""


def test_the_key_to_press_next_is_what_enter_does_here_else_what_is_done_here_else_the_way_on_or_back() -> None:
    assert next_among("help", "coach", "entry-open", "page-enter", "back", "next-open") == "page-enter"
    assert next_among("help", "coach", "mark-pass", "mark-na", "back", "next-open") == "mark-pass"
    assert next_among("help", "coach", "back", "next-open") == "next-open"
    assert next_among("help", "coach", "back") == "back"
    assert next_among("help", "coach") == ""


def test_no_key_but_help_and_coach_goes_without_a_next_one() -> None:
    for key in KEYS:
        assert (next_of((BY_ID["help"], key)) is None) is (key.id in {"help", "coach"})
