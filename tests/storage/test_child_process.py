"""Processes of this program: they run its own code and no other, and take no more than they may."""

import ast
import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from domain.forms.form_set import FormSet
from storage.child_process import BeyondLimitsError, ProcessLimits, asked, start
from storage.pdf_worker import PdfWorker
from storage.sqlite_job_log import SqliteJobLog
from storage.upkeep.backing_up import is_due
from storage.verifying import proof_of
from tests.builders import AT, complete_minor_works, fresh

ROOT = Path(__file__).parents[2]
ONE_PLACE = "storage/child_process.py"
OF_AN_OFFICE = "tui/after_issue.py"
"""Runs what an office named itself, with the rights and the environment of whoever issues."""
BY_SSH = "tui/commands/ssh_line.py"
"""Runs the ssh of whoever calls the office, which asks for their own key or phrase, with words that name no other program."""
STARTS = {"Popen", "run", "call", "check_call", "check_output", "system", "popen", "fork", "Process", "Pool"}
LIGHT = "tests.storage.started"
LIMITS = ProcessLimits(memory=512, seconds=2, written=1)


@pytest.fixture
def trap(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder of files that would be run if it were looked into for code, and that leave a mark when they are."""
    mark = tmp_path / "was run"
    leaves = f"open({str(mark)!r}, 'a').close()\n"
    folder = tmp_path / "where somebody stands"
    for name in ("storage/__init__.py", "storage/child_process.py", "storage/pdf_worker.py", "tui/__init__.py"):
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(leaves, encoding="utf-8")
    for name in ("pickle", "json", "pydantic", "pymupdf", "sitecustomize", "usercustomize", "resource", "started"):
        (folder / f"{name}.py").write_text(leaves, encoding="utf-8")
    monkeypatch.chdir(folder)
    for name, value in (("PYTHONPATH", str(folder)), ("PYTHONSTARTUP", str(folder / "started.py")), ("PYTHONHOME", "")):
        monkeypatch.setenv(name, value)
    monkeypatch.setenv("LD_PRELOAD", "")
    monkeypatch.setenv("PATH", str(folder))
    return mark


def test_no_process_runs_what_lies_in_the_folder_or_the_environment_of_a_person(trap: Path) -> None:
    worker = PdfWorker()
    assert worker.bind_draft(fresh(FormSet.MEIWC)).pages
    worker.close()
    proof_of(b"%PDF-1.7 no more than that", None)
    told = json.loads(asked(f"{LIGHT}:tell_surroundings", b"", LIMITS))
    assert told["folder"] == "/"
    assert told["environment"].keys() <= {
        "HOME",
        "TZ",
        "TMPDIR",
        "PATH",
        "LC_ALL",
        "LC_CTYPE",
        "PYDANTIC_DISABLE_PLUGINS",
    } | {name for name in told["environment"] if name.startswith(("OHMFOLIO_", "XDG_"))}
    assert str(Path.cwd()) not in [*told["looked_for_code"], told["environment"]["PATH"]]
    assert not trap.exists()


def test_the_copy_of_the_day_is_made_by_code_of_this_program_alone(trap: Path, tmp_path: Path) -> None:
    home = tmp_path / "a log"
    log = SqliteJobLog.open(home)
    log.create(complete_minor_works(), who="tamsin", at=AT)
    log.close()
    assert is_due(home)
    assert start("tui.wiring:do_command", "backup", settings={"OHMFOLIO_HOME": str(home)}).wait(timeout=60) == 0
    assert not is_due(home)
    assert not trap.exists()


def test_what_takes_more_than_it_may_is_ended_and_told_of() -> None:
    limits = ProcessLimits(memory=256, seconds=1, written=1)
    for takes in ("memory", "processor", "room", "sleep"):
        with pytest.raises(BeyondLimitsError):
            asked(f"{LIGHT}:take_much", takes.encode(), limits)
    assert asked(f"{LIGHT}:take_much", b"nothing", limits) == b"done"


def test_processes_are_started_in_one_place_and_no_other() -> None:
    found = [f"{file}:{line}" for file, line in _starts() if file not in {ONE_PLACE, OF_AN_OFFICE, BY_SSH}]
    assert found == []
    assert any(file == ONE_PLACE for file, _ in _starts())


def _starts() -> Iterator[tuple[str, int]]:
    for room in ("domain", "storage", "tui"):
        for path in sorted((ROOT / room).rglob("*.py")):
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if not isinstance(node, ast.Call):
                    continue
                named = ast.unparse(node.func).split(".")
                by_module = len(named) == 2 and named[0] in {"subprocess", "os", "multiprocessing", "pty"}
                if by_module and (named[1] in STARTS or named[1].startswith(("exec", "spawn", "posix_spawn"))):
                    yield str(path.relative_to(ROOT)), node.lineno
