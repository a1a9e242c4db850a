"""What others did, done here too: jobs begun, edited and issued elsewhere, notes, and what the office says of people."""

import hashlib
import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from pydantic import ValidationError

from domain.editing.commands import COMMAND, Command
from domain.editing.content_hash import content_hash
from domain.editing.reducer import apply
from domain.editing.undo import Edit, kept, made_again
from domain.gate.assessment import not_theirs_to_sign
from domain.job.job import Job, canonical
from domain.job.job_number import prefix_of
from domain.laptops.making import tell
from domain.laptops.matter import Matter, MatterKind
from domain.laptops.operation import Act, Operation
from domain.log.chain import leaf, link
from domain.log.job_log import JobLogError, Query
from domain.log.store import IssuedRecord, Store, StoredJob, TrailEntry
from domain.log.use_cases.noting import keep_heard_note
from domain.log.use_cases.out_with import exchange_of, is_laptop
from domain.log.use_cases.papers_aside import keep_paper_aside, paper_come
from domain.log.use_cases.putting_right import settle_reports
from domain.log.use_cases.registering import hear_entry, learn, unlearn
from domain.log.use_cases.signing import signers_known
from domain.log.use_cases.stored import keep_heard, require
from domain.log_note import LogNote
from domain.words import joined

_MANY = 50
_WAITING_MOST = 2_000
"""Edits that wait at once to be written down: a bundle may hold any number."""


@dataclass(frozen=True, slots=True)
class _Followed:
    """A job whose edits were followed and are not written down yet."""

    before: StoredJob
    job: Job
    entries: tuple[TrailEntry, ...]


class HeardJobs:
    """Fulfils `domain.laptops.exchange_store.JobsTold` over a log. Every call is made inside a transaction.

    Edits are followed one by one, and written down job by job: its line and its words come of how it stands in the end.
    """

    def __init__(self, store: Store, paper: Callable[[str], bytes], at: datetime) -> None:
        """`paper` is the PDF that came with an issued job, b"" where none did; `at` is now."""
        self._store, self._paper, self._at = store, paper, at
        self._followed: dict[str, _Followed] = {}
        self._waiting = 0

    def perform(self, operation: Operation) -> None:
        """Do here what was done elsewhere; JobLogError where it cannot be followed."""
        told = json.loads(operation.body)
        if operation.act is not Act.EDIT:
            # What is done now may look at any job, or change what the line of one comes of.
            self.write_down()
        try:
            match operation.act:
                case Act.BEGIN:
                    self._begin(operation, told)
                case Act.EDIT:
                    self._edit(operation, told, strictly=True)
                case Act.ISSUE:
                    self._issue(operation, told)
                case Act.RULE if "entry" in told:
                    hear_entry(self._store, told, at=datetime.fromisoformat(operation.at))
                case _:
                    note = LogNote(at=datetime.fromisoformat(operation.at), who=told["who"], text=told["text"])
                    keep_heard_note(self._store, told["topic"], note)
        except (ValidationError, KeyError, TypeError) as error:
            raise JobLogError(
                f"What was done as {operation.name} cannot be read; it may come from a newer version of this program."
            ) from error

    def admit(self, operation: Operation) -> None:
        """Do what was set aside to the job as it stands now; what does not fit it any more is left out."""
        self.write_down()
        told = json.loads(operation.body)
        if operation.act is Act.EDIT and self._store.get(operation.job):
            self._edit(operation, told, strictly=False)
        elif operation.act is Act.BEGIN and not self._store.get(operation.job):
            self._begin(operation, told)
        elif operation.act is Act.ISSUE and not require(self._store, operation.job).is_issued:
            if is_laptop(self._store):
                # The office has looked: here the job may lack some of what came before its paper.
                draft = Job.model_validate(told["job"]).model_copy(update={"issued": None})
                self.stand(operation.job, draft.model_dump_json())
            self._issue(operation, told)
        self.write_down()

    def write_down(self) -> None:
        """Have the log hold all that was followed."""
        followed, self._followed, self._waiting = self._followed, {}, 0
        for each in followed.values():
            keep_heard(self._store, each.before, each.job, *each.entries)

    def keep_aside(self, operation: Operation) -> None:
        """Keep the paper of an issue that does not count here; who sent it may not have it either."""
        if operation.act is Act.ISSUE and (pdf := self._paper(operation.job)):
            keep_paper_aside(self._store, operation, pdf)

    def document(self, job: str) -> str:
        """A job as it stands here."""
        self.write_down()
        stored = self._store.get(job)
        return stored.job.model_dump_json() if stored else ""

    def stand(self, job: str, document: str) -> None:
        """Have a draft be as the office has it; a paper that went out stays, and is told at the office."""
        self.write_down()
        stored = self._store.get(job)
        if not document or (stored and stored.is_issued):
            return
        theirs = Job.model_validate_json(document)
        if theirs.issued or (stored and stored.job == theirs):
            return
        before = stored or StoredJob(theirs)
        changes = kept(stored.job, theirs) if stored else ""
        entry = TrailEntry("office", self._at, "As the office has it", changes=changes)
        keep_heard(self._store, before, theirs, entry)

    def twins(self, job: str) -> tuple[str, ...]:
        """Jobs begun with other letters for the same address and the same day."""
        self.write_down()
        line = self._store.line(job)
        if line is None or line.laid_aside or line.day is None or not line.premises.strip():
            return ()
        letters, store = prefix_of(job), self._store
        found = store.find(Query(place=line.premises, limit=_MANY))
        return tuple(
            other.number
            for other in found
            if other.day == line.day
            and joined(other.premises) == joined(line.premises)
            and prefix_of(other.number) != letters
            and other.form_set == line.form_set
        )

    def _begin(self, operation: Operation, told: Mapping[str, Any]) -> None:
        job = Job.model_validate(told["job"])
        if job.number != operation.job or job.issued:
            raise JobLogError(f"What was done as {operation.name} is no job that begins.")
        keep_heard(self._store, StoredJob(job, replaces=told["replaces"]), job, _entry(operation, told, changes=""))

    def _edit(self, operation: Operation, told: Mapping[str, Any], *, strictly: bool) -> None:
        followed = self._followed.get(operation.job)
        stored = replace(followed.before, job=followed.job) if followed else require(self._store, operation.job)
        command = COMMAND.validate_python(told["command"]) if "command" in told else None
        after = after_edit(stored.job, told, command, strictly=strictly)
        if after is None:
            if not strictly:
                return
            raise JobLogError(
                f"What was done to {operation.job} as {operation.name} cannot be followed here. Bring both to the same "
                "version of this program, then exchange again."
            )
        before = replace(stored, put_right=stored.put_right or told.get("put_right", False))
        changes = told["changes"] if strictly else kept(stored.job, after) if after != stored.job else ""
        entry = _entry(operation, told, changes=changes, command=command)
        if told.get("replaced"):
            self.write_down()
            now = replace(require(self._store, operation.job), put_right=before.put_right)
            keep_heard(self._store, now, after, entry, replaced=True)
            return
        self._followed[operation.job] = _Followed(before, after, (*(followed.entries if followed else ()), entry))
        self._waiting += 1
        if self._waiting == _WAITING_MOST:
            self.write_down()

    def _issue(self, operation: Operation, told: Mapping[str, Any]) -> None:
        """As `issuing` keeps a paper of this log; long because all that follows from a paper follows here too."""
        store, job = self._store, Job.model_validate(told["job"])
        stored, pdf = require(store, operation.job), paper_come(store, operation, self._paper(operation.job))
        draft = job.model_copy(update={"issued": None})
        if job.issued is None or draft != stored.job:
            raise JobLogError(
                f"The paper {operation.job} is not that of the job as it was brought; nothing was taken in."
            )
        body, pdf_sha = canonical(job), hashlib.sha256(pdf).digest()
        chain = link(store.papers.head(), leaf(body), pdf_sha)
        record = IssuedRecord(
            job.number, body, leaf(body), chain, pdf_sha, told["pages"], stored.replaces, job.issued.by, job.issued.at
        )
        store.papers.add(record, pdf)
        keep_heard(store, stored, job, _entry(operation, told, changes=""))
        learn(store, job, who=job.issued.by, at=job.issued.at)
        if stored.replaces:
            unlearn(store, require(store, stored.replaces).job, job, who=job.issued.by, at=job.issued.at)
        if not is_laptop(store):
            settle_reports(store, job.number, who=job.issued.by, at=self._at)
            exchange = exchange_of(store)
            if exchange and not_theirs_to_sign(job, signers_known(store, job)):
                tell(exchange, Matter(MatterKind.SIGNER, job.number, operation.device))


def _entry(
    operation: Operation, told: Mapping[str, Any], *, changes: str, command: Command | None = None
) -> TrailEntry:
    return TrailEntry(
        told["who"],
        datetime.fromisoformat(operation.at),
        told["what"],
        op=told.get("op") or f"{operation.device}/{operation.counter}",
        command=command,
        changes=changes,
        undoes=told.get("undoes", 0),
        redoes=told.get("redoes", 0),
    )


def after_edit(job: Job, told: Mapping[str, Any], command: Command | None, *, strictly: bool) -> Job | None:
    """The job after an edit: by its command, else by what it changed; the very job it was where it was made."""
    ways = [lambda: apply(job, command)] if command else []
    if told["changes"]:
        ways.append(lambda: made_again(job, Edit(0, told["what"], told["changes"])))
    else:
        ways.append(lambda: job)
    for way in ways:
        after = way()
        if isinstance(after, Job) and (not strictly or content_hash(after) == told["hash"]):
            return after
    return None
