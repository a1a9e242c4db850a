"""The real command in a process of its own, for tests."""

import json
import multiprocessing
import os
import sys
import tempfile
import traceback
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from domain.job.job import Job
from storage.sqlite_job_log import SqliteJobLog
from tui.__main__ import main

ROOT = Path(__file__).parents[3]
_LOADED_ONCE = (
    *("tui.wiring", "tui.commands.registry", "storage.sqlite_job_log", "storage.jobs", "storage.registers"),
    *("storage.packs", "storage.pdf", "storage.verifying", "storage.upkeep.sqlite_upkeep", "domain.gate.assessment"),
    *("domain.sheets", "domain.job.exchange", "domain.figures.asked", "pymupdf", "markdown_pdf", "sqlite_utils"),
)
"""What most commands load when they need it; here before any begins."""
_PARTING = multiprocessing.get_context("forkserver")
_PARTING.set_forkserver_preload([*_LOADED_ONCE, "tests.tui.commands.command_line"])
"""Processes part from a server without threads: one that parts from the tests' own may never end."""
RUN = "import sys; from tui.__main__ import main; sys.exit(main())"


@dataclass(frozen=True)
class Said:
    """What the command answered."""

    code: int
    out: str
    error: str

    @property
    def value(self) -> Any:
        """The one JSON value on standard output."""
        return json.loads(self.out)


def empty_log(home: Path) -> Path:
    """A log with nothing in it; its home."""
    SqliteJobLog.open(home).close()
    return home


def ohmfolio(*typed: str | Path, home: Path, **environment: str) -> Said:
    """Run `ohmfolio` as typed, with its log in `home`.

    The process is its own but parts from the one that tests, so that the program is loaded once and not for each command;
    how it begins from nothing is tested in `tests/layers` and `test_interruptions.py`.
    """
    known = {name: os.environ[name] for name in ("PATH", "HOME", "LANG") if name in os.environ}
    surroundings = known | {"OHMFOLIO_HOME": str(home), "PYTHONPATH": str(ROOT)} | environment
    with tempfile.TemporaryDirectory() as told:
        out, error = Path(told, "out"), Path(told, "error")
        child = _PARTING.Process(target=_run, args=([*map(str, typed)], surroundings, str(Path.cwd()), out, error))
        child.start()
        child.join(timeout=120)
        if child.exitcode is None:
            child.kill()
        assert child.exitcode is not None, f"{typed} did not end: {error.read_text(encoding='utf-8')}"
        return Said(child.exitcode, out.read_text(encoding="utf-8"), error.read_text(encoding="utf-8"))


def _run(typed: list[str], environment: dict[str, str], folder: str, out: Path, error: Path) -> None:
    """The program from its first line to its exit code, as a fresh process would find itself."""
    os.chdir(folder)
    for at, (path, mode) in enumerate(((Path(os.devnull), "rb"), (out, "wb"), (error, "wb"))):
        with path.open(mode) as stream:
            os.dup2(stream.fileno(), at)
    sys.stdin, sys.stdout, sys.stderr = (
        open(at, mode, encoding="utf-8", closefd=False)  # noqa: SIM115
        for at, mode in ((0, "r"), (1, "w"), (2, "w"))
    )
    os.environ.clear()
    os.environ.update(environment)
    sys.argv = ["ohmfolio", *typed]
    tempfile.tempdir = None  # found anew: a fresh process asks its environment
    try:
        code = main()
    except SystemExit as ended:
        code = ended.code if isinstance(ended.code, int) else int(ended.code is not None)
    except BaseException:  # noqa: BLE001  # the interpreter itself would print it, and end with 1
        traceback.print_exc()
        code = 1
    sys.stdout.flush()
    sys.stderr.flush()
    os._exit(code)


def written(job: Job, path: Path) -> Path:
    """The job as a JSON file."""
    path.write_text(job.model_dump_json(), encoding="utf-8")
    return path


def sentence_of(said: Said) -> str:
    """The one plain sentence of a command that could not use its input."""
    assert said.code == 2, said
    assert said.out == ""
    assert said.error.endswith("\n")
    sentence = said.error.removesuffix("\n")
    assert sentence.isprintable(), sentence
    assert 0 < len(sentence) <= 601
    assert "Traceback" not in sentence
    return sentence
