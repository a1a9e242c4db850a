"""What follows from the answers without being asked."""

from typing import Any, Literal

from domain.choice.answers import Answers, Done
from domain.choice.choosing import FormChoice

Work = Literal["circuit", "board", "alteration", "intake", "repair", "none"]


def facts_of(answers: Answers, choice: FormChoice) -> dict[str, Any]:
    """The answers, with the papers they lead to, the kind of work they mean, and what is settled by another answer."""
    facts: dict[str, Any] = dict(answers)
    if choice.is_decided:
        facts["form_set"] = choice.form_set.value if choice.form_set else "none"
    facts["work"] = work_of(answers)
    if answers.building == "not-dwelling":
        facts["tenure"] = "not-home"
    return facts


def work_of(answers: Answers) -> Work | None:
    """The kind of work, as the rules on notification tell them apart; None before anything is known of it."""
    match answers.done:
        case None:
            return None
        case Done.NEW_CIRCUIT:
            return "circuit"
        case Done.BOARD:
            return "board"
        case Done.INSPECTION:
            return "none"
        case Done.ALTERATION:
            return "intake" if answers.circuits == 0 else "alteration"
        case Done.REPLACEMENT:
            return _REPLACED.get(answers.replaced or "", "repair")
        case Done.OTHER:
            return _MAINS.get(answers.mains or "", "none")


_REPLACED: dict[str, Work] = {"equipment-new-cable": "circuit", "equipment-larger": "alteration"}
_MAINS: dict[str, Work] = {"new": "circuit", "altered": "alteration"}
