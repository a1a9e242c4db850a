"""What follows from the answers without being asked."""

from typing import Any, Literal

from domain.forms.choice.answers import Answers, Done
from domain.forms.choice.doors import facts_of_doors
from domain.forms.form_set import FormSet

Work = Literal["circuit", "board", "alteration", "intake", "repair", "swap", "none"]


def facts_of(answers: Answers, form_set: FormSet | None) -> dict[str, Any]:
    """The answers, with the papers they lead to, the kind of work they mean, and what is settled by another answer."""
    facts = facts_of_doors(answers)
    facts["form_set"] = form_set.value if form_set else "none"
    facts["work"] = work_of(answers)
    if answers.building in {"not-dwelling", "common-parts"}:
        facts["tenure"] = "not-home"
    if answers.building == "common-parts":
        facts["kind"] = answers.kind or "Common parts of flats"
    if answers.done is Done.INSPECTION_AND_WORK:
        facts["scope"] = "circuits"  # what was inspected stood there already
    is_report = form_set is not None and form_set.profile.states_a_condition
    if is_report and answers.own_work is False:
        facts["wanted"] = "other-work"
    elif is_report and answers.done is Done.OTHER:
        facts["wanted"] = facts["wanted"] or "interval"
    return facts


def report_made(answers: Answers) -> Literal["before occupation", "during occupation"] | None:
    """Whether the tenant of a let home was there when it was inspected; None while a day is missing."""
    if answers.occupied_on is None or answers.inspected_on is None:
        return None
    return "before occupation" if answers.inspected_on < answers.occupied_on else "during occupation"


def work_of(answers: Answers) -> Work | None:
    """The kind of work, as the rules on notification tell them apart; None before anything is known of it."""
    if answers.own_work is False and (answers.done in _BUILT or answers.other == "temporary"):
        return "none"
    match answers.done:
        case None:
            return None
        case Done.NEW_CIRCUIT:
            return "circuit"
        case Done.BOARD:
            return "board"
        case Done.INSPECTION:
            return "none"
        case Done.INSPECTION_AND_WORK:
            return _ON_THE_VISIT.get(answers.put_right or "") or _counted(answers)
        case Done.ALTERATION:
            return _counted(answers)
        case Done.REPLACEMENT:
            return _REPLACED.get(answers.replaced or "", "repair")
        case Done.OTHER:
            return "circuit" if answers.other == "temporary" else _MAINS.get(answers.mains or "", "none")


def _counted(answers: Answers) -> Work:
    return "intake" if answers.circuits == 0 else "alteration"


_BUILT = frozenset({Done.NEW_CIRCUIT, Done.BOARD, Done.ALTERATION, Done.REPLACEMENT})
"""What may have been built by somebody else, as a temporary supply may; then the work is none of ours."""
_ON_THE_VISIT: dict[str, Work] = {"new": "circuit", "like-for-like": "repair"}
_REPLACED: dict[str, Work] = {
    "equipment-new-cable": "circuit",
    "equipment-larger": "alteration",
    "charge-or-source": "swap",
    "intake": "intake",
}
_MAINS: dict[str, Work] = {
    "new": "circuit",
    "part": "circuit",
    "altered": "alteration",
    "several": "alteration",
    "like-for-like": "repair",
}
