"""`issue`: the pack of a job as a file, or every reason why not."""

import os
from pathlib import Path

from domain.gate.assessment import Pack, Refusal
from domain.gate.issued_paper import IssuedPaper
from domain.job.job import Job
from domain.job.start import as_draft
from domain.log.job_log import BoundPaper, JobLogError
from domain.value import LINE_MAX, cleaned
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
)
from tui.commands.input_files import is_file_name, job_in
from tui.services import Services

_TO = CommandOption("--to", "an existing folder for the pack", "FOLDER")


def run(typed: TypedArgument, wiring: Environment) -> CommandAnswer:
    """Pass the gate, bind the pack, keep it in the log and put a copy into the folder."""
    word, folder, by = typed.words[0], _writable(typed.value(_TO.name)), _name(typed.value("--by"))
    given = as_draft(job_in(word)) if is_file_name(word) else None
    with wiring.at_desk() as desk:
        by, at = by or desk.who, desk.now()
        if given is None:
            given = desk.log.load(cleaned(word))
            if given is None:
                return not_found(word)
            _free(folder, given)
            answer = desk.log.issue(given.number, by=by, at=at, bind=desk.bind)
        else:
            answer = desk.log.issue_new(given, by=by, at=at, bind=lambda pack: _bound(pack, folder, desk))
        return _refused(given, answer) if isinstance(answer, Refusal) else _issued(answer, folder, desk)


def _bound(pack: Pack, folder: Path, desk: Services) -> BoundPaper:
    _free(folder, pack.job)
    return desk.bind(pack)


def _free(folder: Path, job: Job) -> Path:
    pack = folder / f"{job.number}-{job.form_set}"
    if pack.exists() or pack.is_symlink():
        raise UnusableError(f"{pack} exists already and is not written over; job {job.number} is not issued")
    return pack


def _issued(answer: IssuedPaper, folder: Path, desk: Services) -> CommandAnswer:
    file, *also = _handed_out(answer, folder / f"{answer.number}-{answer.pack.job.form_set}", desk)
    pages = f"{answer.pages} page{'' if answer.pages == 1 else 's'}"
    return CommandAnswer(
        {"file": str(file), "sha256": answer.sha256, "pages": answer.pages, "also": list(map(str, also))},
        "\n".join([*map(str, (file, *also)), f"{pages}, {answer.pack.outcome}, SHA-256 {answer.sha256}"]),
    )


def _handed_out(issued: IssuedPaper, pack: Path, desk: Services) -> tuple[Path, ...]:
    try:
        return desk.hand_out(issued, desk.log.paper(issued.number), pack)
    except (OSError, JobLogError) as error:
        raise JobLogError(
            f"It is issued and kept as {issued.kept or issued.number}, but {pack} cannot be written: {_cause(error)}"
        ) from None


def _cause(error: Exception) -> str:
    return (error.strerror if isinstance(error, OSError) else None) or str(error)


def _refused(job: Job, refusal: Refusal) -> CommandAnswer:
    return CommandAnswer(
        {"may_issue": False, "reasons": reasons_as_value(job, refusal.reasons)},
        "\n".join([f"✗ Not issued, {len(refusal.reasons)} reasons:", *reasons_as_text(refusal.reasons)]),
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
    if not path.is_dir():
        raise UnusableError(f"{folder} is not a folder that exists")
    if not os.access(path, os.W_OK | os.X_OK):
        raise UnusableError(f"{folder} cannot be written to")
    return path


COMMAND = Command(
    name="issue",
    run=run,
    words="JOB.json|NUMBER",
    least=1,
    most=1,
    options=(_TO, CommandOption("--by", "who issues it; the person at this computer when not given", "NAME"), JSON),
    explains="A job from a file is brought into the log first, unless something holds it back.\n"
    "The pack is a folder of its own: the PDF, the same as a web page, and the schedules as a table (CSV).\n"
    "Exit 0: issued. Exit 1: held back, with every reason. Nothing is ever written over.",
)
