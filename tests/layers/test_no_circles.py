"""No module of the screens leads back to itself, whichever way it imports: not inside a function, not for types alone."""

import ast
from collections.abc import Iterator, Mapping
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


def modules_in(root: Path, room: str) -> dict[str, str]:
    """The text of every module of a room, by its name."""
    texts = dict[str, str]()
    for file in sorted((root / room).rglob("*.py")):
        parts = file.relative_to(root).with_suffix("").parts
        texts[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = file.read_text(encoding="utf-8")
    return texts


def imported_by(text: str) -> Iterator[str]:
    """Every module or name of a module that a text imports, wherever in it."""
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Import):
            yield from (name.name for name in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield from (f"{node.module}.{name.name}" for name in node.names)


def imports_among(texts: Mapping[str, str]) -> dict[str, set[str]]:
    """Which modules of a room each of them imports."""
    return {
        module: {
            name if name in texts else name.rpartition(".")[0]
            for name in imported_by(text)
            if name in texts or name.rpartition(".")[0] in texts
        }
        for module, text in texts.items()
    }


def circle_in(imports: Mapping[str, set[str]]) -> list[str]:
    """The modules of one circle, in the order they lead to each other; none where there is none."""
    try:
        TopologicalSorter(imports).prepare()
    except CycleError as error:
        return list(reversed(error.args[1]))
    return []


def test_no_module_of_the_screens_leads_back_to_itself() -> None:
    imports = imports_among(modules_in(ROOT, "tui"))
    assert len(imports) > 100
    assert circle_in(imports) == []


@pytest.mark.parametrize(
    "back",
    [
        "from room.first import First",
        "import room.first",
        "from room import first",
        "def late():\n    from room.first import First",
        "if TYPE_CHECKING:\n    from room.first import First",
    ],
)
def test_a_circle_is_found_whichever_way_it_is_closed(back: str) -> None:
    texts = {"room": "", "room.first": "from room.second import Second", "room.second": back}
    circle = circle_in(imports_among(texts))
    assert circle[0] == circle[-1]
    assert set(circle) == {"room.first", "room.second"}


def test_what_only_leads_on_is_no_circle() -> None:
    texts = {"room": "", "room.first": "import room.second\nimport json", "room.second": "from datetime import date"}
    assert circle_in(imports_among(texts)) == []
