"""A copy of the program to damage, so that the one at work on is never touched."""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

ROOT = Path(__file__).parents[2]
_PARTS = ("domain", "storage", "tui", "tests", "demo", "pyproject.toml", "README.md", "LICENSE", "DEVELOPERS.md")


@contextmanager
def copied_tree() -> Iterator[Path]:
    """A folder with the program and its tests, gone afterwards."""
    with TemporaryDirectory(prefix="mutated-") as folder:
        for part in _PARTS:
            source, target = ROOT / part, Path(folder, part)
            if source.is_dir():
                shutil.copytree(source, target, ignore=shutil.ignore_patterns("__pycache__"))
            else:
                shutil.copy(source, target)
        yield Path(folder)
