"""Packs and drafts bound in a process of their own: the PDF writer's memory and time never touch the typing."""

from __future__ import annotations

import os
import pickle
import subprocess
from contextlib import suppress
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING, Any, BinaryIO, NamedTuple

from storage import child_process
from storage.child_process import ProcessLimits, answer_by_streams
from storage.paper.paper_error import PaperError

if TYPE_CHECKING:
    from domain.coach.summary import Summary
    from domain.coach.visit_sheet import Visit
    from domain.gate.assessment import Pack
    from domain.job.job import Job
    from domain.job.logo import Logo
    from domain.log.job_log import BoundPaper
    from domain.log.put_right.letter import Letter

_LENGTH = 8
"""Bytes that tell the length of what follows, on the way there and on the way back."""
_LIMITS = ProcessLimits(memory=4096)
"""The largest pack takes a part of it. Its time is that of a day's papers, and not bounded."""


_GROWN = 150
"""Mebibytes held, at which the process that binds ends after its answer: the engine keeps what it has set."""


class _Ending(NamedTuple):
    """Before its last answer, from a process that ends then."""


class _Doing(NamedTuple):
    """On its way while a paper is made, before the answer."""

    what: str


class PdfWorker:
    """Starts its process when the first paper is wanted, or is about to be, and keeps it for the next."""

    def __init__(self) -> None:
        self._one_at_a_time = Lock()
        self._process: subprocess.Popen[bytes] | None = None
        self._doing = ""

    def doing_now(self) -> str:
        """What is being done with the paper that is being made; "" where none is."""
        return self._doing

    @property
    def process_id(self) -> int | None:
        """Of the process that binds, while there is one."""
        return self._process.pid if self._process else None

    def open(self) -> None:
        """Have the process get ready, and do not wait for it."""
        with self._one_at_a_time:
            self._running()

    def close(self) -> None:
        """End the process."""
        process, self._process = self._process, None
        if process:
            with suppress(OSError):
                process.stdin.close()  # pyright: ignore[reportOptionalMemberAccess]
            process.wait()

    def bind(self, pack: Pack) -> BoundPaper:
        """The pack as issued. PaperError when it cannot be made; then there is no paper."""
        return self._made("bind", pack)

    def bind_draft(self, job: Job, logo: Logo | None = None) -> BoundPaper:
        """The job as it stands, marked as a draft on every page; `logo` is its firm's."""
        return self._made("bind_draft", job, logo)

    def bind_summary(self, summary: Summary) -> BoundPaper:
        """Somebody's practice on one page."""
        return self._made("bind_summary", summary)

    def bind_visit(self, visit: Visit) -> BoundPaper:
        """The visit sheet of a job, on one page."""
        return self._made("bind_visit", visit)

    def bind_letter(self, letter: Letter) -> BoundPaper:
        """The letter that confirms that a report has been put right."""
        return self._made("bind_letter", letter)

    def _made(self, what: str, *of: Pack | Job | Summary | Visit | Letter | Logo | None) -> BoundPaper:
        with self._one_at_a_time:
            process = self._running()
            try:
                _send(process.stdin, (what, of))
                ends = False
                while isinstance(answer := _receive(process.stdout), _Doing | _Ending):
                    ends = ends or isinstance(answer, _Ending)
                    self._doing = answer.what if isinstance(answer, _Doing) else self._doing
            except (OSError, EOFError) as error:
                process.kill()
                process.wait()
                raise PaperError("The program that makes the paper ended early. Try again") from error
            finally:
                self._doing = ""
            if ends:
                self._begin_anew()
        if isinstance(answer, PaperError):
            raise answer
        return answer

    def _begin_anew(self) -> None:
        """Have the next process get ready while nobody waits for it; where it cannot, the next paper says so."""
        self.close()
        with suppress(PaperError):
            self._running()

    def _running(self) -> subprocess.Popen[bytes]:
        if self._process is None or self._process.poll() is not None:
            try:
                self._process = child_process.start(
                    "storage.pdf_worker:serve", limits=_LIMITS, stdin=subprocess.PIPE, stdout=subprocess.PIPE
                )
            except OSError as error:
                raise PaperError(f"The program that makes the paper cannot be started. {error}") from error
        return self._process


def _send(stream: BinaryIO | Any, thing: object) -> None:
    body = pickle.dumps(thing)
    stream.write(len(body).to_bytes(_LENGTH, "big") + body)
    stream.flush()


def _receive(stream: BinaryIO | Any) -> Any:
    head = stream.read(_LENGTH)
    body = stream.read(int.from_bytes(head, "big"))
    if len(head) < _LENGTH or len(body) < int.from_bytes(head, "big"):
        raise EOFError
    return pickle.loads(body)


def serve() -> None:
    """Bind what comes in until nothing more can come; what the writer prints goes nowhere."""
    given, answers = answer_by_streams()
    from storage import pdf
    from storage.paper.progress import have_told

    have_told(lambda doing: _send(answers, _Doing(doing)))
    with suppress(EOFError):
        while True:
            what, of = _receive(given)
            try:
                answer: object = getattr(pdf, what)(*of)
            except PaperError as error:
                answer = error
            if ends := _held() > _GROWN:
                _send(answers, _Ending())
            _send(answers, answer)
            if ends:
                return


def _held() -> int:
    """Mebibytes this process holds; 0 where the system does not say."""
    try:
        pages = int(Path("/proc/self/statm").read_text().split()[1])
    except (OSError, ValueError, IndexError):
        return 0
    return pages * os.sysconf("SC_PAGESIZE") // (1024 * 1024)
