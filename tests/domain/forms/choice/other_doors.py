"""The other doors of the interview through which a careful person could tell the same job. Common practice, no source."""

from collections.abc import Iterator, Mapping
from typing import Any

from domain.forms.choice.answers import Answers

_SAME: tuple[tuple[Mapping[str, object], Mapping[str, object]], ...] = (
    ({"done": "alteration", "circuits": 0}, {"done": "replacement", "replaced": "intake", "circuits": None}),
    ({"done": "replacement", "replaced": "intake"}, {"done": "alteration", "replaced": None, "circuits": 0}),
    ({"done": "replacement", "replaced": "device"}, {"replaced": "device-type", "circuits": 1}),
    ({"done": "replacement", "replaced": "device"}, {"done": "alteration", "replaced": None, "circuits": 1}),
    ({"done": "replacement", "replaced": "cable"}, {"done": "alteration", "replaced": None, "circuits": 1}),
    ({"done": "replacement", "replaced": "equipment-larger"}, {"done": "alteration", "replaced": None, "circuits": 1}),
    ({"done": "replacement", "replaced": "equipment-new-cable"}, {"done": "new-circuit", "replaced": None}),
    ({"done": "replacement", "replaced": "device-type"}, {"done": "alteration", "replaced": None}),
    ({"done": "replacement", "replaced": "devices"}, {"replaced": "device-type", "circuits": 10}),
    ({"done": "replacement", "replaced": "device-shared"}, {"done": "alteration", "replaced": None, "circuits": 0}),
    ({"done": "inspection", "wanted": "damage"}, {"done": "other", "other": "damage", "wanted": None}),
    ({"other": "damage"}, {"done": "inspection", "wanted": "damage", "other": None}),
    ({"other": "report-stands"}, {"done": "inspection", "other": None, "wanted": "letting", "current_report": True}),
    ({"other": "temporary"}, {"done": "new-circuit", "other": None}),
)
"""What holds of a job told one way, and what is answered otherwise on another."""
_MAINS: Mapping[str, Mapping[str, object]] = {
    "new": {"done": "new-circuit", "own_work": True},
    "altered": {"done": "alteration", "own_work": True, "circuits": 1},
    "several": {"done": "alteration", "own_work": True, "circuits": 2},
    "part": {"done": "new-circuit", "own_work": "part"},
    "others": {"done": "new-circuit", "own_work": False},
    "like-for-like": {"done": "replacement", "replaced": "accessory"},
}
"""What was done to the circuit that feeds an alarm, as the doors of ordinary work ask it."""


def other_doors(told: Answers) -> Iterator[Answers]:
    """The same job by every other door; readings of the words, so own work stays own work."""
    given: dict[str, Any] = dict(told)
    counted = {"circuits": told.circuits} if told.circuits is not None else {}
    for held, instead in _SAME:
        if all(given[name] == value for name, value in held.items()):
            kept = counted if instead.get("circuits") == 1 else {}
            yield Answers.model_validate(given | instead | kept)
    if told.other in {"fire-alarm", "emergency-lighting"} and told.mains in _MAINS:
        told_apart = {"other": None, "mains": None, "system": told.system or told.other}
        yield Answers.model_validate(given | told_apart | _MAINS[told.mains] | counted)
