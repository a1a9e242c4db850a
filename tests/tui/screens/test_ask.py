"""Small questions hand back what was answered, and lose nothing by Escape."""

from collections.abc import Mapping
from typing import Any

import pytest
from textual.app import App
from textual.screen import ModalScreen

from domain.value import PROSE_MAX
from tests.tui.screens.shown import lines_of
from tui.screens.dialogs import ConfirmScreen, FormScreen, LineScreen
from tui.widgets.entry_lines import AskedLine, EntryOption

NOTHING_YET = object()


class Asker(App[None]):
    """Asks one question and keeps the answer."""

    def __init__(self, question: ModalScreen[Any]) -> None:
        super().__init__()
        self.asked = question
        self.answer: object = NOTHING_YET

    def on_mount(self) -> None:
        self.push_screen(self.asked, self._keep)

    def _keep(self, answer: object) -> None:
        self.answer = answer


async def answered(question: ModalScreen[Any], *keys: str) -> object:
    app = Asker(question)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press(*keys)
        return app.answer


@pytest.mark.parametrize(
    ("key", "answer"),
    [("y", True), ("Y", True), ("enter", True), ("ctrl+j", True), ("n", False), ("N", False), ("escape", False)],
)
async def test_yes_and_no_are_one_key_each(key: str, answer: bool) -> None:
    assert await answered(ConfirmScreen("Mark the rest of the section as a pass?"), key) is answer


async def test_a_line_is_handed_back_without_outer_blanks() -> None:
    assert await answered(LineScreen("How was it put right?"), *"Grommet fitted ", "enter") == "Grommet fitted"


async def test_enter_on_an_empty_line_that_is_needed_stays_on_the_question() -> None:
    assert await answered(LineScreen("How was it put right?"), "enter") is NOTHING_YET
    assert await answered(LineScreen("A remark?", must=False), "enter") == ""


async def test_typing_takes_the_place_of_a_name_put_forward_as_it_does_in_a_box() -> None:
    assert await answered(LineScreen("Cleared by", "robin"), *"Tamsin", "enter") == "Tamsin"
    assert await answered(LineScreen("Cleared by", "robin"), "enter") == "robin"
    assert await answered(LineScreen("Cleared by", "robin"), "end", *"son", "enter") == "robinson"
    assert await answered(LineScreen("Cleared by", "robin", must=False), "backspace", "enter") == ""


async def test_a_running_text_put_forward_is_gone_on_with() -> None:
    question = FormScreen("Found", (AskedLine("finding", "Found", "Loose", limit=PROSE_MAX),))
    assert await answered(question, *" screw", "enter") == {"finding": "Loose screw"}


async def test_escape_leaves_an_untouched_line_at_once() -> None:
    assert await answered(LineScreen("A remark?", "as it was"), "escape") is None


async def test_escape_drops_typed_text_only_when_pressed_again() -> None:
    assert await answered(LineScreen("A remark?"), "a", "escape") is NOTHING_YET
    assert await answered(LineScreen("A remark?"), "a", "escape", "enter") == "a"
    assert await answered(LineScreen("A remark?"), "a", "escape", "escape") is None
    assert await answered(LineScreen("A remark?"), "a", "escape", "b", "escape") is NOTHING_YET


CODES = (EntryOption("1", "C1", "C1  Danger present."), EntryOption("F", "FI", "FI  Look further."))
LINES = (
    AskedLine("finding", "Finding", must=True),
    AskedLine("code", "Code", must=True, options=CODES),
    AskedLine("where", "Where"),
)


@pytest.mark.parametrize(
    ("keys", "answer"),
    [
        ((*"Loose", "enter", "1", "enter", *"Hall", "enter"), {"finding": "Loose", "code": "C1", "where": "Hall"}),
        ((*"Loose", "tab", "f", "ctrl+o"), {"finding": "Loose", "code": "FI", "where": ""}),
        ((*"Loose", "down", "right", "right", "ctrl+o"), {"finding": "Loose", "code": "FI", "where": ""}),
        ((*"Loose", "down", "left", "ctrl+o"), {"finding": "Loose", "code": "FI", "where": ""}),
    ],
)
async def test_a_form_hands_back_every_line_by_its_name(keys: tuple[str, ...], answer: Mapping[str, str]) -> None:
    assert await answered(FormScreen("An observation", LINES), *keys) == answer


async def test_a_form_goes_to_the_line_that_is_needed_and_empty() -> None:
    keys = (*"Loose", "ctrl+o", "1", "ctrl+o")
    assert await answered(FormScreen("An observation", LINES), *keys) == {"finding": "Loose", "code": "C1", "where": ""}


async def test_no_option_is_picked_until_somebody_picks_it() -> None:
    app = Asker(FormScreen("An observation", LINES))
    async with app.run_test(size=(80, 24)):
        assert not any("(x)" in line for line in lines_of(app))


async def test_a_long_line_wraps_inside_the_box_and_stays_readable() -> None:
    text = (
        "The enclosure of the consumer unit is of a material that burns and stands under the stairs, the only way out"
    )
    app = Asker(LineScreen("What was found?", text))
    async with app.run_test(size=(80, 24)):
        shown = lines_of(app)
    assert "".join(line.strip("│ ") for line in shown if "encl" in line or "only" in line).endswith("the only way out")
    assert all(len(line.rstrip()) <= 80 for line in shown)
