"""How many examples property tests try: few by default, many in a long run.

    EXAMPLES=long pytest tests/domain

A test whose one example is dear, or whose inputs are many, asks for its share with `examples` of `tests/examples.py`.
"""

import gc
import os
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings

from storage.postgres.postgres_store import PostgresStore
from tests import nursery
from tests.storage.database_server import NOT_THERE, DatabaseServer, programs, running

# Every worker, and every process that tests start, would compile all anew where that is kept off.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
sys.dont_write_bytecode = False

# Logs are written and thrown away by the thousand: in memory, where there is room, no disk has to be waited for.
_MEMORY = Path("/dev/shm")
if os.access(_MEMORY, os.W_OK) and shutil.disk_usage(_MEMORY).free > 4 * 2**30:
    os.environ.setdefault("PYTEST_DEBUG_TEMPROOT", str(_MEMORY))

# The suite tries the same examples every time, so that it tells of a change and never of the day; `long` searches anew.
settings.register_profile("default", max_examples=50, deadline=None, derandomize=True)
settings.register_profile("long", max_examples=1000, deadline=None, print_blob=True)
settings.load_profile(os.environ.get("EXAMPLES", "default"))

_HERE = Path(__file__).parent
_DEAREST = (
    "domain/checks/test_less_than_a_figure.py",
    "storage/paper/test_old_packs.py",
    "storage/postgres/test_broken_lines.py",
    "storage/test_query_plans.py",
    "tui/commands/test_keys.py",
    "tui/commands/test_verify.py",
    "tui/journeys/test_branches.py",
    "tui/meter/test_certificate.py",
)
"""Files with a test, or a thing that its tests share, of several seconds."""


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_auto_num_workers() -> int:
    """Two for each processor: tests of screens, terminals and servers wait as often as they work."""
    return 2 * (os.cpu_count() or 1)


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> Any:
    """Tests of one file stay together, so that what they share is made once; whoever is done takes from the others."""
    from xdist.scheduler import WorkStealingScheduling

    return WorkStealingScheduling(config, log)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """The dearest files begin first, dealt out among the workers, so that none is left over at the end for one alone.

    The workers begin with as many tests each, in this order; the tests of a file stay as they stand.
    """
    workers = int(os.environ.get("PYTEST_XDIST_WORKER_COUNT", "1"))
    dear, cheap = [each for each in items if _is_dear(each)], [each for each in items if not _is_dear(each)]
    files = sorted({each.path for each in dear})
    dealt: list[pytest.Item] = []
    for worker in range(workers):
        mine = files[worker::workers]
        first = [each for each in dear if each.path in mine]
        most = (len(items) - len(dealt)) // (workers - worker)
        filling = max(0, most - len(first))
        dealt += first + cheap[:filling]
        cheap = cheap[filling:]
    items[:] = dealt + cheap


def _is_dear(item: pytest.Item) -> bool:
    return item.path.relative_to(_HERE).as_posix().startswith(_DEAREST)


def pytest_collection_finish() -> None:
    """What was loaded and collected stays to the end: the collector of garbage need not look through it again and again."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(50_000, 10, 10)


@pytest.fixture(scope="module")
def processes_part() -> Iterator[None]:
    """What the program starts in this file of tests parts from a process that has all loaded; see `tests/nursery.py`."""
    from tests.parting import PARTING

    with nursery.in_use(PARTING):
        yield


@pytest.fixture(scope="session")
def database_server() -> Iterator[DatabaseServer]:
    """A server of this process of the tests' own; its log is begun."""
    if programs() is None:
        pytest.skip(NOT_THERE)
    with running() as server:
        PostgresStore.open(server.address("postgres")).close()
        yield server
