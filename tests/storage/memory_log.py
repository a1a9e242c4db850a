"""A job log that forgets: fulfils the port with plain dictionaries, for tests."""

import hashlib
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from datetime import datetime

from domain.duties.duty_facts import DutyFacts, duty_facts
from domain.editing.audit_text import audit_text, shortened
from domain.editing.commands import Command, Declined, Sign
from domain.editing.correction import correction_of
from domain.editing.reducer import apply
from domain.editing.undo import Edit, UndoStep, kept, step_back, step_forward
from domain.gate.assessment import Hold, Pack, Reason, Refusal, issue, not_theirs_to_sign
from domain.gate.issued_paper import IssuedPaper
from domain.job.job import Job, canonical, fingerprint, record_hash
from domain.job.next_due import done_on
from domain.job.start import as_draft
from domain.log.job_log import Bound, JobLine, JobLogError, Query, State, TrailLine
from domain.log.log_line import findable, line_of
from domain.log.search_words import understood
from domain.log.spelling import corrected, gaps_of, may_be_misspelt
from domain.log_note import LogNote
from domain.place import Place
from domain.register.signing import declined
from domain.words import joined, words_of
from storage.rows import leaf, link
from storage.set_by import set_by
from tests.storage.memory_registers import MemoryRegisters


@dataclass
class _Entry:
    job: Job
    updated: datetime
    replaces: str = ""
    replaced_by: str = ""
    issued: IssuedPaper | None = None
    put_right: bool = False
    trail: list[TrailLine] = field(default_factory=list)
    edits: list[Edit] = field(default_factory=list)

    @property
    def line(self) -> JobLine:
        return line_of(self.job, updated=self.updated, replaced=bool(self.replaced_by), put_right=self.put_right)


class MemoryJobLog(MemoryRegisters):
    """Fulfils `domain.log.job_log.JobLog`."""

    def __init__(self) -> None:
        super().__init__()
        self._entries: dict[str, _Entry] = {}
        self._left: dict[tuple[str, str], str] = {}
        self._jottings: list[tuple[str, LogNote]] = []
        self._head = "00" * 32

    def create(self, job: Job, *, who: str, at: datetime) -> Job:
        return self._begin(job, who=who, at=at, what="Begun").job

    def create_all(self, jobs: Iterable[Job], *, who: str, at: datetime) -> tuple[Job, ...]:
        return tuple(self.create(job, who=who, at=at) for job in list(jobs))

    def edit(self, number: str, command: Command, *, who: str, at: datetime) -> Job | Declined:
        entry = self._must_hold(number)
        no = declined(command, self.people_named((command.name,))) if isinstance(command, Sign) else None
        after = no or apply(entry.job, command)
        if not isinstance(after, Declined) and after != entry.job:
            self._keep(
                entry, after, who=who, at=at, what=audit_text(entry.job, command), place=getattr(command, "place", None)
            )
        return after

    def undo(self, number: str, *, who: str, at: datetime) -> UndoStep | Declined:
        return self._step(number, step_back, who=who, at=at, undoes=True)

    def redo(self, number: str, *, who: str, at: datetime) -> UndoStep | Declined:
        return self._step(number, step_forward, who=who, at=at, undoes=False)

    def _step(self, number: str, take, *, who: str, at: datetime, undoes: bool) -> UndoStep | Declined:
        entry = self._must_hold(number)
        step = take(entry.job, [edit for edit in entry.edits if entry.trail[edit.version - 1].who == who])
        if not isinstance(step, Declined):
            passed = {"undoes": step.version} if undoes else {"redoes": step.version}
            self._keep(entry, step.job, who=who, at=at, what=step.says, **passed)
        return step

    def _keep(self, entry: _Entry, after: Job, *, who, at, what, place=None, **passed) -> None:
        version = len(entry.trail) + 1
        entry.edits.append(Edit(version, what, kept(entry.job, after), **passed))
        entry.job = after
        self._note(entry, who=who, at=at, what=what, place=place)

    def version(self, number: str) -> int:
        return len(self.trail(number))

    def pulse(self) -> int:
        return 0

    def load(self, number: str) -> Job | None:
        entry = self._entries.get(number)
        return entry.job if entry else None

    def line(self, number: str) -> JobLine | None:
        entry = self._entries.get(number)
        return entry.line if entry else None

    def dated(self) -> Iterator[tuple[JobLine, DutyFacts]]:
        standing = [each for each in self._entries.values() if not each.replaced_by]
        return ((each.line, duty_facts(each.job)) for each in standing)

    def find(self, query: Query) -> tuple[JobLine, ...]:
        before = self._must_hold(query.before) if query.before else None
        asked = understood(query)
        begun = {number: at for at, number in enumerate(self._entries)}
        if asked.due_before:
            due = (entry for entry in self._entries.values() if entry.line.due)
            ordered = sorted(due, key=lambda entry: (entry.line.due, begun[entry.job.number]))
        else:
            ordered = sorted(
                self._entries.values(), key=lambda entry: (entry.updated, begun[entry.job.number]), reverse=True
            )
        after = ordered[ordered.index(before) + 1 :] if before else ordered
        return tuple(entry.line for entry in after if _matches(entry, asked))[: query.limit]

    def corrected(self, query: Query) -> Query | None:
        held = [{*words.client, *words.place, *words.other} for words in map(findable, self._jobs())]

        def knows(word: str, begun: bool) -> bool:
            return any(other == word or (begun and other.startswith(word)) for words in held for other in words)

        def near(word: str) -> list[tuple[str, int]]:
            known = {other for words in held for other in words if may_be_misspelt(other)}
            return [(other, sum(other in words for words in held)) for other in known if gaps_of(other) & gaps_of(word)]

        return corrected(query, knows, near)

    def _jobs(self) -> list[Job]:
        return [entry.job for entry in self._entries.values()]

    def trail(self, number: str, *, after: int = 0) -> tuple[TrailLine, ...]:
        entry = self._entries.get(number)
        return tuple(entry.trail[after:]) if entry else ()

    def issue(
        self, number: str, *, by: str, at: datetime, bind: Callable[[Pack], Bound], seen: str = ""
    ) -> IssuedPaper | Refusal:
        entry = self._must_hold(number)
        if seen and fingerprint(entry.job) != seen and not entry.job.issued:
            return _refusal(f"{entry.trail[-1].who} changed the job since you looked")
        version = len(entry.trail)
        passed = issue(
            entry.job, by=by, at=at, people=self.people_named(entry.job.signers), head=self._head, set_by=set_by()
        )
        if isinstance(passed, Refusal):
            return passed
        bound = bind(passed)
        if len(entry.trail) != version:
            return _refusal(f"{entry.trail[-1].who} changed the job while its paper was being made")
        if reasons := not_theirs_to_sign(entry.job, self.people_named(entry.job.signers)):
            return Refusal(reasons=reasons)
        entry.job = passed.job
        entry.issued = IssuedPaper(
            number=number,
            sha256=hashlib.sha256(bound.pdf).hexdigest(),
            record_sha256=record_hash(passed.job),
            pages=bound.pages,
            pack=passed,
            kept=f"memory/{number}.pdf",
        )
        paper = bytes.fromhex(entry.issued.sha256)
        self._head = link(bytes.fromhex(self._head), leaf(canonical(passed.job)), paper).hex()
        self._note(entry, who=by, at=at, what="Issued")
        self.learn(passed.job, who=by, at=at)
        if entry.replaces:
            old = self._entries[entry.replaces]
            old.replaced_by = number
            self._note(old, who=by, at=at, what=f"Replaced by {number}")
        return entry.issued

    def issued(self, number: str) -> IssuedPaper | None:
        entry = self._entries.get(number)
        return entry.issued.model_copy(update={"replaced_by": entry.replaced_by}) if entry and entry.issued else None

    def replace(self, number: str, *, because: str, who: str, at: datetime) -> Job | Declined:
        old = self._must_hold(number)
        other = next((each.job.number for each in self._entries.values() if each.replaces == number), "")
        if old.replaced_by:
            return Declined(says=f"{number} has been replaced by {other}; correct that one")
        if other:
            return Declined(says=f"{other} is being made to replace {number} already; go on with that one")
        if not old.issued:
            return Declined(says=f"{number} has not been issued; change it as it is")
        draft = correction_of(old.job, because)
        if isinstance(draft, Declined):
            return draft
        what = f"Begun to replace {number} because: {shortened(draft.replaces_because)}"
        entry = self._begin(draft, who=who, at=at, what=what)
        entry.replaces = number
        return entry.job

    def note_put_right(self, number: str, papers: str, *, who: str, at: datetime) -> None:
        entry = self._must_hold(number)
        if entry.line.state is not State.ISSUED or not (entry.line.outcome and entry.line.outcome.is_to_put_right):
            raise JobLogError(f"{number} is no report issued as unsatisfactory; there is nothing to put right.")
        entry.put_right = True
        self._note(entry, who=who, at=at, what=f"Put right: {papers}")

    def head(self) -> str:
        return self._head

    def remember(self, number: str, where: str, *, who: str) -> None:
        self._must_hold(number)
        self._left.pop((who, number), None)
        self._left[who, number] = where

    def left_at(self, number: str, *, who: str) -> str:
        return self._left.get((who, number), "")

    def last_opened(self, *, who: str) -> str:
        return next((number for person, number in reversed(self._left) if person == who), "")

    def jot(self, topic: str, text: str, *, who: str, at: datetime) -> None:
        self._jottings.append((topic, LogNote(at=at, who=who, text=text)))

    def jottings(self, topic: str, *, who: str = "") -> tuple[LogNote, ...]:
        return tuple(each for about, each in self._jottings if about == topic and who in ("", each.who))

    def close(self) -> None:
        """Nothing is held open."""

    def _begin(self, job: Job, *, who: str, at: datetime, what: str) -> _Entry:
        number = f"A-{len(self._entries) + 1:04d}"
        entry = _Entry(job=as_draft(job).model_copy(update={"number": number}), updated=at)
        self._entries[number] = entry
        self._note(entry, who=who, at=at, what=what)
        return entry

    def _note(self, entry: _Entry, *, who: str, at: datetime, what: str, place: Place | None = None) -> None:
        entry.trail.append(TrailLine(version=len(entry.trail) + 1, at=at, who=who, what=what, place=place))
        entry.updated = at

    def _must_hold(self, number: str) -> _Entry:
        if number not in self._entries:
            raise JobLogError(f"There is no job {number!r} in this log.")
        return self._entries[number]


def _matches(entry: _Entry, asked: Query) -> bool:
    line, words = entry.line, findable(entry.job)
    wanted = {"form_set": line.form_set, "state": line.state, "outcome": line.outcome}
    return (
        all(getattr(asked, name) in (None, held) for name, held in wanted.items())
        and (asked.due_before is None or (line.due is not None and line.due <= asked.due_before))
        and (not asked.hand or asked.hand in {each.who for each in entry.trail})
        and (not asked.to_put_right or _is_to_put_right(line))
        and (asked.year is None or asked.year == getattr(done_on(entry.job), "year", None))
        and _has_words(asked.engineer, set(words.engineer))
        and asked.open_snags in (None, line.open_snags > 0)
        and (not joined(asked.number) or joined(asked.number) == joined(line.number))
        and _has_words(asked.words, {*words.client, *words.place, *words.other})
        and _has_words(asked.client, set(words.client))
        and _has_words(asked.place, set(words.place))
    )


def _is_to_put_right(line: JobLine) -> bool:
    return line.state is State.ISSUED and bool(line.outcome and line.outcome.is_to_put_right) and not line.put_right


def _has_words(asked: str, held: set[str]) -> bool:
    words = words_of(asked)[:12]
    return all(word in held for word in words[:-1]) and (not words or any(word.startswith(words[-1]) for word in held))


def _refusal(says: str) -> Refusal:
    return Refusal(reasons=(Reason(kind=Hold.CHANGED, id="changed", place=Place(), says=says),))
