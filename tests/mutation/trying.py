"""The mutants of a room tried, from inside a copy of the tree: `python -m tests.mutation.trying ROOM [MUTANT ...] [-- TESTS]`.

Everything is loaded and the tests are collected once. The tests of each file then run in a child process, which notes the
lines of the room that each goes through, with nothing remembered from the one before. Each mutant gets a child of its own, in
which the tests that go through its statement run until one is red: first those that noticed others of the same function or
file, then the quick ones. What the tests of `beforehand` share with others is made once, on the sound tree, so that no mutant
is tried with what it would itself have made of it.
"""

import fnmatch
import gc
import importlib
import json
import os
import sys
import threading
from collections import Counter
from collections.abc import Mapping, Sequence
from functools import _lru_cache_wrapper, partial
from itertools import groupby
from pathlib import Path
from typing import Any, NamedTuple

import coverage
import pytest
from _pytest.runner import runtestprotocol
from hypothesis import HealthCheck, Phase, settings

from domain.gate.assessment import assess
from storage import child_process
from storage.child_process import named
from tests import nursery
from tests.builders import complete_certificate, complete_minor_works, complete_report
from tests.mutation.forks import OverTimeError, in_a_fork
from tests.mutation.mutants import Mutant, changes_of, drawn, functions_at_work, mutants_of, put_in
from tests.mutation.rooms import rooms

_ROOT = Path.cwd()
_LONGEST_FILE = 600.0
_TIMES_OVER = 10.0
"""A mutant that makes its tests so many times slower is told by that."""


class TestRun(NamedTuple):
    """What a test did on the sound tree."""

    passed: bool
    seconds: float
    lines: Mapping[str, frozenset[int]]
    """By file, those it goes through."""


class Fate(NamedTuple):
    """What became of a mutant."""

    name: str
    alive: bool
    tests: int
    """That go through its statement."""
    by: str
    change: str


class Trial:
    """A plugin of pytest that tries mutants in the place of running tests."""

    def __init__(self, room: Mapping[str, Any], names: Sequence[str]) -> None:
        files = [str(each.relative_to(_ROOT)) for glob in room["mutate"] for each in sorted(_ROOT.glob(glob))]
        self.files = [each for each in files if not any(fnmatch.fnmatch(each, one) for one in room.get("not", ()))]
        every = [each for file in self.files for each in changes_of(file, Path(file).read_text(encoding="utf-8"))]
        chosen = (
            [each for each in every if each.name in names]
            if names
            else drawn(every, room.get("drawn"), room.get("seed", 18))
        )
        self.count, self.mutants = len(every), [*mutants_of(chosen)]
        self.seconds, self.beforehand = float(room.get("seconds", 30)), frozenset(room.get("beforehand", ()))
        self.noticed: Counter[tuple[str, str]] = Counter()

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        for file in self.files:
            importlib.import_module(file.removesuffix(".py").removesuffix("/__init__").replace("/", "."))
        gc.unfreeze()
        functions = functions_at_work(_ROOT, self.files)
        self.make_beforehand(session.items)
        self.warm()
        gc.collect()
        gc.freeze()
        runs = self.runs_of(session.items)
        _tell(files=len(self.files), mutants=self.count, tried=len(self.mutants), tests=len(runs))
        for mutant in self.mutants:
            at_work = functions.get((mutant.file, mutant.function))
            assert at_work, f"{mutant.function} of {mutant.file} is nowhere"
            started = _worked()
            fate = self.fate_of(mutant, at_work, session.items, runs)
            _tell(**fate._asdict(), seconds=round(_worked() - started, 2))
        return True

    def make_beforehand(self, items: Sequence[pytest.Item]) -> None:
        """Run the tests that make what many share, so that no mutant has to make it again; none may leave a thread behind."""
        for each in (item for item in items if item.nodeid in self.beforehand):
            around = {*each.listchain()}
            # What is made for the whole session stays for one that has nothing else in common with it.
            if not _passes(each, min(items, key=lambda other: len(around & {*other.listchain()}))):
                raise SystemExit(f"red on the sound tree: {each.nodeid}")
        assert threading.active_count() == 1, "children would wait for threads that they do not have"

    def warm(self) -> None:
        """Load the tables and make the jobs of the builders once."""
        for make in (complete_certificate, complete_report, complete_minor_works):
            assess(make(sign=False))
        self.another = complete_minor_works(sign=False).model_copy()
        modules = {each.removesuffix(".py").replace("/", ".") for each in self.files}
        every = [each for each in gc.get_objects() if isinstance(each, _lru_cache_wrapper)]
        self.remembering = [each for each in every if each.__module__ in modules]
        self.handing_on = [each for each in every if str(each.__module__).startswith("tests.")]
        self.forget()

    def runs_of(self, items: Sequence[pytest.Item]) -> dict[str, TestRun]:
        """How each test goes on the sound tree; all must pass."""
        runs = dict[str, TestRun]()
        for _, of_one in groupby(items, lambda each: each.path):
            tests = [*of_one]
            runs |= in_a_fork(partial(self.all_watched, tests), _LONGEST_FILE)
        if red := [name for name, run in runs.items() if not run.passed]:
            raise SystemExit(f"red on the sound tree: {red}")
        return runs

    def all_watched(self, items: Sequence[pytest.Item]) -> dict[str, TestRun]:
        """Where a test is handed what another made and a cache of the tests kept, it goes through the lines of that other too."""
        runs = dict[str, TestRun]()
        made = [set[tuple[str, int]]() for _ in self.handing_on]
        for each, following in zip(items, [*items[1:], None], strict=True):
            self.forget()
            before = [cache.cache_info() for cache in self.handing_on]
            run = self.watched(each, following if self.beforehand else None)
            own = [(file, line) for file, lines in run.lines.items() for line in lines]
            lines = {file: set(held) for file, held in run.lines.items()}
            for cache, was, by_others in zip(self.handing_on, before, made, strict=True):
                if cache.cache_info().hits > was.hits:
                    for file, line in by_others:
                        lines.setdefault(file, set()).add(line)
                if cache.cache_info().misses > was.misses:
                    by_others.update(own)
            runs[each.nodeid] = run._replace(lines={file: frozenset(held) for file, held in lines.items()})
        return runs

    def forget(self) -> None:
        """What functions of the room remember, by what they were asked or by the job that was looked at last."""
        for each in self.remembering:
            each.cache_clear()
        assess(self.another)

    def watched(self, item: pytest.Item, following: pytest.Item | None) -> TestRun:
        """With `following`, what both share is made for the first of them and counts as its alone."""
        watch = coverage.Coverage(data_file=None, config_file=False, include=[str(_ROOT / each) for each in self.files])
        started = _worked()
        watch.start()
        passed = _passes(item, following)
        watch.stop()
        seconds = _worked() - started
        data = watch.get_data()
        lines = {each: frozenset(data.lines(str(_ROOT / each)) or ()) for each in self.files}
        return TestRun(passed, seconds, {file: each for file, each in lines.items() if each})

    def fate_of(
        self, mutant: Mutant, at_work: Sequence[Any], items: Sequence[pytest.Item], runs: Mapping[str, TestRun]
    ) -> Fate:
        through = [each for each in items if mutant.lines & runs[each.nodeid].lines.get(mutant.file, frozenset())]
        through.sort(key=lambda each: runs[each.nodeid].seconds / self.promise(mutant, each))
        needed = sum(runs[each.nodeid].seconds for each in through)
        try:
            by = in_a_fork(
                lambda: self.first_red(mutant, at_work, through), 2 + _TIMES_OVER * min(needed, self.seconds)
            )
        except OverTimeError:
            by = "the time or memory it takes"
        self.noticed.update([(mutant.name.rpartition(":")[0], by), (mutant.file, by)])
        return Fate(mutant.name, not by, len(through), by, mutant.change)

    def first_red(self, mutant: Mutant, at_work: Sequence[Any], items: Sequence[pytest.Item]) -> str:
        """The test that notices, or nothing where none did in the time there is."""
        put_in(mutant, at_work)
        started = _worked()
        for item, following in zip(items, [*items[1:], None], strict=True):
            if not _passes(item, following):
                return item.nodeid
            if _worked() - started > self.seconds:
                break
        return ""

    def promise(self, mutant: Mutant, item: pytest.Item) -> int:
        """How much more than another a test may take, for what it noticed in this function and this file."""
        function = mutant.name.rpartition(":")[0]
        return 1 + 9 * self.noticed[function, item.nodeid] + self.noticed[mutant.file, item.nodeid]


def _answer_here() -> None:
    """Have this process answer what programs ask of processes of their own, in which no mutant would be."""

    def asked(answering: str, request: bytes, limits: object) -> bytes:
        return named(answering)(request)

    def begin(parting: object) -> None:
        """Nobody asks it."""

    # Their callers hold them by name already.
    child_process.asked.__code__ = asked.__code__
    nursery.begin.__code__ = begin.__code__


def _worked() -> float:
    """Seconds of the processor, children's among them."""
    return sum(os.times()[:4])


def _passes(item: pytest.Item, following: pytest.Item | None) -> bool:
    return not any(each.failed for each in runtestprotocol(item, log=False, nextitem=following))


def _tell(**told: object) -> None:
    sys.stdout.write(json.dumps(told, ensure_ascii=False) + "\n")
    sys.stdout.flush()


def main() -> int:
    """Try what was typed; a line of JSON for each mutant."""
    settings.register_profile(
        "mutants",
        settings.get_profile("default"),
        max_examples=50,
        deadline=None,
        derandomize=True,
        database=None,
        phases=(Phase.explicit, Phase.generate),
        suppress_health_check=[*HealthCheck],
    )
    os.environ["EXAMPLES"] = "mutants"
    _answer_here()
    name, *more = sys.argv[1:]
    at = more.index("--") if "--" in more else len(more)
    room, names, tests = rooms()[name], more[:at], more[at + 1 :]
    left_out = [f"--ignore={each}" for each in room.get("not_tests", ())]
    left_out += ["-k", f"not ({room['not_named']})"] if "not_named" in room else []
    options = ["-s", "-n", "0", "-p", "no:cacheprovider", "--basetemp", str(_ROOT / "made")]
    return int(pytest.main([*options, *left_out, *(tests or room["tests"])], plugins=[Trial(room, names)]))


if __name__ == "__main__":
    sys.exit(main())
