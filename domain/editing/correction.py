"""Corrections: a new document in the place of an issued one, and why."""

from domain.editing.commands import Declined, SayWhy
from domain.job.job import Job
from domain.value import LINE_MAX, cleaned


def correction_of(job: Job, because: str) -> Job | Declined:
    """A new job like an issued one, naming it as replaced: the same record put right, so its readings stay.

    Signatures do not: whoever answers for the new document signs it anew.
    """
    anew = job.model_copy(update={"number": "", "signatures": (), "issued": None, "replaces": job.number})
    return _for_reason(anew, because)


def with_reason(job: Job, command: SayWhy) -> Job | Declined:
    """The correction with another reason for it."""
    if not job.replaces:
        return Declined(says="This document replaces no other; there is nothing to give a reason for")
    return _for_reason(job, command.because)


def _for_reason(job: Job, because: str) -> Job | Declined:
    reason = " ".join(cleaned(because).split())
    if not reason:
        return Declined(says=f"Say why {job.replaces} is replaced; the reason is printed on the new document")
    if len(reason) > LINE_MAX:
        return Declined(says=f"The reason has {len(reason)} letters; there is room for {LINE_MAX}")
    return job.model_copy(update={"replaces_because": reason})
