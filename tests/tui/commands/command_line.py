"""The real command in a process of its own, for tests."""

import json
import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from domain.job.job import Job

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


def ohmfolio(*typed: str | Path, home: Path, **environment: str) -> Said:
    """Run `ohmfolio` as typed, with its log in `home`."""
    known = {name: os.environ[name] for name in ("PATH", "HOME", "LANG") if name in os.environ}
    done = subprocess.run(
        [sys.executable, "-c", RUN, *map(str, typed)],
        env=known | {"OHMFOLIO_HOME": str(home), "PYTHONPATH": str(ROOT)} | environment,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        timeout=120,
        check=False,
    )
    return Said(done.returncode, done.stdout.decode(), done.stderr.decode())


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
