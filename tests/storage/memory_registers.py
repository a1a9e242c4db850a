"""The registers of a log that forgets, for tests."""

from collections.abc import Iterable
from datetime import datetime

from domain.job.job import Job
from domain.log.job_log import JobLogError
from domain.register.entries import Kept, Person, RegisterEntry, RegisterKind, identity_of, title_of, words_in
from domain.register.learning import learnt_from
from domain.words import folded, joined, words_of


class MemoryRegisters:
    """What `domain.log.job_log.JobLog` asks of the registers, with plain dictionaries."""

    def __init__(self) -> None:
        self._register: dict[str, list[Kept]] = {}

    def register(
        self, entry: RegisterEntry, *, entry_id: str = "", who: str, at: datetime, retired: bool = False
    ) -> Kept:
        if entry_id and entry_id not in self._register:
            raise JobLogError(f"There is no entry {entry_id!r} in the registers.")
        key = entry_id or str(len(self._register) + 1)
        versions = self._register.setdefault(key, [])
        if versions and versions[0].entry.kind != entry.kind:
            raise JobLogError(f"Entry {entry_id} is a {versions[0].entry.kind} and stays one.")
        versions.append(Kept(id=key, version=len(versions) + 1, at=at, who=who, entry=entry, retired=retired))
        return versions[-1]

    def registered(
        self, kind: RegisterKind, words: str = "", *, retired: bool = False, limit: int = 50
    ) -> tuple[Kept, ...]:
        now = [versions[-1] for versions in self._register.values()]
        found = [
            each
            for each in now
            if each.entry.kind == kind
            and each.retired == retired
            and all(any(held.startswith(word) for held in words_in(each.entry)) for word in words_of(words))
        ]
        return tuple(sorted(found, key=lambda each: (folded(title_of(each.entry)), int(each.id)))[:limit])

    def people_named(self, names: Iterable[str]) -> tuple[Person, ...]:
        sought = {joined(name) for name in names}
        people = [each[-1] for each in self._register.values() if not each[-1].retired]
        return tuple(
            each.entry for each in people if isinstance(each.entry, Person) and joined(each.entry.name) in sought - {""}
        )

    def versions_of(self, entry_id: str) -> tuple[Kept, ...]:
        return tuple(self._register.get(entry_id, ()))

    def learn(self, job: Job, *, who: str, at: datetime) -> None:
        for entry in learnt_from(job):
            known = {(each[-1].entry.kind, identity_of(each[-1].entry)) for each in self._register.values()}
            if (entry.kind, identity_of(entry)) not in known:
                self.register(entry, who=who, at=at)
