"""What an edit changed in a job: the parts and boxes that differ, and how each is put back."""

import json
from collections.abc import Iterator, Mapping
from typing import Any, cast

from pydantic import BaseModel

from domain.job.job import Job
from domain.place import Place
from domain.value import Value

ORDER = "in this order"
"""The last step of a path that stands for the order of a list."""
_NOTHING = '""'
_NEVER_BACK = {"next_id"}
"""An id is never given twice, whatever is undone."""


class FieldChange(Value):
    """One difference an edit made. Texts are JSON; None stands for a part, or a field left out, that was not there."""

    path: tuple[str, ...]
    """Names of fields, and ids of the parts of lists."""
    before: str | None
    after: str | None
    behind: str = ""
    """Which part of its list it stands behind; "" for the first."""


def changes_between(before: Job, after: Job) -> tuple[FieldChange, ...]:
    """Every difference between a job and what an edit made of it."""
    return tuple(_of_values(before, after, ()))


def _of_values(before: BaseModel, after: BaseModel, path: tuple[str, ...]) -> Iterator[FieldChange]:
    for name in type(before).model_fields:
        was, now = getattr(before, name), getattr(after, name)
        if was is now or was == now or (not path and name in _NEVER_BACK):
            continue
        if isinstance(was, BaseModel) and type(was) is type(now):
            yield from _of_values(was, now, (*path, name))
        elif (old := _by_key(was)) is not None and (new := _by_key(now)) is not None:
            yield from _of_lists(old, new, (*path, name))
        else:
            yield FieldChange(path=(*path, name), before=_field_text(before, name), after=_field_text(after, name))


def _of_lists(
    old: Mapping[str, BaseModel], new: Mapping[str, BaseModel], path: tuple[str, ...]
) -> Iterator[FieldChange]:
    # Parts go from the last to the first, so that each comes back behind the one it stood behind.
    for key in reversed([key for key in old if key not in new]):
        yield FieldChange(path=(*path, key), before=_text(old[key]), after=None, behind=_before(old, key))
    for key in [key for key in new if key not in old]:
        yield FieldChange(path=(*path, key), before=None, after=_text(new[key]), behind=_before(new, key))
    stayed = [key for key in old if key in new], [key for key in new if key in old]
    if stayed[0] != stayed[1]:
        yield FieldChange(path=(*path, ORDER), before=_written(list(old)), after=_written(list(new)))
    for key in stayed[0]:
        if old[key] is not new[key]:
            yield from _of_values(old[key], new[key], (*path, key))


def put(document: dict[str, Any], change: FieldChange, was: str | None, now: str | None) -> bool:
    """Put `now` where `was` stands; False where something else stands there."""
    *way, last = change.path
    owner: Any = None
    held: Any = document
    for step in way:
        owner, held = held, _step_into(held, step)
    if held is None and isinstance(owner, dict):
        # A document leaves some lists out while nothing is in them.
        parts: list[Any] = []
        done = _put_in_list(parts, last, change.behind, was, now)
        if done:
            owner[way[-1]] = parts
        return done
    if isinstance(held, list):
        return _put_in_list(cast(list[Any], held), last, change.behind, was, now)
    return isinstance(held, dict) and _put_in_field(cast(dict[str, Any], held), last, was, now)


def _put_in_field(fields: dict[str, Any], name: str, was: str | None, now: str | None) -> bool:
    """A document leaves some fields out while they are empty; an earlier log wrote "" for such a one."""
    if name in fields:
        there = _written(fields[name])
        if was is None or there != was:
            return False
    elif was not in {None, _NOTHING}:
        return False
    if now is None:
        fields.pop(name, None)
    else:
        fields[name] = json.loads(now)
    return True


def _put_in_list(parts: list[Any], last: str, behind: str, was: str | None, now: str | None) -> bool:
    keys = [_key_of(part) for part in parts]
    if last == ORDER:
        order: list[str] = json.loads(now or "[]")
        if _written(keys) != was or set(order) != set(keys):
            return False
        parts.sort(key=lambda part: order.index(_key_of(part)))
        return True
    at = keys.index(last) if last in keys else -1
    if (_written(parts[at]) if at >= 0 else None) != was:
        return False
    if now is None:
        del parts[at]
    elif at >= 0:
        parts[at] = json.loads(now)
    else:
        part = json.loads(now)
        if _key_of(part) != last:
            return False
        parts.insert(keys.index(behind) + 1 if behind in keys else 0 if not behind else len(parts), part)
    return True


def _step_into(held: Any, step: str) -> Any:
    if isinstance(held, dict):
        return cast(dict[str, Any], held).get(step)
    if isinstance(held, list):
        return next((part for part in cast(list[Any], held) if _key_of(part) == step), None)
    return None


def _by_key(parts: object) -> dict[str, BaseModel] | None:
    """The parts of a list by their keys; None where it is no list of parts that have keys of their own."""
    if not isinstance(parts, tuple):
        return None
    keyed = {_key_of(part): part for part in cast(tuple[Any, ...], parts) if isinstance(part, BaseModel)}
    return keyed if len(keyed) == len(cast(tuple[Any, ...], parts)) and "" not in keyed else None


def _key_of(part: object) -> str:
    if (box := _box_key(part)) is not None:
        return box
    for name in ("id", "item", "role"):
        if named := _held(part, name):
            return str(named)
    check, place = _held(part, "check"), _held(part, "place")
    shown = place.model_dump(mode="json") if isinstance(place, BaseModel) else place
    return f"{check} {_written(shown)}" if check else ""


def _box_key(part: object) -> str | None:
    """A place in a list of places is known by all that it names; None for a part of any other kind."""
    if isinstance(part, Place):
        return _written(part.model_dump(mode="json"))
    fields = cast(dict[str, Any], part) if isinstance(part, dict) else {}
    return _written(fields) if {"section", "snag", "box"} <= set(fields) else None


def _held(part: object, name: str) -> object:
    return cast(dict[str, object], part).get(name) if isinstance(part, dict) else getattr(part, name, None)


def _before(parts: Mapping[str, BaseModel], key: str) -> str:
    keys = list(parts)
    return keys[keys.index(key) - 1] if keys.index(key) else ""


def _field_text(owner: BaseModel, name: str) -> str | None:
    fields = owner.model_dump(mode="json", include={name})
    return _written(fields[name]) if name in fields else None


def _text(part: BaseModel) -> str:
    return _written(part.model_dump(mode="json"))


def _written(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
