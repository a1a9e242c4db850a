"""`demo`: an invented firm's job log, filled through the domain, to look around in."""

import os
import tempfile
import tomllib
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import Any

from domain.commands import Command as JobCommand
from domain.commands import Declined
from domain.gate import Refusal
from domain.instrument import Instruments
from domain.job import Job
from domain.job_log import JobLog, Query
from domain.people import Firm
from tui.commands.command import JSON, Answer, Command, Option, Typed, UnusableError, Wiring
from tui.commands.scenario import Scenario, scenario_in, signed, started, typed_sections
from tui.desk import Desk

_FILL_ONLY = Option("--fill-only", "fill the demo log and say where it is; do not open it")


def run(typed: Typed, wiring: Wiring) -> Answer:
    """Fill the demo log where it is not filled yet, and open it."""
    home = wiring.home() if os.environ.get("OHMFOLIO_HOME") else Path(tempfile.mkdtemp(prefix="ohmfolio-demo-"))
    with wiring.at_desk(home) as desk:
        was_there = _is_filled(desk.log, home)
        if not was_there:
            fill(desk)
        jobs = len(desk.log.find(Query()))
    answer = Answer(
        {"home": str(home), "jobs": jobs, "filled": not was_there},
        f"The demo log {'is there already' if was_there else 'is filled'}, {jobs} jobs: {home}",
    )
    if typed.has(_FILL_ONLY.name):
        return answer
    code = wiring.screens(home)
    return Answer(answer.value, f"The demo log is kept in {home}", code)


def demo_files() -> Traversable:
    """The folder of the demo's data: in the package when installed, beside it in a checkout."""
    packed = files("tui").joinpath("demo_data")
    return packed if packed.is_dir() else Path(__file__).parents[2] / "demo"


def scenarios() -> dict[str, Scenario]:
    """Every job of the demo by the name of its file, in order."""
    jobs = sorted(demo_files().joinpath("jobs").iterdir(), key=lambda file: file.name)
    return {
        file.name.removesuffix(".toml"): scenario_in(file.read_text(encoding="utf-8"))
        for file in jobs
        if file.name.endswith(".toml")
    }


def fill(desk: Desk) -> None:
    """Play every job into the log."""
    firm: dict[str, Any] = tomllib.loads(demo_files().joinpath("firm.toml").read_text(encoding="utf-8"))
    testers: dict[str, str] = firm.pop("testers")
    numbers: dict[str, str] = {}
    for name, told in scenarios().items():
        instruments = Instruments(multifunction=testers[told.by])
        job = _begun(told, numbers, desk.log, Firm(**firm), instruments)
        numbers[name] = job.number
        for command in signed(told):
            _edited(desk.log, job.number, command, told)
        if told.issue:
            answer = desk.log.issue(job.number, by=told.issue.by, at=told.issue.at, bind=desk.bind)
            if isinstance(answer, Refusal):
                raise ValueError(f"{name} cannot be issued: {answer.reasons[0].says}")


def _begun(told: Scenario, numbers: dict[str, str], log: JobLog, firm: Firm, instruments: Instruments) -> Job:
    if not told.replaces:
        return log.create(started(told, firm, instruments), who=told.by, at=told.at)
    job = log.replace(numbers[told.replaces], who=told.by, at=told.at)
    if isinstance(job, Declined):
        raise ValueError(job.says)
    for command in typed_sections(told):
        _edited(log, job.number, command, told)
    return job


def _edited(log: JobLog, number: str, command: JobCommand, told: Scenario) -> None:
    done = log.edit(number, command, who=told.by, at=getattr(command, "at", told.at))
    if isinstance(done, Declined):
        raise ValueError(done.says)


def _is_filled(log: JobLog, home: Path) -> bool:
    kept = log.find(Query())
    if not kept:
        return False
    first = next(iter(scenarios().values())).sections["client"]["name"]
    if not log.find(Query(client=first)):
        raise UnusableError(
            f"{home} holds other jobs; the demo is kept apart from them, so choose another OHMFOLIO_HOME"
        )
    return True


COMMAND = Command(
    name="demo",
    summary="open an invented firm's job log, to look around in",
    run=run,
    options=(_FILL_ONLY, JSON),
    explains="In OHMFOLIO_HOME when that is set, else in a fresh folder of its own. A filled demo is left as it is.",
)
