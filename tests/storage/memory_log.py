"""A store that forgets: plain dictionaries of values, for tests. The use cases over it are the program's own."""

from collections.abc import Generator
from contextlib import contextmanager
from copy import copy
from dataclasses import replace
from functools import partial
from hashlib import sha256
from threading import RLock

from domain.editing.undo import Edit
from domain.job.next_due import done_on
from domain.log.chain import NO_RECORD
from domain.log.job_log import JobLine, Query, State, TrailLine, no_such_job
from domain.log.log_line import Findable, findable
from domain.log.numbering import Numbering
from domain.log.spelling import heard_gaps_of
from domain.log.store import EditMade, StoredJob, TrailEntry
from domain.log.stored_log import StoredLog
from domain.misspelling import may_be_misspelt
from domain.words import joined, words_of
from storage.set_by import set_by
from storage.signing_phrase import ScryptPhrases
from tests.storage.memory_parts import MemoryDuties, MemoryNotes, MemoryPapers, MemoryRegisters, begins

quick_phrases = partial(ScryptPhrases, cost=2)
"""Hashed as those of people are, at the least cost there is: a phrase of a test need not be slow to guess."""


class MemoryJobLog(StoredLog):
    """The use cases of the log over a store that forgets."""

    def __init__(self) -> None:
        super().__init__(MemoryStore(), set_by, quick_phrases)


class MemoryStore:
    """Fulfils `domain.log.store.Store`."""

    def __init__(self) -> None:
        self.jobs: dict[str, StoredJob] = {}
        self.exchange, self.is_of_firm = None, False
        self.prefix = "A"
        self.given: list[str] = []
        self.lines: dict[str, JobLine] = {}
        self.trails: dict[str, tuple[TrailEntry, ...]] = {}
        self.papers = MemoryPapers()
        self.notes = MemoryNotes(self.jobs)
        self.registers = MemoryRegisters()
        self.duties = MemoryDuties(self.lines)
        self.heads: set[bytes] = {NO_RECORD}
        self._turn = RLock()

    @contextmanager
    def transaction(self, *numbers) -> Generator[None]:
        with self._turn:
            parts = [vars(self), vars(self.papers), vars(self.notes), vars(self.registers), vars(self.duties)]
            held = [each for part in parts for each in part.values() if isinstance(each, dict | list)]
            before = [copy(each) for each in held]
            try:
                yield
            except BaseException:
                for each, was in zip(held, before, strict=True):
                    each.clear()
                    each.update(was) if isinstance(each, dict) else each.extend(was)
                raise

    def next_number(self) -> str:
        self.given.append(f"{self.prefix}-{len(self.given) + 1:04d}")
        return self.given[-1]

    def numbering(self) -> Numbering:
        return Numbering(self.prefix, "memory", len(self.given))

    def begin_numbers(self, prefix) -> bool:
        if not self.given:
            self.prefix = prefix
        return not self.given

    def get(self, number):
        stored = self.jobs.get(number)
        later = next((each.job.number for each in self.jobs.values() if each.replaces == number), "")
        return replace(stored, correction=later) if stored else None

    def put(self, stored, line, *entries) -> None:
        number = stored.job.number
        assert stored.version == self.version(number)
        self.jobs[number] = replace(stored, version=stored.version + len(entries))
        self.lines[number] = line
        self.trails[number] = (*self.trails.get(number, ()), *entries)

    def operation(self, op, number=""):
        kept = [
            (number, at) for number, trail in self.trails.items() for at, each in enumerate(trail, 1) if each.op == op
        ]
        return EditMade(*kept[0]) if kept else None

    def edits(self, number, who):
        return [
            Edit(version, each.what, each.changes, each.undoes, each.redoes)
            for version, each in enumerate(self.trails[number], 1)
            if each.who == who
        ]

    def trail(self, number, after):
        lines = enumerate(self.trails.get(number, ()), 1)
        return tuple(
            TrailLine(
                version=version, at=each.at, who=each.who, what=each.what, place=getattr(each.command, "place", None)
            )
            for version, each in lines
            if version > after
        )

    def line(self, number):
        return self.lines.get(number)

    def version(self, number) -> int:
        return len(self.trails.get(number, ()))

    def find(self, query, sought=()):
        if query.before and query.before not in self.jobs:
            raise no_such_job(query.before)
        begun = {number: at for at, number in enumerate(self.jobs)}
        lines = [line for line in self.lines.values() if line.due or not query.due_before]
        lines.sort(key=lambda line: (line.due if query.due_before else line.updated, begun[line.number]))
        if not query.due_before:
            lines.reverse()
        numbers = [line.number for line in lines]
        after = lines[numbers.index(query.before) + 1 :] if query.before else lines
        found = (line for line in after if self._matches(line, query))
        return tuple(line for line in found if all(_holds(self._found_by(line), ways) for ways in sought))[
            : query.limit
        ]

    def counts(self, things, most) -> tuple[int, ...]:
        held = [self._found_by(line) for line in self.lines.values()]
        return tuple(min(sum(_holds(words, ways) for words in held), most) for ways in things)

    def held(self, numbers):
        return {number: self._found_by(self.lines[number]) for number in numbers}

    def near(self, words):
        held = {other for each in self._words() for other in each if may_be_misspelt(other)}
        return {word: [other for other in held if heard_gaps_of(other) & heard_gaps_of(word)] for word in words}

    def data_version(self) -> int:
        return 0

    def head(self) -> bytes:
        now = self.trails, self.papers.kept, self.notes.kept, self.registers.kept
        self.heads.add(sha256(repr(now).encode()).digest() if any(now) else NO_RECORD)
        return sha256(repr(now).encode()).digest() if any(now) else NO_RECORD

    def had_head(self, head) -> bool:
        return head in self.heads

    def refuses(self) -> str:
        return ""

    def close(self) -> None:
        """Nothing is held open."""

    def _words(self) -> list[set[str]]:
        found = [self._found_by(line) for line in self.lines.values()]
        return [{*words.client, *words.place, *words.other} for words in found]

    def _found_by(self, line: JobLine) -> Findable:
        return findable(self.jobs[line.number].job, updated=line.updated)

    def _matches(self, line: JobLine, asked: Query) -> bool:
        job = self.jobs[line.number].job
        words = self._found_by(line)
        wanted = {"form_set": line.form_set, "state": line.state, "outcome": line.outcome}
        return (
            all(getattr(asked, name) in (None, held) for name, held in wanted.items())
            and (asked.due_before is None or (line.due is not None and line.due <= asked.due_before))
            and (not asked.hand or asked.hand in {each.who for each in self.trails[line.number]})
            and asked.laid_aside == line.laid_aside
            and (not asked.to_put_right or _is_to_put_right(line, is_seen=job.chosen.seen is not None))
            and (asked.year is None or asked.year == getattr(done_on(job), "year", None))
            and _has_words(asked.engineer, set(words.engineer))
            and asked.open_snags in (None, line.open_snags > 0)
            and (not joined(asked.number) or joined(asked.number) == joined(line.number))
            and _has_words(asked.words, {*words.client, *words.place, *words.other})
            and _has_words(asked.client, set(words.client))
            and _has_words(asked.place, set(words.place))
        )


def _is_to_put_right(line: JobLine, *, is_seen: bool) -> bool:
    return (
        (line.state is State.ISSUED or is_seen)
        and bool(line.outcome and line.outcome.is_to_put_right)
        and not line.put_right
    )


def _holds(words: Findable, ways) -> bool:
    columns = {"": (*words.client, *words.place, *words.other)}
    return any(
        way.text in (held := columns.get(way.column) or getattr(words, way.column or "other"))
        or (way.begun and begins(way.text, held))
        for way in ways
    )


def _has_words(asked: str, held: set[str]) -> bool:
    words = words_of(asked)[:12]
    return all(word in held for word in words[:-1]) and (not words or begins(words[-1], held))
