"""No file and no function grows out of sight, and one name means one class."""

import ast
import re
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
FILE_MOST = 300
FUNCTION_MOST = 40
LONGER = {
    "domain/log/job_log.py": "one protocol: all that may be asked of a log",
    "domain/log/stored_log.py": "what fulfils it, a method each",
}
"""Files that may be longer, each with its reason."""
REASON = "long because"
"""How the docstring of a long function begins to say why it is one."""


def modules() -> Iterator[tuple[str, str]]:
    for room in ("domain", "storage", "tui"):
        for path in sorted((ROOT / room).rglob("*.py")):
            yield str(path.relative_to(ROOT)), path.read_text(encoding="utf-8")


Defined = ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef


@cache
def defined() -> tuple[tuple[str, Defined], ...]:
    """Every class and function, with its file; each file is read once."""
    found = ((file, node) for file, text in modules() for node in ast.walk(ast.parse(text)))
    return tuple((file, node) for file, node in found if isinstance(node, Defined))


def test_no_file_is_over_300_lines_without_a_reason_and_no_reason_outlives_its_file() -> None:
    assert {file for file, text in modules() if len(text.splitlines()) > FILE_MOST} == LONGER.keys()


def test_no_file_of_the_tests_is_over_300_lines() -> None:
    tests = sorted((ROOT / "tests").rglob("*.py"))
    assert len(tests) > 100
    assert [path.name for path in tests if len(path.read_text(encoding="utf-8").splitlines()) > FILE_MOST] == []


def test_no_function_is_over_40_lines_unless_its_docstring_says_why() -> None:
    long = [
        f"{file}: {node.name}"
        for file, node in defined()
        if not isinstance(node, ast.ClassDef)
        and (node.end_lineno or 0) - node.lineno >= FUNCTION_MOST
        and REASON not in (ast.get_docstring(node) or "").casefold()
    ]
    assert long == []


def test_no_two_classes_have_one_name() -> None:
    homes: defaultdict[str, list[str]] = defaultdict(list)
    for file, node in defined():
        if isinstance(node, ast.ClassDef):
            homes[node.name].append(file)
    assert len(homes) > 100
    assert {name: files for name, files in homes.items() if len(files) > 1} == {}


SPLICED = re.compile(r"\.capitalize\(|\.title\(\)|\[:1\]\.(?:upper|lower|casefold)\(|\[0\]\.(?:upper|lower)\(")
GRAMMAR = "domain/words.py"
"""Where a text is made to open a sentence, or to go on behind a colon."""


def test_the_first_letter_of_a_sentence_is_altered_in_one_place_alone() -> None:
    assert {file for file, text in modules() if SPLICED.search(text)} == {GRAMMAR}
