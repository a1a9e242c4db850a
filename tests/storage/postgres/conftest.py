import pytest

from storage.postgres.postgres_job_log import PostgresJobLog
from storage.postgres.server_address import ServerAddress
from tests.storage.database_server import DatabaseServer
from tests.storage.issuing import issued_in


@pytest.fixture(scope="module")
def an_issued_log(database_server: DatabaseServer) -> ServerAddress:
    """A log with a paper in it, for tests whose acts the server must refuse: nothing is ever altered there."""
    address = database_server.address("postgres", "of_refusals")
    log = PostgresJobLog.open(address)
    issued_in(log)
    log.close()
    return address
