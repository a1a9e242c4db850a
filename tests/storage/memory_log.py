"""A store that forgets: plain dictionaries of values, for tests. The use cases over it are the program's own."""

from collections import Counter
from collections.abc import Generator
from contextlib import contextmanager
from copy import copy
from dataclasses import dataclass, field, replace
from hashlib import sha256
from threading import RLock

from domain.duties.duty_days import JobDuties
from domain.duties.noted import noted
from domain.editing.undo import Edit
from domain.job.next_due import done_on
from domain.log.chain import NO_RECORD
from domain.log.due_days import DueAsked, DueRow, UnansweredRow
from domain.log.job_log import JobLine, Query, State, TrailLine, no_such_job
from domain.log.log_line import Findable, findable
from domain.log.numbering import Numbering
from domain.log.spelling import heard_gaps_of
from domain.log.store import IssuedRecord, Operation, StoredJob, TrailEntry
from domain.log.stored_log import StoredLog
from domain.log_note import LogNote
from domain.misspelling import may_be_misspelt
from domain.register.entries import Kept, Person, identity_of, still_asked, title_of, words_in
from domain.words import folded, joined, words_of
from storage.set_by import set_by
from storage.signing_phrase import ScryptPhrases


class MemoryJobLog(StoredLog):
    """The use cases of the log over a store that forgets."""

    def __init__(self) -> None:
        super().__init__(MemoryStore(), set_by, ScryptPhrases)


@dataclass
class MemoryPapers:
    """Fulfils `domain.log.store.PaperStore`."""

    kept: dict[str, tuple[IssuedRecord, bytes]] = field(default_factory=dict)

    def add(self, record, pdf) -> None:
        assert record.number not in self.kept
        self.kept[record.number] = record, pdf

    def record(self, number):
        return self.kept[number][0] if number in self.kept else None

    def pdf(self, number) -> bytes:
        return self.kept[number][1]

    def kept_in(self, number) -> str:
        return ""

    def head(self) -> bytes:
        return next(reversed(self.kept.values()))[0].chain if self.kept else NO_RECORD


@dataclass
class MemoryNotes:
    """Fulfils `domain.log.store.NoteStore`; a position is kept for a job that is there."""

    jobs: dict[str, StoredJob]
    kept: list[tuple[str, LogNote]] = field(default_factory=list)
    left: dict[tuple[str, str], str] = field(default_factory=dict)

    def add(self, topic, note) -> None:
        self.kept.append((topic, note))

    def of(self, topic, who):
        return tuple(note for about, note in self.kept if about == topic and who in ("", note.who))

    def about(self, topic, number):
        return tuple(note for note in self.of(topic, "") if number in noted([note.text]))

    def save_position(self, number, where, who) -> bool:
        self.left.pop((who, number), None)
        self.left[who, number] = where
        return number in self.jobs

    def position(self, number, who) -> str:
        return self.left.get((who, number), "")

    def last_opened(self, who) -> str:
        return next((number for person, number in reversed(self.left) if person == who), "")


@dataclass
class MemoryDuties:
    """Fulfils `domain.log.store.DutyStore`."""

    lines: dict[str, JobLine]
    kept: dict[str, JobDuties] = field(default_factory=dict)

    def put(self, number, owed) -> None:
        self.kept[number] = owed

    def rows(self, asked):
        found = []
        for age, number in enumerate(self.lines):
            line, owed = self.lines[number], self.kept.get(number, JobDuties())
            about = (number, line.form_set, line.client, line.premises, owed.contact)
            days = [day for day in owed.days if bool(day.done) == asked.done and _is_between(day, asked)]
            found += [((day.done.on if day.done else day.by, age, day.duty), DueRow(*about, day)) for day in days]
        found.sort(key=lambda each: each[0], reverse=asked.done)
        if asked.after:
            day, number, duty = asked.after
            place = (day, list(self.lines).index(number), duty)
            found = [each for each in found if (each[0] < place if asked.done else each[0] > place)]
        return iter([row for _, row in found][: asked.limit])

    def counted(self):
        found = Counter((row.day.by, row.day.kept) for row in self.rows(DueAsked()))
        return ((by, kept, count) for (by, kept), count in found.items())

    def unanswered(self, after, limit):
        asking = [number for number in self.lines if self.kept.get(number, JobDuties()).asks]
        asking = asking[asking.index(after) + 1 :] if after else asking
        lines = [self.lines[number] for number in asking[:limit]]
        return (
            UnansweredRow(line.number, line.client, line.premises, *reversed(self.kept[line.number][1:]))
            for line in lines
        )

    def count_unanswered(self) -> int:
        return len(list(self.unanswered("", None)))


@dataclass
class MemoryRegisters:
    """Fulfils `domain.log.store.RegisterStore`."""

    kept: dict[str, tuple[Kept, ...]] = field(default_factory=dict)

    def add(self, entry, *, entry_id, version, who, at, retired) -> Kept:
        key = entry_id or str(len(self.kept) + 1)
        made = Kept(id=key, version=version, at=at, who=who, entry=entry, retired=retired)
        self.kept[key] = (*self.versions(key), made)
        return made

    def versions(self, entry_id):
        return self.kept.get(entry_id, ())

    def entries(self, kind, words, *, retired, limit):
        found = [each for each in self._now() if each.entry.kind == kind and each.retired == retired]
        found = [each for each in found if all(_begins(word, words_in(each.entry)) for word in words_of(words))]
        return tuple(sorted(found, key=lambda each: (folded(title_of(each.entry)), int(each.id)))[:limit])

    def named(self, names):
        people = [each for each in self._now() if isinstance(each.entry, Person)]
        sought = dict.fromkeys(joined(name) for name in names if joined(name))
        return tuple(
            person
            for name in sought
            for person in still_asked(each for each in people if joined(each.entry.name) == name)
        )

    def holds(self, entry) -> bool:
        same = (entry.kind, identity_of(entry))
        return any((each.entry.kind, identity_of(each.entry)) == same for each in self._now())

    def _now(self) -> list[Kept]:
        return [versions[-1] for versions in self.kept.values()]


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

    def put(self, stored, line, entry) -> None:
        number = stored.job.number
        assert stored.version == self.version(number)
        self.jobs[number] = replace(stored, version=stored.version + 1)
        self.lines[number] = line
        self.trails[number] = (*self.trails.get(number, ()), entry)

    def operation(self, op):
        kept = [
            (number, at) for number, trail in self.trails.items() for at, each in enumerate(trail, 1) if each.op == op
        ]
        return Operation(*kept[0]) if kept else None

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

    def count(self, ways, most) -> int:
        return min(sum(_holds(self._found_by(line), ways) for line in self.lines.values()), most)

    def held(self, numbers):
        return {number: self._found_by(self.lines[number]) for number in numbers}

    def near(self, word):
        held = {other for words in self._words() for other in words}
        return {other for other in held if may_be_misspelt(other) and heard_gaps_of(other) & heard_gaps_of(word)}

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


def _is_between(day, asked) -> bool:
    return (asked.first or day.by) <= day.by <= (asked.until or day.by) and asked.kept in (None, day.kept)


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
        or (way.begun and _begins(way.text, held))
        for way in ways
    )


def _has_words(asked: str, held: set[str]) -> bool:
    words = words_of(asked)[:12]
    return all(word in held for word in words[:-1]) and (not words or _begins(words[-1], held))


def _begins(beginning: str, words) -> bool:
    return any(word.startswith(beginning) for word in words)
