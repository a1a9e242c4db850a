"""A run over one room, in a copy of the tree, and what it came to."""

import json
import math
import subprocess
import sys
from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

from tests.mutation.trees import copied_tree

_TWO_SIDED_95 = 1.96


class Mutants(NamedTuple):
    """What became of the mutants of a room."""

    count: int
    """That the room has."""
    tried: int
    """All, or those drawn."""
    alive: tuple[dict[str, Any], ...]
    """Those that no test noticed, as `trying` tells of them."""

    @property
    def killed(self) -> float:
        """Per cent of those tried."""
        return 100 * (self.tried - len(self.alive)) / max(self.tried, 1)

    @property
    def interval(self) -> tuple[float, float]:
        """Where the share of the whole room lies with 95 % confidence, after Wilson (1927), if those tried were drawn."""
        count, share, z = max(self.tried, 1), self.killed / 100, _TWO_SIDED_95
        middle = (share + z * z / (2 * count)) / (1 + z * z / count)
        half = z / (1 + z * z / count) * math.sqrt(share * (1 - share) / count + z * z / (4 * count * count))
        return 100 * (middle - half), 100 * (middle + half)


def mutated(room: str, names: Sequence[str] = ()) -> Mutants:
    """Try the mutants of a room, or those named alone; a line on standard error for each."""
    with copied_tree() as tree:
        command = [sys.executable, "-m", "tests.mutation.trying", room, *names]
        with subprocess.Popen(command, cwd=tree, stdout=subprocess.PIPE, text=True) as trying:
            assert trying.stdout is not None
            told = _told(trying.stdout)
            first = next(told, None)
            alive = tuple(each for each in told if each["alive"])
    if trying.returncode or first is None:
        raise SystemExit(f"the run ended with {trying.returncode}; what it said stands above")
    return Mutants(first["mutants"], first["tried"], alive)


def _told(lines: Iterator[str]) -> Iterator[dict[str, Any]]:
    for line in lines:
        if not line.startswith("{"):
            sys.stderr.write(line)
            continue
        told = json.loads(line)
        if "name" in told:
            fate = f"ALIVE    {told['tests']} tests" if told["alive"] else f"noticed  by {told['by']}"
            sys.stderr.write(f"{told['name']}  {fate}\n")
        yield told
