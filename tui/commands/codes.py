"""`codes`: what published guidance says of an observation, and what the codes mean. It chooses none."""

from domain.edition import Edition
from domain.inspection.codes.guidance import Guidance
from domain.inspection.codes.likeness import guidance_for
from domain.inspection.observation import Code
from domain.inspection.outcome_rule import outcome_rule
from tui.commands.command import (
    JSON,
    Command,
    CommandAnswer,
    CommandOption,
    Environment,
    TypedArgument,
    UnusableError,
)

_ITEMS = CommandOption("--items", "the inspection items it belongs to, such as 4.4,5.12a", "NUMBERS")


def run(typed: TypedArgument, environment: Environment) -> CommandAnswer:
    """The entries most like an observation by its words and items, the best first: those that the form shows beside it."""
    items = typed.value(_ITEMS.name).replace(",", " ").split()
    if not typed.words and not items:
        raise UnusableError("Type what was seen, such as: no rcd garden socket; or an inspection item after --items")
    found = guidance_for(" ".join(typed.words), items)
    value = {
        "guidance": [_as_value(each) for each in found],
        "meaning": {code.value: code.meaning for code in Code},
        "unsatisfactory": [Code.C1.value, Code.C2.value],
        "fi_alone": {edition.value: outcome_rule(edition).fi_alone.value for edition in Edition},
        "chooses": "nobody but the inspector",
    }
    told = [each.told for each in found] or ["No guidance is known for this; judge by the meaning of the codes"]
    meanings = [f"{code}: {code.meaning}" for code in Code]
    return CommandAnswer(value, "\n".join([*told, "", *meanings, "The inspector chooses the code, by what is seen."]))


def _as_value(each: Guidance) -> dict[str, object]:
    return {
        "about": each.about,
        "commonly": [code.value for code in each.commonly],
        "says": each.says,
        "contested": each.is_contested,
        "doubts": each.doubts,
        "items": list(each.items),
        "source": each.source.cited,
        "trust": each.source.trust.value,
    }


COMMAND = Command(
    name="codes",
    run=run,
    words="[WORDS …]",
    most=None,
    options=(JSON, _ITEMS),
    explains="With --json commonly holds the codes the guidance names, and none where it says that no code is given by itself.\n"
    "Any of the codes listed as unsatisfactory makes a report so; C3 alone does not; FI alone by the edition.",
)
