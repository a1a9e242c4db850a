"""`tend`: is the log whole, and who may use it."""

from datetime import datetime

from domain.log.upkeep import Condition, CopyProof, Unproven
from tui.commands.command import FINE, JSON, NO, Command, CommandAnswer, CommandOption, Environment, TypedArgument

_MEND = CommandOption("--mend", "make anew what follows from the rest, and remove unfinished files")
_SHARE = CommandOption(
    "--share", "open the log to a group of this computer, or a role of the server that keeps it", "GROUP"
)


def run(typed: TypedArgument, wiring: Environment) -> CommandAnswer:
    """What is wrong with the log, and what to do about it."""
    upkeep = wiring.upkeep(wiring.place())
    if group := typed.value(_SHARE.name):
        upkeep.share(group)
    condition = upkeep.tend(at=datetime.now().astimezone(), mend=typed.has(_MEND.name))
    return CommandAnswer(_as_value(condition), _as_text(condition), FINE if condition.well else NO)


def _as_value(condition: Condition) -> dict[str, object]:
    return {"well": condition.well, **condition.model_dump(mode="json")}


def _as_text(condition: Condition) -> str:
    said = [
        f"{condition.home}: {proof_in_words(condition.proof)}",
        f"Kept by {condition.keeper}",
        *(f"✓ {mended}" for mended in condition.mended),
    ]
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


def counted(count: int, what: str) -> str:
    """`1 job`, `2 jobs`."""
    return f"{count} {what}{'' if count == 1 else 's'}"


COMMAND = Command(
    name="tend",
    run=run,
    options=(JSON, _MEND, _SHARE),
    explains=(
        "Looked at are the file, every issued record (against the gate with the people of then, its trail, its line, its "
        "paper), drafts against their trails, registers, notes, the order in which all was kept, search index and access. It "
        "may be used meanwhile. Nothing is changed but what --mend and --share name; --mend makes nothing look sound that is "
        "not, and says what it cannot prove. Exit 1: something is wrong, and each line says what to do; exit 2: it cannot be "
        "looked at. Keep the chain elsewhere (`ohmfolio head`): whoever holds it can tell later whether anything was altered."
    ),
)
