"""What a clerk half remembers finds the job that was meant, among thousands of others."""

import tomllib
from datetime import date
from pathlib import Path

import pytest

from domain.job.instrument import Instruments
from domain.job.people import Firm
from domain.log.job_log import Query
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, complete_minor_works, entered
from tests.ladder.many_jobs import fill
from tests.storage.issuing import WHO, bind
from tests.storage.memory_log import MemoryJobLog
from tui.commands.demo import demo_files, scenarios
from tui.commands.scenario import signed, started, typed_sections

OTHERS = 3_000
ON = date(2026, 11, 30)
FIRST = 10
"""Jobs on the first page of a list at 80 by 24."""
CASES = tomllib.loads((Path(__file__).parents[1] / "cases" / "half_remembered.toml").read_text(encoding="utf-8"))[
    "case"
]


@pytest.fixture(scope="module")
def log(tmp_path_factory):
    """The jobs of the demo after three thousand others."""
    home = tmp_path_factory.mktemp("half-remembered") / "log"
    fill(home, OTHERS)
    log = SqliteJobLog.open(home)
    firm = tomllib.loads(demo_files().joinpath("firm.toml").read_text(encoding="utf-8"))
    testers, numbers = firm.pop("testers"), {}
    for name, told in scenarios().items():
        if told.replaces:
            job = log.replace(numbers[told.replaces], because=told.replaces_because, who=told.by, at=told.at)
        else:
            job = log.create(
                started(told, Firm(**firm), Instruments(multifunction=testers[told.by])), who=told.by, at=told.at
            )
        numbers[name] = job.number
        for command in (*(typed_sections(told) if told.replaces else ()), *signed(told)):
            log.edit(job.number, command, who=told.by, at=getattr(command, "at", told.at))
        if told.issue:
            log.issue(job.number, by=told.issue.by, at=told.issue.at, bind=bind)
    yield log
    log.close()


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["typed"])
def test_what_is_half_remembered_is_on_the_first_page(log, case):
    found = log.search(Query(words=case["typed"], on=ON))
    meant = f"A-{OTHERS + int(case['finds'][2:]):04d}"
    assert meant in [job.line.number for job in found.jobs[:FIRST]], found


@pytest.mark.parametrize("typed", ["PO-4471/B", "po4471b", "po 4471", "4471"])
def test_a_job_is_found_by_the_reference_its_client_gave(typed):
    log = MemoryJobLog()
    log.create(complete_minor_works(), who=WHO, at=AT)
    meant = log.create(entered(complete_minor_works(), {"reference": "PO-4471/B"}, section="client"), who=WHO, at=AT)
    assert [found.line.number for found in log.search(Query(words=typed)).jobs] == [meant.number]
