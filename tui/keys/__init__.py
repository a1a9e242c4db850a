"""Every key of the program, by screen: it stands here and nowhere else, and foot line, help and sentences are made from it."""

from dataclasses import replace
from typing import Any

from textual.binding import Binding
from textual.dom import DOMNode
from textual.screen import Screen

from tui.keys import (
    boxes,
    decision,
    due,
    everywhere,
    find,
    inspection,
    intake,
    issue,
    job,
    keeping,
    last_time,
    over,
    owed,
    practice,
    put_right,
    questions,
    raised,
    registers,
    review,
    schedule,
    settle,
)
from tui.keys.key import Key

_OF_NO_PLACE = (*everywhere.KEYS, *job.KEYS)

KEYS: tuple[Key, ...] = (
    *_OF_NO_PLACE,
    *questions.KEYS,
    *boxes.KEYS,
    *schedule.KEYS,
    *intake.KEYS,
    *decision.KEYS,
    *practice.KEYS,
    *last_time.KEYS,
    *put_right.KEYS,
    *registers.KEYS,
    *keeping.KEYS,
    *settle.KEYS,
    *due.KEYS,
    *owed.KEYS,
    *find.KEYS,
    *inspection.KEYS,
    *raised.KEYS,
    *review.KEYS,
    *issue.KEYS,
    *over.KEYS,
)
"""In the order in which they are listed."""

BY_ID = {key.id: key for key in KEYS}


def bindings(*ids: str) -> list[Binding | tuple[str, str] | tuple[str, str, str]]:
    """The bindings with these ids, for a screen's or widget's BINDINGS."""
    return [
        Binding(key.keys, key.action, key.word, show=key.foot, key_display=key.shown, id=key.id)
        for key in (BY_ID[each] for each in ids)
    ]


def key_name(key: str, way: int = 0) -> str:
    """The key with an id as printed on a keyboard, for a sentence that names it; `way` counts its other keys."""
    return BY_ID[key].ways[way]


def keys_at(screen: Screen[Any]) -> list[tuple[Key, DOMNode]]:
    """Every key that works on a screen now, with whose it is: help and coach first, then those of this place, then the rest."""
    found = {
        active.binding.id: (BY_ID[active.binding.id], active.node)
        for active in screen.active_bindings.values()
        if active.binding.id in BY_ID
    }
    return sorted(found.values(), key=lambda each: _rank(each[0]))


def covered_at(screen: Screen[Any]) -> list[tuple[Key, DOMNode]]:
    """What the screen can do though the key for it does something else at this place; it is picked by its name."""
    working = {key.id for key, _ in keys_at(screen)}
    own = [BY_ID[each.id] for each in screen.BINDINGS if isinstance(each, Binding) and each.id in BY_ID]
    return [(replace(key, keys=""), screen) for key in own if key.id not in working]


def is_everywhere(key: Key) -> bool:
    """The key is none of this place: the coach, the ways between screens, and out."""
    return key in _OF_NO_PLACE


def _rank(key: Key) -> tuple[int, int]:
    at = _ORDER[key.id]
    if key.id in {"help", "coach"}:
        return 0, at
    if is_everywhere(key):
        return 3, at
    return 1 if key.foot else 2, at


_ORDER = {key.id: at for at, key in enumerate(KEYS)}
