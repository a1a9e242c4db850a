"""Ids for the parts of a job that were typed without any."""

import re
from typing import Any, cast

_NUMBERED = re.compile(r"[a-z](\d{1,9})")
_PARTS = {"boards": "b", "snags": "s", "observations": "o", "pictures": "p"}


def with_ids(document: dict[str, Any]) -> dict[str, Any]:
    """The document with an id on every board, circuit, snag and observation, and `next_id` beyond them all."""
    parts = [part for key in _PARTS for part in _dicts(document.get(key))]
    parts += [circuit for board in _dicts(document.get("boards")) for circuit in _dicts(board.get("circuits"))]
    used = [int(match[1]) for part in parts if (match := _NUMBERED.fullmatch(str(part.get("id", ""))))]
    given = document.get("next_id", 1)
    # What is no number an id can have stays as it was given, for the job to refuse.
    is_one = type(given) is int and given >= 1
    counter = _Counter(max([given if is_one else 1, *(number + 1 for number in used)]))
    made = dict(document)
    for key, letter in _PARTS.items():
        if isinstance(document.get(key), (list, tuple)):
            made[key] = [_named(part, letter, counter) for part in document[key]]
    if is_one and counter.next != given:
        made["next_id"] = counter.next
    return made


class _Counter:
    def __init__(self, first: int) -> None:
        self.next = first

    def take(self) -> int:
        taken = self.next
        self.next += 1
        return taken


def _dicts(parts: object) -> list[dict[str, Any]]:
    if not isinstance(parts, (list, tuple)):
        return []
    return [cast(dict[str, Any], part) for part in cast(list[object], parts) if isinstance(part, dict)]


def _named(part: object, letter: str, counter: _Counter) -> object:
    if not isinstance(part, dict):
        return part
    named = dict(cast(dict[str, Any], part))
    if not named.get("id"):
        named["id"] = f"{letter}{counter.take()}"
    if isinstance(named.get("circuits"), (list, tuple)):
        named["circuits"] = [_named(each, "c", counter) for each in named["circuits"]]
    return named
