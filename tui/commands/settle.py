"""`settle`: what came of work that was done twice, set aside or lost between an office and its laptops; two choices each."""

from datetime import datetime
from typing import Any

from domain.laptops.matter import Matter, MatterKind
from domain.laptops.settling import CHOICES
from domain.log.laptops import Laptops
from tui.commands.command import JSON, NO, Command, CommandAnswer, Environment, TypedArgument, UnusableError
from tui.commands.firm_words import laptops_of

_SAYS = {
    MatterKind.ASIDE: "{job}: {count} of {who} set aside, for the job was not theirs to change when it came",
    MatterKind.STRANDED: "{job} is out with {who}, which was lost, shut out or put back from a copy",
    MatterKind.COPIED: "{job} came back from {who}, and goes on as {other}",
    MatterKind.TWO_PAPERS: "{job} and {other}, one job, were both issued",
    MatterKind.TWINS: "{job} and {other} look like one visit: the same address, day and papers",
    MatterKind.STRANGE: "{who} sent something else under a name that is taken; it is kept, and was not done",
    MatterKind.LOST_WORK: "{count} of {who} are gone with a log that was put back from a copy",
    MatterKind.SIGNER: "{job}, issued with {who}, is signed by somebody whom the register of people does not let sign now",
}


def run(typed: TypedArgument, wiring: Environment) -> CommandAnswer:
    """List what has to be settled, or settle one of them."""
    with wiring.at_desk() as desk:
        laptops = laptops_of(desk)
        matters = laptops.matters()
        if typed.words:
            at, choice = _picked(typed, len(matters))
            if why_not := laptops.settle(matters[at], choice, who=desk.who, at=datetime.now().astimezone()):
                return CommandAnswer({"why_not": why_not}, f"Not settled: {why_not}", NO)
            matters = laptops.matters()
        told = [_told(laptops, each) for each in matters]
    lines = [
        line
        for number, each in enumerate(told, 1)
        for line in (f"{number}. {each['says']}", f"   1 {each['choices'][0]}", f"   2 {each['choices'][1]}")
    ]
    return CommandAnswer(told, "\n".join(lines) or "Nothing has to be settled")


def _picked(typed: TypedArgument, count: int) -> tuple[int, int]:
    if len(typed.words) != 2 or not all(word.isdecimal() for word in typed.words):
        raise UnusableError("Say which, and how: ohmfolio settle 1 2 settles the first by its second choice")
    which, choice = map(int, typed.words)
    if not 0 < which <= count or choice not in (1, 2):
        raise UnusableError(f"There are {count} to settle, with the choices 1 and 2")
    return which - 1, choice


def _told(laptops: Laptops, matter: Matter) -> dict[str, Any]:
    who = next((each.person or each.name for each in laptops.stations() if each.device == matter.device), "a laptop")
    edits = matter.last - matter.first + 1
    other = "" if matter.kind is MatterKind.STRANGE else matter.other
    says = _SAYS[matter.kind].format(
        job=matter.job or "A note", who=who, other=other, count=f"{edits} edit{'' if edits == 1 else 's'}"
    )
    return {"says": says, "choices": CHOICES[matter.kind], "job": matter.job, "other": other, "kind": matter.kind.value}


COMMAND = Command(
    name="settle",
    run=run,
    words="[WHICH CHOICE]",
    most=2,
    options=(JSON,),
    explains="At the office. Nothing was thrown away: whatever is listed here is kept, whichever choice is taken.",
)
