"""Looks after a log on a server: whether what it holds is whole, and who may use it. Copies are made by the server's own means."""

import hashlib
from collections.abc import Callable, Iterable, Iterator
from datetime import datetime

from domain.duties.duty_days import JobDuties
from domain.duties.noted import TOPIC
from domain.job.job import Job
from domain.log.due_list import job_duties
from domain.log.job_log import JobLine, JobLogError, State
from domain.log.soundness import LinkedRecord, faults_of_chain, faults_of_counting
from domain.log.upkeep import Concern, Condition, CopyProof, LogFault
from storage.errors import DamagedError
from storage.ledger_entries import EDIT, KINDS
from storage.ledger_faults import faults_of_lines, faults_of_rows
from storage.line_rows import LINE_COLUMNS, line_from, microseconds
from storage.postgres.layout import ready
from storage.postgres.log_server import LogServer
from storage.postgres.postgres_duties import are_by_rules_of_today, duties_held
from storage.postgres.postgres_jobs import PostgresJobs
from storage.postgres.postgres_ledger import PostgresLedger, heads_named, lines_of, rows_of, taken_out
from storage.postgres.postgres_notes import notes_about
from storage.postgres.postgres_trails import fold_all
from storage.postgres.rights import grant
from storage.postgres.server_address import ServerAddress
from storage.postgres.server_lines import Row, connected_to
from storage.postgres.words import words_held
from storage.upkeep.edits_seen import EditsSeen

GO_BACK = "Have whoever looks after the server go back to a copy of it."
_FIND_COPY = "Ask whoever was given the paper for theirs, or look in a copy of the server. The record itself stands."
_PAGE = 200
_TOLD_MAX = 5
_RECORDS = "SELECT seq, number, body, sha, chain, pdf_sha FROM issued WHERE seq > %s ORDER BY seq LIMIT %s"
_PAPERS = """
SELECT seq, issued.number, pdf_sha, pdf FROM issued LEFT JOIN paper ON paper.number = issued.number
WHERE seq > %s ORDER BY seq LIMIT %s
"""
_ASTRAY = """
SELECT number, state FROM job
WHERE (state IN ('issued', 'replaced')) <> EXISTS (SELECT 1 FROM issued WHERE job_id = job.id) ORDER BY id
"""
_TRAILS = """
SELECT number FROM job LEFT JOIN (
    SELECT job_id, sum(edits) AS edits, max(last) AS last FROM (
        SELECT job_id, count(*) AS edits, max(version) AS last FROM edit GROUP BY job_id
        UNION ALL SELECT job_id, last, last FROM folded_trail) AS kept GROUP BY job_id) AS told ON job_id = job.id
WHERE edits IS NULL OR edits <> job.version OR last <> job.version ORDER BY job.id
"""
_GIVEN = "SELECT substr(number, %s)::bigint FROM job WHERE starts_with(number, %s)"
_WORDS_KEPT = "SELECT words = array_to_tsvector(%s::text[]) FROM job_text JOIN job ON job.id = job_id WHERE number = %s"


class PostgresUpkeep:
    """Fulfils `domain.log.upkeep.Upkeep`. The log may be in use meanwhile."""

    def __init__(self, address: ServerAddress) -> None:
        self._address = address

    def tend(
        self,
        *,
        at: datetime,  # noqa: ARG002
        mend: bool = False,  # noqa: ARG002
        anew: bool = False,  # noqa: ARG002
        since: datetime | None = None,
        told: Callable[[int, int], None] = lambda _done, _of: None,
    ) -> Condition:
        """Look at everything the log keeps. What `mend` would make anew, the server keeps by itself.

        No mark of an earlier look is kept, so each is `anew`; `since` spares the jobs, never what was kept for good.
        """
        with connected_to(self._address) as connection:
            try:
                ready(connection, self._address)
            except DamagedError as trouble:
                faults = [LogFault(about=Concern.FILE, says=str(trouble), do=GO_BACK)]
            else:
                faults = list[LogFault]()
            keeper = f"PostgreSQL {connection.info.server_version // 10_000}, schema {self._address.schema}"
        server = LogServer(self._address, takes_long=True)
        try:
            faults += [*faults_of_what_was_kept(server), *_faults_of_jobs(server, since, told)]
            return Condition(
                home=str(self._address),
                proof=proof_of(server),
                keeper=keeper,
                faults=tuple(faults),
                folded=0 if faults else fold_all(server),
                since=since,
            )
        finally:
            server.close()

    def share(self, group: str) -> None:
        """Open the log to a role of the server, with the least it needs."""
        with connected_to(self._address) as connection:
            ready(connection, self._address)
            grant(connection, self._address, group)


def proof_of(server: LogServer) -> CopyProof:
    """Counts, and the end of the ledger as the log states it."""
    ((jobs, issued),) = server.run("SELECT (SELECT count(*) FROM job), (SELECT count(*) FROM issued)")
    return CopyProof(jobs=jobs, issued=issued, head=PostgresLedger(server).head().hex())


def faults_of_what_was_kept(server: LogServer) -> Iterator[LogFault]:
    """What is wrong with records, numbers, papers and trails; no job is read whole."""
    for look in (_faults_of_records, _faults_of_numbers, _faults_of_papers, _faults_of_trails, _faults_of_ledger):
        yield from look(server)


def _faults_of_records(server: LogServer) -> Iterator[LogFault]:
    yield from faults_of_chain((LinkedRecord._make(row) for row in _paged(server, _RECORDS)), GO_BACK)
    for number, state in server.run(_ASTRAY):
        says = f"The log calls {number} {state}, and its records say otherwise."
        yield LogFault(about=Concern.RECORDS, says=says, do=GO_BACK)


def _faults_of_numbers(server: LogServer) -> Iterator[LogFault]:
    for prefix, following, here in server.run("SELECT prefix, next_number, is_here FROM device ORDER BY prefix"):
        given = {row[0] for row in server.run(_GIVEN, (len(prefix) + 2, f"{prefix}-"))}
        yield from faults_of_counting(prefix, given, following if here else max(given, default=0) + 1, GO_BACK)


def _faults_of_papers(server: LogServer) -> Iterator[LogFault]:
    for _, number, sha, pdf in _paged(server, _PAPERS):
        if pdf is None or hashlib.sha256(pdf).digest() != sha:
            how = "is missing" if pdf is None else "is not the one that was issued"
            yield LogFault(about=Concern.PAPERS, says=f"The paper of {number} {how}.", do=_FIND_COPY)


def _faults_of_jobs(server: LogServer, since: datetime | None, told: Callable[[int, int], None]) -> Iterator[LogFault]:
    jobs, astray, undated = PostgresJobs(server), list[str](), list[str]()
    touched = f"updated >= {microseconds(since)}" if since else "true"
    ((count,),) = server.run(f"SELECT count(*) FROM job WHERE {touched}")
    has_days = are_by_rules_of_today(server)
    lines = _paged(server, f"SELECT id, {LINE_COLUMNS} FROM job WHERE {touched} AND id > %s ORDER BY id LIMIT %s")
    for done, (_, *columns) in enumerate(lines, 1):
        told(done, count)
        line = line_from(tuple(columns))
        try:
            stored = jobs.get(line.number)
        except JobLogError:
            yield LogFault(about=Concern.DRAFTS, says=f"{line.number} is not as it was saved.", do=GO_BACK)
            continue
        if stored and server.run(_WORDS_KEPT, (words_held(stored.job, line), line.number)) != [(True,)]:
            astray.append(line.number)
        if stored and has_days and duties_held(server, line.number) != _duties_of(server, stored.job, line):
            undated.append(line.number)
    if astray:
        says = f"{_told(astray)} cannot be found by the words they hold."
        yield LogFault(about=Concern.SEARCH, says=says, do="Any edit of them has them found again.")
    if undated:
        says = f"The days that duties of {_told(undated)} are due are not those that the jobs give."
        yield LogFault(about=Concern.LINES, says=says, do="Any edit of them, or note on a duty, has them counted anew.")


def _duties_of(server: LogServer, job: Job, line: JobLine) -> JobDuties:
    is_out = line.state is State.REPLACED or line.laid_aside
    return job_duties(job, notes_about(server, TOPIC, [line.number]), is_out=is_out, put_right=line.put_right)


def _faults_of_ledger(server: LogServer) -> Iterator[LogFault]:
    seen = EditsSeen()
    for kind in KINDS:
        rows = seen.all_of(rows_of(server, kind)) if kind == EDIT else rows_of(server, kind)
        yield from faults_of_rows(kind, rows, taken_out(server, kind, seen), GO_BACK)
    before = (chain for (chain,) in server.run("SELECT chain FROM issued"))
    yield from faults_of_lines(lines_of(server), heads_named(server), before, GO_BACK)


def _faults_of_trails(server: LogServer) -> Iterator[LogFault]:
    if gaps := [row[0] for row in server.run(_TRAILS)]:
        says = f"The trail of {_told(gaps)} has gaps: edits were taken out."
        yield LogFault(about=Concern.TRAIL, says=says, do=GO_BACK)


def _paged(server: LogServer, statement: str) -> Iterable[Row]:
    """Every row of an answer whose first column is what it is read on from; all of them may not fit into memory."""
    after = 0
    while rows := server.run(statement, (after, _PAGE)):
        yield from rows
        after = rows[-1][0]


def _told(numbers: list[str]) -> str:
    more = f" and {len(numbers) - _TOLD_MAX} more" if len(numbers) > _TOLD_MAX else ""
    return f"{', '.join(numbers[:_TOLD_MAX])}{more}"
