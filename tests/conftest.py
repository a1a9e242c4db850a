"""How many examples property tests try: few by default, many in a long run.

    EXAMPLES=long pytest tests/domain

A test whose one example is dear, or whose inputs are many, asks for its share with `examples` of `tests/examples.py`.
"""

import gc
import os
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import settings

from storage.postgres.postgres_store import PostgresStore
from tests.storage.database_server import NOT_THERE, DatabaseServer, programs, running

settings.register_profile("default", max_examples=50, deadline=None)
settings.register_profile("long", max_examples=1000, deadline=None)
settings.load_profile(os.environ.get("EXAMPLES", "default"))


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_auto_num_workers() -> int:
    """One more than there are processors: tests of screens and terminals wait as often as they work."""
    return (os.cpu_count() or 1) + 1


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> Any:
    """Tests of one file stay together, so that what they share is made once; whoever is done takes from the others."""
    from xdist.scheduler import WorkStealingScheduling

    return WorkStealingScheduling(config, log)


def pytest_collection_finish() -> None:
    """What was loaded and collected stays to the end: the collector of garbage need not look through it again and again."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(50_000, 10, 10)


@pytest.fixture(scope="session")
def database_server() -> Iterator[DatabaseServer]:
    """A server of this process of the tests' own; its log is begun."""
    if programs() is None:
        pytest.skip(NOT_THERE)
    with running() as server:
        PostgresStore.open(server.address("postgres")).close()
        yield server
