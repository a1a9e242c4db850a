"""A run of mutmut over one room, in a copy of the tree, and what it came to."""

import subprocess
import sys
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any, NamedTuple

from tests.mutation.trees import copied_tree

HERE = Path(__file__).parent
_ALSO = ("storage", "tui", "demo", "README.md", "LICENSE", "DEVELOPERS.md")
_NOT_DRAWN = ": not checked"
_KILLED = ("killed", "timeout", "caught by type check", "segfault")


class Mutants(NamedTuple):
    """What became of the mutants of a room."""

    count: int
    alive: tuple[tuple[str, str], ...]
    """Each that no test noticed, with its change as a diff."""

    @property
    def killed(self) -> float:
        """Per cent."""
        return 100 * (self.count - len(self.alive)) / max(self.count, 1)


def rooms() -> Mapping[str, Any]:
    """The rooms that can be mutated."""
    return tomllib.loads((HERE / "rooms.toml").read_text(encoding="utf-8"))


def mutated(room: Mapping[str, Any]) -> Mutants:
    """Mutate a room and run its tests on each mutant."""
    with copied_tree() as tree:
        with (tree / "pyproject.toml").open("a", encoding="utf-8") as config:
            config.write(_config(room))
        mutmut = Path(sys.executable).with_name("mutmut")
        drawn = room.get("drawn", ())
        ran = subprocess.run([mutmut, "run", "--max-children", "2", *drawn], cwd=tree, check=False, stdout=sys.stderr)
        if ran.returncode:
            raise SystemExit("mutmut could not run the tests on the sound tree; what it said stands above")
        told = subprocess.run(
            [mutmut, "results", "--all", "true"], cwd=tree, check=True, capture_output=True, text=True
        ).stdout
        results = [
            line.strip().rsplit(": ", 1) for line in told.splitlines() if ": " in line and not line.endswith(_NOT_DRAWN)
        ]
        left = [name for name, result in results if result not in _KILLED]
        alive = tuple((name, _diff(mutmut, name, tree)) for name in left)
    return Mutants(len(results), alive)


def _config(room: Mapping[str, Any]) -> str:
    chosen = [*room["tests"], *(f"--ignore={each}" for each in room.get("not_tests", ()))]
    return (
        f"\n[tool.mutmut]\nsource_paths = ['domain', 'storage']\nonly_mutate = {room['mutate']!r}\n"
        f"also_copy = {[*_ALSO]!r}\npytest_add_cli_args_test_selection = {chosen!r}\n"
        "pytest_add_cli_args = ['-p', 'no:xdist', '-p', 'no:cacheprovider']\n"
    )


def _diff(mutmut: Path, name: str, tree: Path) -> str:
    shown = subprocess.run([mutmut, "show", name], cwd=tree, check=False, capture_output=True, text=True).stdout
    return "\n".join(line for line in shown.splitlines() if line[:1] in "+-" and line[:3] not in ("+++", "---"))
