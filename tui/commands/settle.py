"""`settle`: what came of work that was done twice, set aside or lost between an office and its laptops; two choices each."""

from datetime import datetime
from typing import Any

from domain.laptops.matter import Matter, MatterKind
from domain.laptops.telling import COMES_TO, in_few_words, matter_in_words, other_job
from domain.log.laptops import Laptops
from tui.commands.command import JSON, NO, Command, CommandAnswer, Environment, TypedArgument, UnusableError
from tui.commands.firm_words import laptops_of


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """List what has to be settled, or settle one of them."""
    lines: list[str] = []
    with environment.open_services() as services:
        laptops = laptops_of(services)
        matters = laptops.matters()
        if typed.words:
            at, choice = _picked(typed, len(matters))
            said = laptops.choices(matters[at])[choice - 1]
            if why_not := laptops.settle(matters[at], choice, who=services.who, at=datetime.now().astimezone()):
                return CommandAnswer({"why_not": why_not}, f"Not settled: {why_not}", NO)
            settled, matters = matters[at], laptops.matters()
            lines.append(f"✓ {matter_in_words(settled, laptops.stations())}: {said}")
            if settled.kind is MatterKind.STRANDED and (copy := laptops.copy_of(settled.job)):
                lines.append(f"✓ {settled.job} goes on as {copy}")
        told = [_told(laptops, each) for each in matters]
    lines += [
        line
        for number, each in enumerate(told, 1)
        for line in (
            f"{number}. {each['says']}",
            *([f"   It was: {in_few_words(each['done'])}"] if each["done"] else ()),
            f"   1 {each['choices'][0]}",
            f"   2 {each['choices'][1]}",
        )
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
    return {
        "says": matter_in_words(matter, laptops.stations()),
        "done": laptops.what_was_done(matter),
        "choices": laptops.choices(matter),
        "comes_to": COMES_TO[matter.kind],
        "job": matter.job,
        "other": other_job(matter),
        "kind": matter.kind.value,
    }


COMMAND = Command(
    name="settle",
    run=run,
    words="[WHICH CHOICE]",
    most=2,
    options=(JSON,),
    explains="At the office. Nothing was thrown away: whatever is listed here is kept, whichever choice is taken.",
)
