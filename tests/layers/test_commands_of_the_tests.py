"""What the tests are run with besides pytest (ladders, meters, mutants, simulations): no name that they need has moved."""

import ast
import importlib
from collections.abc import Iterator
from importlib.util import find_spec
from pathlib import Path

_TESTS = Path(__file__).parents[1]
_ROOMS = ("domain", "storage", "tests", "tui")
_BESIDE_PYTEST = sorted(
    path for path in _TESTS.rglob("*.py") if not path.stem.startswith("test_") and path.stem != "conftest"
)


def test_every_name_that_is_taken_from_a_room_is_there() -> None:
    taken = {(module, name, str(path.relative_to(_TESTS))) for path in _BESIDE_PYTEST for module, name in _taken(path)}
    assert any(path.startswith("ladder") for _, _, path in taken)
    assert sorted(each for each in taken if not _is_there(*each[:2])) == []


def _taken(path: Path) -> Iterator[tuple[str, str]]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module and node.module.split(".")[0] in _ROOMS:
            yield from ((node.module, each.name) for each in node.names)


def _is_there(module: str, name: str) -> bool:
    try:
        if module.endswith("__main__"):
            return find_spec(module) is not None  # to look into it would begin it
        return hasattr(importlib.import_module(module), name) or find_spec(f"{module}.{name}") is not None
    except ModuleNotFoundError as missing:
        # What a long run needs beside the rest, such as the library of mutants, need not be installed.
        return str(missing.name).split(".")[0] not in _ROOMS
