"""Makes drafts and packs, away from the screen: called in a thread, touches no widget, hands back what happened."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from domain.coach.summary import Summary
from domain.coach.visit_sheet import Visit
from domain.duties.mail_draft import mail_draft
from domain.gate.assessment import Refusal
from domain.gate.issued_paper import IssuedPaper
from domain.gate.proof import NotAPdfError, Proof, ProofVerdict
from domain.job.job import Job, fingerprint
from domain.log.firm_logo import logo_of
from domain.log.job_log import BoundPaper, JobLogError
from domain.log.put_right.letter import Letter
from domain.words import capitalised
from tui.after_issue import follow_up
from tui.given_file import read_given_file
from tui.services import Services
from tui.user_name import Naming

_LARGEST = 64 * 1024 * 1024
"""Bytes; a byte more than any pack."""
_OF_A_PACK = frozenset({".pdf", ".html", ".csv"})


@dataclass(frozen=True, slots=True)
class Attempt:
    """What became of a draft or a pack: a sentence for the person, and what was made or refused."""

    says: str
    is_trouble: bool = False
    refusal: Refusal | None = None
    issued: IssuedPaper | None = None
    copy: str = ""
    """Where the copy for the customer lies."""
    proof: Proof | None = None
    """What a file was found to be."""


Make = Callable[[Job, Path, Services], Attempt]
"""Makes something of a job into a folder, or looks at a file."""


def draft_of(job: Job, folder: Path, services: Services) -> Attempt:
    """Print the job as it stands; DRAFT is on every page."""
    path = _free(folder, f"{job.number}-{job.form_set}-DRAFT")
    try:
        bound = services.bind_draft(job, logo_of(services.log, job))
        services.write_new(path, bound.pdf)
    except (OSError, JobLogError) as error:
        return Attempt(f"No draft: {_cause(error)}", is_trouble=True)
    return Attempt(f"Draft of {bound.pages} pages: {path}", copy=str(path))


def summary_page(summary: Summary, folder: Path, services: Services) -> Attempt:
    """Print how somebody's practice stands."""
    return _printed("summary", _free(folder, "practice-summary"), lambda: services.bind_summary(summary), services)


def visit_sheet_of(visit: Visit, folder: Path, services: Services) -> Attempt:
    """Print the visit sheet of a job."""
    path = _free(folder, f"{visit.job.number}-visit")
    return _printed("visit sheet", path, lambda: services.bind_visit(_with_logo(visit, services)), services)


def _with_logo(visit: Visit, services: Services) -> Visit:
    return visit.model_copy(update={"logo": logo_of(services.log, visit.job)})


def letter_of(letter: Letter, folder: Path, services: Services) -> Attempt:
    """Print the letter that confirms that a report was put right."""
    path = _free(folder, f"{letter.put_right.report.number}-put-right")
    return _printed("letter", path, lambda: services.bind_letter(letter), services)


def pack_of(job: Job, folder: Path, services: Services, *, earlier: bool = False) -> Attempt:
    """Issue the job, and put a copy of the pack into the folder; `earlier` where its day before the last paper's is right."""
    path = folder / f"{job.number}-{job.form_set}"
    if path.exists():
        return Attempt(f"Not issued: {path} exists already, and nothing is written over", is_trouble=True)
    by, at = Naming(services).name, services.now()
    try:
        answer = services.log.issue(
            job.number, by=by, at=at, bind=services.bind, seen=fingerprint(job), earlier=earlier
        )
    except (OSError, JobLogError) as error:
        return Attempt(f"Not issued: {_cause(error)}", is_trouble=True)
    if isinstance(answer, Refusal):
        services.journal.warn(f"held back {job.number}: {len(answer.reasons)} reasons")
        return Attempt("Not issued", is_trouble=True, refusal=answer)
    services.journal.note(f"issued {answer.number}, SHA-256 {answer.sha256}")
    try:
        files = services.hand_out(answer, services.log.paper(answer.number), path)
    except (OSError, JobLogError) as error:
        says = f"Issued and kept in the log, but no copy in {folder}: {_cause(error)}"
        return Attempt(says, is_trouble=True, issued=answer)
    if services.after_issue and (trouble := follow_up(services.after_issue, path)):
        return Attempt(f"{files[0]}. {trouble}", is_trouble=True, issued=answer, copy=str(path))
    return Attempt(f"Issued: {files[0]}", issued=answer, copy=str(path))


def pack_again(job: Job, folder: Path, services: Services) -> Attempt:
    """Put the pack of an issued job into a folder once more, as it was issued."""
    path = folder / f"{job.number}-{job.form_set}"
    try:
        issued = services.log.issued(job.number)
        if issued is None:
            return Attempt("No pack: it has not been issued yet", is_trouble=True)
        files = services.hand_out(issued, services.log.paper(issued.number), path)
    except FileExistsError:
        return Attempt(f"No pack: it exists already, and nothing is written over: {path}", is_trouble=True)
    except (OSError, JobLogError) as error:
        return Attempt(f"No pack: {_cause(error)}", is_trouble=True)
    return Attempt(f"The pack as it was issued: {files[0]}", issued=issued, copy=str(path))


def mail_of(job: Job, folder: Path, services: Services) -> Attempt:
    """Write a draft e-mail with the pack attached, beside the pack, which is put there where it is not yet."""
    pack, letter = folder / f"{job.number}-{job.form_set}", folder / f"{job.number}-{job.form_set}.eml"
    try:
        issued = services.log.issued(job.number)
        if issued is None:
            return Attempt("No letter: it has not been issued yet", is_trouble=True)
        if not pack.exists():
            services.hand_out(issued, services.log.paper(issued.number), pack)
        files = {
            each.name: each.read_bytes() for each in sorted(pack.glob(f"{pack.name}*")) if each.suffix in _OF_A_PACK
        }
        services.write_new(letter, services.mail_file(mail_draft(issued.pack.job), files))
    except (OSError, JobLogError) as error:
        return Attempt(f"No letter: {_cause(error)}", is_trouble=True)
    return Attempt(f"A draft e-mail with {len(files)} files: {letter}", copy=str(pack))


def verified(_: Job, file: Path, services: Services) -> Attempt:
    """Say whether a file is a paper as this log issued it."""
    try:
        proof = services.proof_of(read_given_file(file, _LARGEST), services.log)
    except NotAPdfError:
        return Attempt(f"It is not a PDF: {file}", is_trouble=True)
    except (OSError, ValueError, JobLogError) as error:
        return Attempt(f"It cannot be verified: {_cause(error)}", is_trouble=True)
    return Attempt(proof.says, is_trouble=proof.verdict is not ProofVerdict.UNALTERED, proof=proof)


def _printed(what: str, path: Path, bind: Callable[[], BoundPaper], services: Services) -> Attempt:
    try:
        services.write_new(path, bind().pdf)
    except (OSError, JobLogError) as error:
        return Attempt(f"No {what}: {_cause(error)}", is_trouble=True)
    return Attempt(f"{capitalised(what)}: {path}", copy=str(path))


def _free(folder: Path, name: str) -> Path:
    path, count = folder / f"{name}.pdf", 1
    while path.exists():
        count += 1
        path = folder / f"{name}-{count}.pdf"
    return path


def _cause(error: Exception) -> str:
    if isinstance(error, FileExistsError):
        return "a file of that name exists already, and no file is written over"
    return (error.strerror if isinstance(error, OSError) else None) or str(error)
