"""What is loaded, seen from a fresh interpreter."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, complete_certificate

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
print(*sys.modules, file=sys.stderr)
"""
READS_APART = {"storage", "storage.given_documents", "storage.read_apart", "storage.child_process"}
"""Has a process of its own read a stranger's file."""


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
    loaded = set(done.stderr.split()) - READS_APART
    assert HEAVY & {name.partition(".")[0] for name in loaded} == set()


SHOW_FIRST_SCREEN = """
import asyncio, sys
from pathlib import Path
import tui.run_app, tui.wiring
from tui.log_place import LogPlace
from tui.preload import load_ahead
from tui.app import OhmfolioApp
from tui.router import screen_for


def list_loaded():
    print(*sys.modules)

async def begin():
    services = tui.wiring._services(LogPlace(Path(sys.argv[1])), waiting=tui.waiting.Waiting())
    app = OhmfolioApp(services, screen_for)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        list_loaded()
        load_ahead(services.log, services.who, lambda: app.hands_rest).join()
        list_loaded()
        await pilot.press("enter")
        await pilot.pause()
        list_loaded()
        print(type(app.screen).__name__)
    services.log.close()

asyncio.run(begin())
"""
OURS = ("domain", "storage", "tui")
FIRST_SCREENS = {"tui.screens.intake", "tui.screens.page"}
WAIT_TO_BE_ASKED_FOR = {
    *(
        "click",
        "pymupdf",
        "markdown_pdf",
        "sqlite_utils",
        "storage.migrations",
        "storage.jobs",
        "storage.pdf",
    ),
    *(
        "tui.commands.registry",
        "tui.job_page",
        "domain.job.job",
        "domain.job.circuit",
        "domain.editing.commands",
        "domain.checks",
        "domain.gate.assessment",
    ),
    *(
        "domain.sheets",
        "domain.duties",
        "domain.figures.asked",
        "domain.figures.limits.loader",
        "domain.inspection",
        "domain.register",
    ),
}


@pytest.fixture(scope="module")
def loaded(tmp_path_factory: pytest.TempPathFactory) -> list[set[str]]:
    """What is loaded with the first screen shown, once what comes next is ready, and with a job opened."""
    home = tmp_path_factory.mktemp("home")
    log = SqliteJobLog.open(home)
    log.create(complete_certificate(), who="anna", at=AT)
    log.close()
    done = loaded_by(SHOW_FIRST_SCREEN, home)
    assert done.stdout.rstrip().endswith("JobScreen"), done.stderr
    return [set(line.split()) for line in done.stdout.splitlines()[:3]]


def test_the_first_screen_waits_for_nothing_it_does_not_show(loaded: list[set[str]]) -> None:
    first, ready, _ = loaded
    assert {name for name in first if name.startswith("tui.screens.")} == FIRST_SCREENS
    assert WAIT_TO_BE_ASKED_FOR & first == set()
    assert WAIT_TO_BE_ASKED_FOR & ready >= {"domain.job.job", "domain.checks", "storage.jobs"}


def test_opening_a_job_loads_nothing_that_was_not_got_ready_while_the_first_screen_stood(
    loaded: list[set[str]],
) -> None:
    _, ready, opened = loaded
    assert {name for name in opened - ready if name.partition(".")[0] in OURS} == set()
    assert {"pymupdf", "markdown_pdf", "sqlite_utils"} & opened == set()
