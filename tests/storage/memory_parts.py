"""What a store that forgets is made of: papers, notes, duties and registers, each a plain dictionary."""

from collections import Counter
from dataclasses import dataclass, field

from domain.duties.duty_days import JobDuties
from domain.duties.noted import noted
from domain.log.chain import NO_RECORD
from domain.log.due_days import DueAsked, DueRow, UnansweredRow
from domain.log.job_log import JobLine
from domain.log.store import IssuedRecord, StoredJob
from domain.log_note import LogNote
from domain.register.entries import Kept, Person, identity_of, still_asked, title_of, words_in
from domain.words import folded, joined, words_of


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

    def last(self):
        return next(((record.number, record.at) for record, _ in reversed(self.kept.values())), None)


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
        found = [each for each in found if all(begins(word, words_in(each.entry)) for word in words_of(words))]
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


def _is_between(day, asked) -> bool:
    return (asked.first or day.by) <= day.by <= (asked.until or day.by) and asked.kept in (None, day.kept)


def begins(beginning: str, words) -> bool:
    return any(word.startswith(beginning) for word in words)
