"""Every key of the program comes through SSH, tmux and screen, says what it does, and does something."""

import ast
import re
from pathlib import Path

import pytest
from textual.binding import Binding
from textual.dom import DOMNode

import tui
from tests.tui.places import places
from tui.app import OhmfolioApp
from tui.keys import BY_ID, KEYS, Key

PLAIN = {"enter", "tab", "shift+tab", "escape", "up", "down", "left", "right", "home", "end", "pageup", "pagedown"}
PLAIN |= {"delete", "insert", "backspace", "space", "slash", "ctrl+up", "ctrl+down", "ctrl+left", "ctrl+right"}
PLAIN |= {"ctrl+home", "ctrl+end"}
SECOND_NAMES = {"ctrl+j", "ctrl+h"}
"""What some keypads and terminals send for Enter and Backspace."""
CONTROL = {f"ctrl+{letter}" for letter in "defgklnoprtuvwxy"}
"""The rest are Tab, Enter and Escape, or belong to screen, tmux, flow control and the shell."""


NAMED = re.compile(r"(ctrl|shift|alt)\+\w+|f([1-9]|1[0-2])|(Ctrl|Shift|Alt)\+\w+|escape|enter|backspace|delete")
"""A text that is nothing but the name of a key, as the framework has it or as it is printed."""
IN_WORDS = re.compile(r"\b((Ctrl|Shift|Alt)\+\w+|F([1-9]|1[0-2]))\b")
"""A key in a sentence, other than those of every keyboard that are never bound otherwise."""


def comes_through(name: str) -> bool:
    is_function_key = re.fullmatch(r"f([1-9]|1[0-2])", name) is not None
    is_letter_or_digit = re.fullmatch(r"[A-Za-z0-9]", name) is not None
    return name in PLAIN | SECOND_NAMES | CONTROL or is_function_key or is_letter_or_digit


def bound_by(place: type[DOMNode]) -> list[Binding]:
    return [binding for binding in place.__dict__.get("BINDINGS", ()) if isinstance(binding, Binding)]


@pytest.mark.parametrize("key", KEYS, ids=lambda key: key.id)
def test_a_key_comes_through_every_terminal_and_says_what_it_does(key: Key) -> None:
    assert [name for name in key.keys.split(",") if not comes_through(name)] == []
    assert key.word
    assert key.says[0].isupper()
    assert key.says.endswith(".")


def keys_named_in(text: str) -> list[str]:
    """Every key that a text of the program names, but for what is written for those who read the text itself."""
    tree = ast.parse(text)
    documented = {
        id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
    }
    said = [
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in documented
    ]
    return [words for words in said if NAMED.fullmatch(words) or IN_WORDS.search(words)]


def test_a_key_stands_in_the_table_and_nowhere_else() -> None:
    root = Path(tui.__file__).parent
    # The manual tells the keys to whoever has no screen before them.
    told = root / "commands" / "help_text.py"
    files = [file for file in root.rglob("*.py") if file.parent != root / "keys" and file != told]
    assert len(files) > 100
    assert {str(file): named for file in files if (named := keys_named_in(file.read_text(encoding="utf-8")))} == {}


@pytest.mark.parametrize(
    "said", ['"F9 issues it"', 'f"{count} filled; Ctrl+U takes it back"', 'key == "ctrl+l"', '{"f10"}']
)
def test_a_key_named_beside_the_table_is_seen(said: str) -> None:
    assert keys_named_in(f'''"""F1 may stand here."""\nsaid = {said}''') != []


def test_what_only_looks_like_a_key_is_none() -> None:
    assert keys_named_in('"F13", "FI", "home", f"{f1}", "the delete that was asked"') == []


def is_sent_by_every_terminal(name: str) -> bool:
    """Function keys are taken by some programs on the way; arrows with Ctrl come without it from others."""
    return re.fullmatch(r"f\d+|ctrl\+(up|down|left|right|home|end)", name) is None


RARE = [key for key in KEYS if not any(map(is_sent_by_every_terminal, key.keys.split(",")))]


@pytest.mark.parametrize("key", RARE, ids=lambda key: key.id)
def test_what_only_keys_do_that_some_terminals_lack_can_be_picked_from_the_list_of_everything(key: Key) -> None:
    assert key.listed


def test_no_two_keys_share_an_id() -> None:
    assert len(BY_ID) == len(KEYS)


def test_ctrl_l_paints_anew_and_does_nothing_beside() -> None:
    assert [key.id for key in KEYS if "ctrl+l" in key.keys.split(",")] == ["repaint"]


def test_every_key_of_the_table_is_bound_somewhere_and_nothing_else_is() -> None:
    bound = {binding.id for place in places() for binding in bound_by(place)}
    assert bound == set(BY_ID)


def test_every_bound_key_finds_what_it_does() -> None:
    dead = [
        (place.__name__, binding.action)
        for place in places()
        for binding in bound_by(place)
        for name in [binding.action.partition("(")[0]]
        if not hasattr(OhmfolioApp if name.startswith("app.") else place, f"action_{name.removeprefix('app.')}")
    ]
    assert dead == []
