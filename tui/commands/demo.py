"""`demo`: an invented firm's job log, filled through the domain, to look around in."""

import tempfile
import tomllib
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import Any

from domain.editing.commands import Declined
from domain.gate.assessment import Refusal
from domain.job.instrument import Instruments
from domain.job.job import Job
from domain.job.people import Firm
from domain.log.job_log import JobLog, Query
from tui.commands.command import (
    JSON,
    Command,
    CommandAnswer,
    CommandOption,
    Environment,
    TypedArgument,
    UnusableError,
    require_terminal,
)
from tui.commands.scenario import Scenario, scenario_in, signed, started, typed_sections
from tui.log_place import LogPlace
from tui.services import Services

_FILL_ONLY = CommandOption("--fill-only", "fill the demo log and say where it is; do not open it")


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Fill the demo log where it is not filled yet, and open it."""
    if not typed.has(_FILL_ONLY.name):
        require_terminal()
    home = environment.configuration().home_of_this_run or Path(tempfile.mkdtemp(prefix="ohmfolio-demo-"))
    with environment.open_services(LogPlace(home), begins=True) as services:
        was_there = _is_filled(services.log, home)
        if not was_there:
            fill(services)
        jobs = len(services.log.find(Query()))
    answer = CommandAnswer(
        {"home": str(home), "jobs": jobs, "filled": not was_there},
        f"The demo log {'is there already' if was_there else 'is filled'}, {jobs} jobs: {home}",
    )
    if typed.has(_FILL_ONLY.name):
        return answer
    code = environment.screens(LogPlace(home))
    return CommandAnswer(answer.value, f"The demo log is kept in {home}", code)


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


def fill(services: Services) -> None:
    """Play every job into the log; one that was broken off is taken up where it stands."""
    firm: dict[str, Any] = tomllib.loads(demo_files().joinpath("firm.toml").read_text(encoding="utf-8"))
    testers: dict[str, str] = firm.pop("testers")
    kept = sorted(line.number for line in services.log.find(Query()))
    numbers: dict[str, str] = {}
    for order, (name, told) in enumerate(scenarios().items()):
        if order < len(kept):
            number = kept[order]
        elif told.replaces:
            number = _accepted(_corrected(told, numbers[told.replaces], services)).number
        else:
            job = started(told, Firm(**firm), Instruments(multifunction=testers[told.by]))
            number = services.log.create(job, who=told.by, at=told.at).number
        numbers[name] = number
        if not services.log.issued(number):
            _finish(told, number, services)


def _corrected(told: Scenario, number: str, services: Services) -> Job | Declined:
    return services.log.replace(number, because=told.replaces_because, who=told.by, at=told.at)


def _finish(told: Scenario, number: str, services: Services) -> None:
    corrections = typed_sections(told) if told.replaces else ()
    for command in (*corrections, *signed(told)):
        _accepted(services.log.edit(number, command, who=told.by, at=getattr(command, "at", told.at)))
    if told.issue:
        answer = services.log.issue(number, by=told.issue.by, at=told.issue.at, bind=services.bind)
        if isinstance(answer, Refusal):
            raise ValueError(f"a job of the demo cannot be issued: {answer.reasons[0].says}")


def _accepted(done: Job | Declined) -> Job:
    if isinstance(done, Declined):
        raise ValueError(f"the demo cannot be played: {done.says}")
    return done


def _is_filled(log: JobLog, home: Path) -> bool:
    kept = log.find(Query())
    if kept and not log.find(Query(client=next(iter(scenarios().values())).sections["client"]["name"])):
        raise UnusableError(
            f"{home} holds other jobs; the demo is kept apart from them, so choose another OHMFOLIO_HOME"
        )
    return len(kept) >= len(scenarios())


COMMAND = Command(
    name="demo",
    run=run,
    options=(_FILL_ONLY, JSON),
    explains="In OHMFOLIO_HOME when that is set, else in a fresh folder of its own. A filled demo is left as it is.",
)
