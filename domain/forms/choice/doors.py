"""What a job comes to, whichever door of the interview it was told through."""

from typing import Any, Literal

from domain.forms.choice.answers import Answers, Done

Touched = Literal["new circuit", "board", "one circuit", "several circuits", "intake", "nothing"]
"""What of the fixed wiring was built or changed."""
_SYSTEMS = ("fire-alarm", "emergency-lighting")


def facts_of_doors(answers: Answers) -> dict[str, Any]:
    """The answers, with what one door says outright and another leaves to be concluded."""
    facts: dict[str, Any] = dict(answers)
    facts["touched"] = touched(answers)
    if answers.system is None:
        facts["system"] = _system_told(answers)
    if answers.other == "damage":
        facts["wanted"] = "damage"
    if answers.other == "report-stands":
        facts["current_report"] = True
    return facts


def touched(answers: Answers) -> Touched | None:
    """What was built or changed; None while an answer is missing that tells it."""
    match answers.done:
        case None:
            return None
        case Done.NEW_CIRCUIT:
            return "new circuit"
        case Done.BOARD:
            return "board"
        case Done.ALTERATION:
            return _counted(answers)
        case Done.REPLACEMENT:
            return _by_replacing(answers)
        case Done.OTHER:
            return _by_other_work(answers)
        case Done.INSPECTION | Done.INSPECTION_AND_WORK:
            return "nothing"


def _counted(answers: Answers) -> Touched | None:
    match answers.circuits:
        case None:
            return None
        case 0:
            return "intake"
        case 1:
            return "one circuit"
        case _:
            return "several circuits"


def _at_least_one(answers: Answers) -> Touched:
    return "one circuit" if answers.circuits in {None, 0, 1} else "several circuits"


def _by_replacing(answers: Answers) -> Touched | None:
    match answers.replaced:
        case None:
            return None
        case "device" | "equipment-larger" | "cable":
            return _at_least_one(answers)
        case "device-type":
            return None if answers.circuits is None else _at_least_one(answers)
        case "devices" | "device-shared":
            return "several circuits"
        case "equipment-new-cable":
            return "new circuit"
        case "intake":
            return "intake"
        case _:
            return "nothing"


def _by_other_work(answers: Answers) -> Touched | None:
    if answers.other == "temporary":
        return "new circuit"
    if answers.other not in _SYSTEMS:
        return "nothing"
    match answers.mains:
        case None:
            return None
        case "new" | "part":
            return "new circuit"
        case "altered":
            return _at_least_one(answers)
        case "several":
            return "several circuits"
        case _:
            return "nothing"


def _system_told(answers: Answers) -> str | None:
    if answers.done is not Done.OTHER:
        return None
    return "emergency-lighting" if answers.other == "emergency-lighting-check" else _own(answers.other)


def _own(other: str | None) -> str | None:
    return other if other in _SYSTEMS else None
