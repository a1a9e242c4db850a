"""What the screens may ask of the world outside: the log, the clock, the person, the paper."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from tui.journal import Journal
from tui.waiting import Waiting

if TYPE_CHECKING:
    from domain.coach.summary import Summary
    from domain.coach.visit_sheet import Visit
    from domain.duties.mail_draft import MailDraft
    from domain.gate.assessment import Pack
    from domain.gate.issued_paper import IssuedPaper
    from domain.gate.proof import Proof
    from domain.job.job import Job
    from domain.job.logo import Logo
    from domain.job.picture import Image
    from domain.log.certificates import PaperSigning
    from domain.log.due_list import DueLine
    from domain.log.half_typed import HalfTypedEntries
    from domain.log.job_log import BoundPaper, JobLine, JobLog
    from domain.log.put_right.letter import Letter
    from domain.sheets.board_chart import BoardPapers


class RunningCommand(Protocol):
    """A command in a process of its own."""

    @property
    def code(self) -> int | None:
        """Its exit code; None while it runs."""
        ...

    @property
    def said(self) -> str:
        """What it has said beside its answer, line by line."""
        ...

    @property
    def answer(self) -> str:
        """Its answer, as far as it is there."""
        ...

    def wait(self) -> None:
        """Until it has ended."""
        ...


@dataclass(frozen=True)
class Services:
    """Handed to the app once; screens reach it as `self.app.services`."""

    log: JobLog
    who: str
    """Who is at the keyboard, for the trail."""
    now: Callable[[], datetime]
    bind: Callable[[Pack], BoundPaper]
    bind_draft: Callable[[Job, Logo | None], BoundPaper]
    """The job as it stands, with the logo of its firm."""
    bind_summary: Callable[[Summary], BoundPaper]
    bind_visit: Callable[[Visit], BoundPaper]
    bind_letter: Callable[[Letter], BoundPaper]
    bind_charts: Callable[[BoardPapers, str], BoundPaper]
    """Charts and labels of boards, on sheets `a4` or `a5`."""
    proof_of: Callable[[bytes, JobLog | None], Proof]
    """Whether the bytes of a file are a paper as it was issued."""
    hand_out: Callable[[IssuedPaper, bytes, Path], tuple[Path, ...]]
    """Put the whole pack of an issued paper and its PDF into a folder that must not exist yet: the PDF first, then its other shapes."""
    write_new: Callable[[Path, bytes | Iterable[bytes]], None]
    """Write a file that must not exist yet, whole or as its pieces come; complete or not there."""
    due_files: Callable[[Iterable[DueLine], datetime], Mapping[str, bytes]]
    """What is due as a table and as a calendar, by the endings of their names, as seen at a moment."""
    mail_file: Callable[[MailDraft, Mapping[str, bytes]], bytes]
    """A letter by e-mail with files attached, as a file."""
    signing: PaperSigning
    """Signs papers with a certificate of somebody's own."""
    half_typed: HalfTypedEntries
    """What is being typed and not kept yet, for whoever comes back after the line dropped."""
    made_small: Callable[[bytes], Image]
    """The small image of a camera's file; PictureError where it is none."""
    begin_command: Callable[[Sequence[str], str], RunningCommand]
    """Begin what might have been typed after `ohmfolio`, on this log, in a process that goes on without this one; and what it reads.

    OSError where none can be started.
    """
    made_logo: Callable[[bytes, str], Logo]
    """A logo of a file and of what it shows, in words; LogoError where it is none."""
    packs: Path
    """Folder offered for packs and drafts."""
    pictures: Path | None = None
    """Folder where the camera of the visit puts its pictures, where one is named."""
    began_in: str = ""
    """The place of a log that this start has begun; "" where there was one."""
    letters: str = ""
    """The letters put forward for the numbers of the log that this start has begun; "" where nobody is asked."""
    journal: Journal = field(default_factory=Journal)
    """Takes a line for whoever looks after the computer."""
    ready_paper: Callable[[], None] = lambda: None
    """Get ready to bind, without waiting for it."""
    doing_now: Callable[[], str] = str
    """What is being done with the paper that is being made, such as: reading back page 3 of 12."""
    after_issue: str = ""
    """A command that is run with the folder of a pack behind it once that is issued; none where it is empty."""
    waiting: Waiting = field(default_factory=Waiting)
    """Hears that another program has to be waited for; the screens show it."""


def where_drafts_are(services: Services, lines: Iterable[JobLine]) -> Mapping[str, str]:
    """Who has those that are drafts, by number, where an office and its laptops share them; JobLogError."""
    firm = services.log.firm
    return firm.where([line.number for line in lines if not line.is_issued]) if firm else {}
