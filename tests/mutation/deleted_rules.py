"""The rules of the gate taken out one at a time: each must turn a test red."""

import ast
import multiprocessing
import os
import sys
from collections.abc import Iterator
from importlib.machinery import SourceFileLoader
from pathlib import Path
from typing import Any, NamedTuple

import pydantic  # noqa: F401  # loaded once, before the children part
import pytest

ROOT = Path(__file__).parents[2]
_GATE = (
    "domain/gate/gaps.py",
    "domain/gate/observation_gaps.py",
    "domain/gate/assessment.py",
    "domain/gate/box_conflicts.py",
)
_TESTS = ("test_rules.py", "test_required_boxes.py")
_AT_ONCE = 2


class Deletion(NamedTuple):
    """A rule, and the text of its file without it."""

    file: str
    rule: str
    without: str


def deletions() -> Iterator[str]:
    """The rules whose loss no test of the gate noticed; the sound tree first, which must pass."""
    gate = ROOT / _GATE[0]
    every = [Deletion(_GATE[0], "nothing", gate.read_text(encoding="utf-8")), *_rules(), *_required()]
    with multiprocessing.get_context("fork").Pool(_AT_ONCE, maxtasksperchild=1) as pool:
        for each, red in zip(every, pool.imap(_is_red_without, every), strict=True):
            sys.stderr.write(f"{'noticed' if red else 'green  '}  {each.file}: {each.rule}\n")
            if each.rule == "nothing":
                assert not red, "the tests of the gate fail on the tree as it is"
            elif not red:
                yield f"{each.file}: {each.rule}"
    sys.stderr.write(f"{len(every) - 1} rules taken out\n")


def _is_red_without(deletion: Deletion) -> bool:
    """In a process of its own: the file is read without the rule, and nothing on the disk is touched."""
    whole, damaged = SourceFileLoader.get_code, str(ROOT / deletion.file)

    def read(loader: SourceFileLoader, fullname: str) -> Any:
        path = loader.get_filename(fullname)
        return loader.source_to_code(deletion.without.encode(), path) if path == damaged else whole(loader, fullname)

    SourceFileLoader.get_code = read  # type: ignore[method-assign]
    silence = os.open(os.devnull, os.O_WRONLY)
    os.dup2(silence, 1)
    os.dup2(silence, 2)
    tests = [str(ROOT / "tests/domain/gate" / name) for name in _TESTS]
    return pytest.main(["-x", "-q", "-n", "0", "-p", "no:cacheprovider", "--rootdir", str(ROOT), *tests]) != 0


def _rules() -> Iterator[Deletion]:
    """Each sentence the gate can say, each list of them, and each box of a conflict."""
    for file in _GATE:
        text = (ROOT / file).read_text(encoding="utf-8")
        for node in ast.walk(ast.parse(text)):
            if isinstance(node, ast.Yield | ast.YieldFrom):
                yield Deletion(file, _told(text, node), _replaced(text, node, "(yield from ())"))
            elif isinstance(node, ast.Starred) and isinstance(node.value, ast.Call):
                yield Deletion(file, _told(text, node), _replaced(text, node, "*()"))
            elif isinstance(node, ast.Call) and getattr(node.func, "id", "") == "_Rule":
                boxes = ast.literal_eval(node.args[3])
                for box in boxes:
                    others = tuple(each for each in boxes if each != box)
                    rule = f"{_told(text, node.args[2])}: {box}"
                    yield Deletion(file, rule, _replaced(text, node.args[3], repr(others)))


def _required() -> Iterator[Deletion]:
    """Each `required` and each `when` of a box."""
    for path in sorted((ROOT / "domain/job").glob("*.py")):
        file, text = str(path.relative_to(ROOT)), path.read_text(encoding="utf-8")
        for node in ast.walk(ast.parse(text)):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Box":
                for word in node.keywords:
                    if word.arg in ("required", "when"):
                        gone = "frozenset()" if word.arg == "required" else "None"
                        rule = f"{_told(text, node.args[0])} {word.arg}"
                        yield Deletion(file, rule, _replaced(text, word.value, gone))


def _told(text: str, node: ast.AST) -> str:
    return " ".join((ast.get_source_segment(text, node) or "").split())[:110]


def _replaced(text: str, node: ast.expr, by: str) -> str:
    source = ast.get_source_segment(text, node)
    assert source is not None
    raw = text.encode()
    at = sum(len(line) for line in raw.splitlines(keepends=True)[: node.lineno - 1]) + node.col_offset
    return (raw[:at] + by.encode() + raw[at + len(source.encode()) :]).decode()
