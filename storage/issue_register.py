"""The register of issued papers: the one way to state that a job is issued."""

import hashlib
from collections.abc import Callable
from contextlib import suppress
from datetime import datetime

from domain.gate.assessment import Hold, Pack, Reason, Refusal, issue, not_theirs_to_sign
from domain.gate.issued_paper import IssuedPaper
from domain.gate.report_outcome import outcome_of
from domain.job.job import canonical, fingerprint, record_hash
from domain.log.job_log import Bound, JobLogError
from domain.place import Place
from storage.drafts import DraftEntry, must_hold, note
from storage.errors import plainly
from storage.issued_papers import IssuedPapers
from storage.line_rows import microseconds
from storage.log_file import LogFile
from storage.registers import learn_entries, people_named
from storage.rows import NO_RECORD, Held, leaf, link
from storage.set_by import set_by


class IssueRegister:
    """Append-only: each record holds the job as issued, the hash of its paper, and the chain over all before it."""

    def __init__(self, file: LogFile) -> None:
        self._file = file
        self._papers = IssuedPapers(file.home)

    def issue(
        self, number: str, *, by: str, at: datetime, bind: Callable[[Pack], Bound], seen: str
    ) -> IssuedPaper | Refusal:
        """Pass the gate with the job as it stands, bind it, and record it if nobody changed it meanwhile."""
        now = must_hold(self._file, number)
        if seen and fingerprint(now.job) != seen and not now.job.issued:
            return _refusal(f"{self._last_hand(now)} changed the job since you looked; look at it again, then issue it")
        return self._issue(now, by=by, at=at, bind=bind)

    def _issue(self, seen: Held, *, by: str, at: datetime, bind: Callable[[Pack], Bound]) -> IssuedPaper | Refusal:
        number = seen.job.number
        people = people_named(self._file, seen.job.signers)
        passed = issue(seen.job, by=by, at=at, people=people, head=self.head().hex(), set_by=set_by())
        if isinstance(passed, Refusal):
            return passed
        bound = bind(passed)
        try:
            with self._file.writing():
                self._finish()
                now = must_hold(self._file, number)
                if refusal := self._refused(seen, now):
                    return refusal
                self._papers.place(number, bound.pdf)
                self._record(now, passed, bound, by=by, at=at)
        except JobLogError:
            self._undo()
            raise
        with suppress(OSError):
            self._papers.settle(number)
        return self._issued(passed, bound)

    def issued(self, number: str) -> IssuedPaper | None:
        """The paper a job was issued as."""
        row = self._file.first(
            "SELECT pdf_sha, pages, body, (SELECT number FROM issued AS later WHERE later.replaces = issued.number)"
            " FROM issued WHERE number = ?",
            (number,),
        )
        if row is None:
            return None
        job = must_hold(self._file, number).job
        pdf_sha, pages, body, replaced_by = row
        return IssuedPaper(
            number=number,
            sha256=pdf_sha.hex(),
            record_sha256=hashlib.sha256(body).hexdigest(),
            replaced_by=replaced_by or "",
            pages=pages,
            pack=Pack(job=job, outcome=outcome_of(job)),
            kept=str(self._papers.path(number)),
        )

    def head(self) -> bytes:
        """The chain over all issued papers; zeros while there is none."""
        last = self._file.first("SELECT chain FROM issued ORDER BY seq DESC LIMIT 1")
        return last[0] if last else NO_RECORD

    def recover(self) -> None:
        """Tidy up after a program that ended in the middle of an issue: the paper stays or goes with its record."""
        try:
            if self._papers.unfinished():
                with self._file.writing():
                    self._finish()
        except OSError as trouble:
            raise plainly(trouble, self._file.home) from trouble

    def _finish(self) -> None:
        for number in self._papers.unfinished():
            if self._file.first("SELECT 1 FROM issued WHERE number = ?", (number,)):
                self._papers.settle(number)
            else:
                self._papers.take_back(number)

    def _undo(self) -> None:
        # Where even this fails, the next opening of the log does it.
        with suppress(JobLogError):
            self.recover()

    def _refused(self, seen: Held, now: Held) -> Refusal | None:
        if now.version != seen.version:
            return _refusal(
                f"{self._last_hand(now)} changed the job while its paper was being made; look at it again, then issue it"
            )
        # The register of people may have changed while the paper was being made, and the job not.
        if reasons := not_theirs_to_sign(now.job, people_named(self._file, now.job.signers)):
            return Refusal(reasons=reasons)
        if now.replaces is not None:
            row = self._file.first("SELECT number FROM issued WHERE replaces = ?", (now.job.replaces,))
            if row:
                return _refusal(f"{now.job.replaces} has been replaced by {row[0]} already; correct that one instead")
        return None

    def _last_hand(self, held: Held) -> str:
        ((who,),) = self._file.run("SELECT who FROM edit WHERE job_id = ? ORDER BY version DESC LIMIT 1", (held.id,))
        return who

    def _record(self, held: Held, pack: Pack, bound: Bound, *, by: str, at: datetime) -> None:
        body = canonical(pack.job)
        record, paper = leaf(body), hashlib.sha256(bound.pdf).digest()
        self._file.run(
            "INSERT INTO issued (job_id, number, body, sha, chain, pdf_sha, pages, replaces, issued_by, issued_at)"
            " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            (
                held.id,
                pack.job.number,
                body,
                record,
                link(self.head(), record, paper),
                paper,
                bound.pages,
                pack.job.replaces if held.replaces is not None else None,
                by,
                microseconds(at),
            ),
        )
        self._file.run("DELETE FROM draft WHERE job_id = ?", (held.id,))
        note(self._file, held, pack.job, DraftEntry(by, at, "Issued"))
        learn_entries(self._file, pack.job, who=by, at=at)
        if held.replaces is not None:
            old = must_hold(self._file, pack.job.replaces)
            note(self._file, old, old.job, DraftEntry(by, at, f"Replaced by {pack.job.number}"), replaced=True)

    def _issued(self, pack: Pack, bound: Bound) -> IssuedPaper:
        return IssuedPaper(
            number=pack.job.number,
            sha256=hashlib.sha256(bound.pdf).hexdigest(),
            record_sha256=record_hash(pack.job),
            pages=bound.pages,
            pack=pack,
            kept=str(self._papers.path(pack.job.number)),
        )


def _refusal(says: str) -> Refusal:
    return Refusal(reasons=(Reason(kind=Hold.CHANGED, id="changed", place=Place(), says=says),))
