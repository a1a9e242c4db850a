"""The real command in a process of its own, for tests."""

import json
import os
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from domain.job.job import Job
from tests import nursery
from tests.parting import PARTING, opened, run
from tests.storage.begun import begun_log
from tui.__main__ import main

ROOT = Path(__file__).parents[3]
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
    begun_log(home).close()
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
        nursery.begin(PARTING)
        child = PARTING.Process(target=_run, args=([*map(str, typed)], surroundings, str(Path.cwd()), out, error))
        child.start()
        child.join(timeout=120)
        if child.exitcode is None:
            child.kill()
        assert child.exitcode is not None, f"{typed} did not end: {error.read_text(encoding='utf-8')}"
        return Said(child.exitcode, out.read_text(encoding="utf-8"), error.read_text(encoding="utf-8"))


def _run(typed: list[str], environment: dict[str, str], folder: str, out: Path, error: Path) -> None:
    nothing, said = opened(os.devnull, os.O_RDONLY), os.O_WRONLY | os.O_CREAT
    run(main, typed, environment, folder, (nothing, opened(out, said), opened(error, said)))


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
