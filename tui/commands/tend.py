"""`tend`: is the log whole, and who may use it."""

from datetime import UTC, datetime, time

from domain.dates import date_in, written
from domain.log.upkeep import Condition, CopyProof, Unproven
from domain.words import counted
from tui.commands.command import (
    FINE,
    JSON,
    NO,
    Command,
    CommandAnswer,
    CommandOption,
    Environment,
    TypedArgument,
    UnusableError,
)
from tui.commands.progress import Progress

_MEND = CommandOption("--mend", "make anew what follows from the rest, and remove unfinished files")
_ANEW = CommandOption("--anew", "go through every job again, whatever an earlier look proved")
_SINCE = CommandOption("--since", "go through no others than the jobs touched since that day", "DATE")
_SHARE = CommandOption(
    "--share", "open the log to a group of this computer, or a role of the server that keeps it", "GROUP"
)


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """What is wrong with the log, and what to do about it."""
    upkeep = environment.upkeep(environment.place())
    if group := typed.value(_SHARE.name):
        upkeep.share(group)
    now = datetime.now().astimezone()
    progress = Progress("Jobs looked at")
    condition = upkeep.tend(
        at=now,
        mend=typed.has(_MEND.name),
        anew=typed.has(_ANEW.name),
        since=_since(typed.value(_SINCE.name)),
        told=progress,
    )
    progress.end()
    for fault in condition.faults:
        environment.journal().warn(f"found: {fault.says}")
    return CommandAnswer(_as_value(condition), _as_text(condition), FINE if condition.well else NO)


def _since(given: str) -> datetime | None:
    day = date_in(given)
    if given and day is None:
        raise UnusableError(f"{_SINCE.name} takes a date, such as 2026-11-25; not {given!r}")
    if day is None:
        return None
    try:
        return datetime.combine(day, time()).astimezone()
    except (OverflowError, ValueError):
        # At the ends of the calendar there is no other time of the day to count from.
        return datetime.combine(day, time(), UTC)


def _as_value(condition: Condition) -> dict[str, object]:
    return {"well": condition.well, **condition.model_dump(mode="json")}


def _as_text(condition: Condition) -> str:
    said = [
        f"{condition.home}: {proof_in_words(condition.proof)}",
        f"Kept by {condition.keeper}",
        *(f"✓ {mended}" for mended in condition.mended),
    ]
    if condition.since:
        said.append(f"! Only the jobs touched since {written(condition.since.date())} were gone through")
    if condition.proved_before:
        counts = counted(condition.proved_before, "job")
        said.append(f"· {counts} unchanged since an earlier look proved them; {_ANEW.name} goes through all again")
    if condition.folded:
        said.append(f"· The trails of {counted(condition.folded, 'issued paper')} were folded: they take less room")
    if condition.well:
        said.append("✓ File, records, papers, drafts, trails, registers, search index and access are as they should be")
    for fault in condition.faults:
        said += [f"✗ {fault.says}", f"  {fault.do}"]
    return "\n".join([*said, *(f"? Not proved: {_unproven(each)}" for each in condition.unproven)])


def _unproven(each: Unproven) -> str:
    return f"{each.job}: {each.says}" if each.job else each.says


def proof_in_words(proof: CopyProof) -> str:
    """Counts, and the chain to hold against another copy's."""
    counts = f"{counted(proof.jobs, 'job')}, {counted(proof.issued, 'issued paper')}"
    return f"{counts}\nChain over all that was kept: {proof.head}"


COMMAND = Command(
    name="tend",
    run=run,
    options=(JSON, _ANEW, _SINCE, _MEND, _SHARE),
    explains=(
        "Looked at are the file, every issued record (against the gate with the people of then, its trail, its line, its "
        "paper), drafts against their trails, registers, notes, the order in which all was kept, search index and access. It "
        "may be used meanwhile. A job that an earlier look proved, and that is to the byte as it was, is not gone through again: "
        "the marks lie beside the log, so a look that was stopped goes on. They are no proof against whoever may write there; "
        "--anew trusts none. Nothing is changed but what --mend and --share name, and how trails are kept that an earlier version "
        "left open: each is folded with its paper, once all was found whole. --mend makes nothing look sound that is "
        "not, and says what it cannot prove. Exit 1: something is wrong, and each line says what to do; exit 2: it cannot be "
        "looked at. Keep the chain elsewhere (`ohmfolio head`): whoever holds it can tell later whether anything was altered."
    ),
)
