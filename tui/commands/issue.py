"""`issue`: the pack of a job as a file, or every reason why not."""

import os
from datetime import datetime
from pathlib import Path
from typing import NamedTuple

from domain.duties.mail_draft import mail_draft
from domain.gate.assessment import Pack, Refusal
from domain.gate.issued_paper import IssuedPaper
from domain.job.job import Job
from domain.log.certificates import CertificateFile, CertificateToken, SignedPaper
from domain.log.job_log import BoundPaper, JobLogError
from domain.value import LINE_MAX, cleaned
from domain.words import counted
from tui.after_issue import copy_lines, follow_up
from tui.commands.check import not_found, reasons_as_text, reasons_as_value
from tui.commands.command import (
    JSON,
    NO,
    Command,
    CommandAnswer,
    CommandOption,
    Environment,
    TypedArgument,
    UnusableError,
    aside,
)
from tui.commands.input_files import is_file_name, job_in
from tui.commands.paper_progress import told_on_the_way
from tui.commands.sign import LABEL, TOKEN, WITH, certificate_typed, signed_at, told
from tui.services import Services
from tui.user_name import Naming

_TO = CommandOption("--to", "the folder for the pack; made where the one it lies in exists", "FOLDER")

_MAIL = CommandOption("--mail", "write a draft e-mail with the pack attached beside it, for any mail program (.eml)")
_EARLIER = CommandOption("--earlier", "the day is right, though the paper issued last is dated later")


class _Asked(NamedTuple):
    """Who issues it when, and what goes with it."""

    by: str
    at: datetime
    certificate: CertificateFile | CertificateToken | None
    mails: bool
    after: str
    is_given: bool
    earlier: bool


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """Pass the gate, bind the pack, keep it in the log and put a copy into the folder."""
    word, folder, by = typed.words[0], _writable(typed.value(_TO.name)), _name(typed.value("--by"))
    given = job_in(word, environment.documents()) if is_file_name(word) else None
    certificate = certificate_typed(typed)
    with environment.open_services(begins=given is not None) as services:
        if certificate:
            services.signing.require(certificate)
        by, at = by or Naming(services).name, services.now()
        job = given or services.log.load(cleaned(word))
        if job is None:
            return not_found(word)
        asked = _Asked(
            by,
            at,
            certificate,
            typed.has(_MAIL.name),
            services.after_issue,
            given is not None,
            typed.has(_EARLIER.name),
        )
        return _issued(job, folder, services, asked)


def _issued(
    job: Job,
    folder: Path,
    services: Services,
    asked: _Asked,
) -> CommandAnswer:
    def bind(passed: Pack) -> BoundPaper:
        _refuse_to_overwrite(_pack_of(passed.job, folder))
        with told_on_the_way(services.doing_now):
            return services.bind(passed)

    if asked.is_given:
        answer = services.log.issue_document(job, by=asked.by, at=asked.at, bind=bind, earlier=asked.earlier)
    else:
        _refuse_to_overwrite(_pack_of(job, folder))
        answer = services.log.issue(job.number, by=asked.by, at=asked.at, bind=bind, earlier=asked.earlier)
    if isinstance(answer, Refusal):
        services.journal.warn(f"held back {job.number or 'a job from a file'}: {len(answer.reasons)} reasons")
        return _refused(job, answer)
    services.journal.note(f"issued {answer.number}, SHA-256 {answer.sha256}")
    pack = _pack_of(answer.pack.job, folder)
    signed = _signed(answer, services, asked.certificate) if asked.certificate else None
    file, *also = _handed_out(answer, pack, services, signed)
    letter = _mail_draft(answer.pack.job, (file, *also), services) if asked.mails else None
    trouble = follow_up(asked.after, pack) if asked.after else ""
    return _told(answer, (file, *also), signed, letter, trouble)


def _told(
    issued: IssuedPaper, files: tuple[Path, ...], signed: SignedPaper | None, letter: Path | None, trouble: str
) -> CommandAnswer:
    pages = f"{issued.pages} page{'' if issued.pages == 1 else 's'}"
    return CommandAnswer(
        {"file": str(files[0]), "sha256": issued.sha256, "pages": issued.pages, "also": list(map(str, files[1:]))}
        | ({"mail": str(letter)} if letter else {})
        | ({"trouble": trouble} if trouble else {}),
        "\n".join(
            [
                *map(str, files),
                f"{pages}, {issued.pack.outcome}, SHA-256 {issued.sha256}",
                *((told(signed),) if signed else ()),
                *((f"A draft to send it with: {letter}",) if letter else ()),
                "To fetch it from another computer, one of:",
                *(f"  {each}" for each in copy_lines(files[0].parent)),
                *((f"! {trouble}",) if trouble else ()),
            ]
        ),
    )


def _pack_of(job: Job, folder: Path) -> Path:
    return folder / f"{job.number}-{job.form_set}"


def _refuse_to_overwrite(pack: Path) -> None:
    if pack.exists():
        raise UnusableError(f"{pack} exists already and is not written over; nothing is issued")


def _signed(issued: IssuedPaper, services: Services, certificate: CertificateFile | CertificateToken) -> SignedPaper:
    try:
        return signed_at(services, services.log.paper(issued.number), certificate)
    except JobLogError as error:
        raise JobLogError(
            f"It is issued and kept as {issued.kept or issued.number}, but not signed, and no pack was written: {error}. "
            "ohmfolio sign can sign it there"
        ) from None


def _mail_draft(job: Job, files: tuple[Path, ...], services: Services) -> Path | None:
    """A letter to send the pack with, beside its folder; None where it cannot be written, which is told."""
    letter = files[0].parent.with_suffix(".eml")
    try:
        services.write_new(
            letter, services.mail_file(mail_draft(job), {each.name: each.read_bytes() for each in files})
        )
    except OSError as error:
        aside(f"! It is issued, but {letter} cannot be written: {error.strerror or error}")
        return None
    return letter


def _handed_out(issued: IssuedPaper, pack: Path, services: Services, signed: SignedPaper | None) -> tuple[Path, ...]:
    try:
        return services.hand_out(issued, signed.pdf if signed else services.log.paper(issued.number), pack)
    except (OSError, JobLogError) as error:
        raise JobLogError(
            f"It is issued and kept as {issued.kept or issued.number}, but {pack} cannot be written: {_cause(error)}"
        ) from None


def _cause(error: Exception) -> str:
    return (error.strerror if isinstance(error, OSError) else None) or str(error)


def _refused(job: Job, refusal: Refusal) -> CommandAnswer:
    return CommandAnswer(
        {"may_issue": False, "reasons": reasons_as_value(job, refusal.reasons)},
        "\n".join([f"✗ Not issued, {counted(len(refusal.reasons), 'reason')}:", *reasons_as_text(refusal.reasons)]),
        NO,
    )


def _name(by: str) -> str:
    if cleaned(by) != by or len(by) > LINE_MAX:
        raise UnusableError(f"--by takes a name on one line, up to {LINE_MAX} letters of plain text")
    return by


def _writable(folder: str) -> Path:
    if not folder:
        raise UnusableError(f"issue needs a folder for the pack; usage: {COMMAND.usage}")
    path = Path(folder)
    # Made when there is a pack to put into it; a path mistyped further up makes nothing.
    there = path if path.exists() else path.absolute().parent
    if not there.is_dir():
        raise UnusableError(f"{folder} is not a folder, nor is there one to make it in")
    if not os.access(there, os.W_OK | os.X_OK):
        raise UnusableError(f"{folder} cannot be written to")
    return path


COMMAND = Command(
    name="issue",
    run=run,
    words="JOB.json|NUMBER",
    least=1,
    most=1,
    options=(
        _TO,
        WITH,
        TOKEN,
        LABEL,
        _MAIL,
        _EARLIER,
        CommandOption("--by", "who issues it; the person at this computer when not given", "NAME"),
        JSON,
    ),
    explains="A job from a file is brought into the log first, unless something holds it back.\n"
    "With --with or --token the PDF handed out bears that signature behind its bytes; the log keeps it without.\n"
    "The pack is a folder of its own: the PDF, the same as a web page, and the schedules as a table (CSV).\n"
    "OHMFOLIO_AFTER_ISSUE may name a command that is run with that folder behind it, never through a shell; whatever it does, "
    "the issue stands.\n"
    "Exit 0: issued. Exit 1: held back, with every reason. Nothing is ever written over.",
)
