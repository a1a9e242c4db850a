"""What is loaded, seen from a fresh interpreter."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.builders import complete_certificate

ROOT = Path(__file__).parents[2]
DOMAIN_NEEDS = {"annotated_types", "pydantic", "pydantic_core", "typing_extensions", "typing_inspection"}
HEAVY = {"textual", "rich", "pymupdf", "fitz", "markdown_pdf", "markdown_it", "sqlite3", "sqlite_utils", "storage"}

LOAD_DOMAIN = """
import pkgutil, sys
before = set(sys.modules)
import domain
for module in pkgutil.walk_packages(domain.__path__, "domain."):
    __import__(module.name)
print(*{name.partition(".")[0] for name in set(sys.modules) - before})
"""
RUN_AND_LIST = """
import sys
from tui.__main__ import main
main()
print(*{name.partition(".")[0] for name in sys.modules}, file=sys.stderr)
"""


def loaded_by(program: str, *typed: str | Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", program, *map(str, typed)],
        env={"PATH": os.environ.get("PATH", ""), "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )


def test_the_domain_loads_pydantic_and_the_standard_library_alone() -> None:
    done = loaded_by(LOAD_DOMAIN)
    loaded = {name for name in done.stdout.split() if not name.startswith("_sysconfigdata")}
    assert "domain" in loaded, done.stderr
    assert loaded - set(sys.stdlib_module_names) - DOMAIN_NEEDS - {"domain"} == set()


@pytest.mark.parametrize("command", ["check", "choose", "schema"])
def test_a_command_that_needs_only_the_domain_loads_neither_screens_nor_paper_nor_log(
    command: str, tmp_path: Path
) -> None:
    given = {
        "check": complete_certificate().model_dump_json(),
        "choose": '{"done": "board", "own_work": true}',
    }
    file = tmp_path / "given.json"
    file.write_text(given.get(command, ""), encoding="utf-8")
    words = [file] if command in given else []
    done = loaded_by(RUN_AND_LIST, command, *words, "--json")
    assert done.stdout.startswith("{"), done.stderr
    assert HEAVY & set(done.stderr.split()) == set()
