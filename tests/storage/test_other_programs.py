"""What another program does to a log is there to be seen the next time one asks, so that two people in one job see each other's edits."""

from collections.abc import Callable
from pathlib import Path

import pytest

from domain.log.stored_log import StoredLog
from storage.postgres.postgres_job_log import PostgresJobLog
from storage.sqlite_job_log import SqliteJobLog
from tests.builders import AT, complete_minor_works, enter
from tests.storage.issuing import WHO


@pytest.fixture(params=("in SQLite", "on PostgreSQL"))
def opened(request: pytest.FixtureRequest, home: Path) -> Callable[[], StoredLog]:
    """Opens the same log again, as another program does."""
    if request.param == "in SQLite":
        return lambda: SqliteJobLog.open(home)
    address = request.getfixturevalue("address")
    return lambda: PostgresJobLog.open(address)


def test_an_edit_of_another_program_moves_the_data_version_and_is_the_next_line_of_the_trail(
    opened: Callable[[], StoredLog],
) -> None:
    ours = opened()
    number = ours.create(complete_minor_works(), who=WHO, at=AT).number
    version, seen = ours.version(number), ours.data_version()
    assert ours.data_version() == seen

    theirs = opened()
    theirs.edit(number, enter("client", "name", "Hester Quill"), who="robin", at=AT)
    assert ours.data_version() != seen
    assert [line.who for line in ours.trail(number, after=version)] == ["robin"]
    assert ours.load(number).client.name == "Hester Quill"
    theirs.close()
    ours.close()
