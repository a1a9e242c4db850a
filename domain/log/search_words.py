"""What people type to search, with the filters they typed among the words."""

import re
from collections.abc import Callable, Iterable, Mapping
from datetime import date, timedelta
from typing import Any

from domain.dates import date_in
from domain.forms.form_set import FormSet
from domain.gate.outcome import Outcome
from domain.log.job_log import Query, State
from domain.words import folded

_PART = re.compile(r'[^\s:"“”]+:["“](?P<quoted>[^"”]*)["”]?|\S+')
"""A word, or a filter whose value stands in quotes; the closing quote may not have been typed yet."""
_SPAN = re.compile(r"([0-9]{1,4})([dw])", re.IGNORECASE)
_NUMBER = re.compile(r"([a-z]{1,4})[-\s]?0*([0-9]{1,9})", re.IGNORECASE | re.ASCII)


def number_written(text: str) -> str:
    """A job's number as the log writes it: `a3` and `A-3` are `A-0003`; anything else stays as typed."""
    match = _NUMBER.fullmatch(text.strip())
    return f"{match[1].upper()}-{int(match[2]):04d}" if match else text.strip()


def understood(query: Query) -> Query:
    """The query with the filters typed among its words put in their places: `snags:open client:"Druce and Co"`."""
    words: list[str] = []
    filters: dict[str, Any] = {name: getattr(query, name) for name in ("number", "client", "place", "engineer", "on")}
    for match in _PART.finditer(query.words):
        part, (key, _, value) = match[0], match[0].partition(":")
        value = value if match["quoted"] is None else match["quoted"].strip()
        read = _FILTERS.get(folded(key))
        found = read(value, filters) if read and value else None
        if found:
            filters |= found
        else:
            words.append(part)
    filters["number"] = number_written(filters["number"])
    return query.model_copy(update=filters | {"words": " ".join(words)})


def _one_of(
    name: str, choices: Iterable[FormSet | State | Outcome]
) -> Callable[[str, Mapping[str, Any]], dict[str, Any]]:
    def read(value: str, filters: Mapping[str, Any]) -> dict[str, Any]:
        chosen = next((choice for choice in choices if folded(choice.value) == folded(value)), None)
        return {name: chosen} if chosen else {}

    return read


def _snags(value: str, filters: Mapping[str, Any]) -> dict[str, Any]:
    meant = {"open": True, "yes": True, "none": False, "no": False}.get(folded(value))
    return {} if meant is None else {"open_snags": meant}


def _number(value: str, filters: Mapping[str, Any]) -> dict[str, Any]:
    return {"number": value}


def _year(value: str, filters: Mapping[str, Any]) -> dict[str, Any]:
    return {"year": int(value)} if re.fullmatch(r"[12][0-9]{3}", value) else {}


def _due(value: str, filters: Mapping[str, Any]) -> dict[str, Any]:
    today: date | None = filters["on"]
    if span := _SPAN.fullmatch(value):
        days = int(span[1]) * (7 if span[2] in "wW" else 1)
        return {"due_before": today + timedelta(days=days)} if today else {}
    day = today if folded(value) in {"now", "overdue"} else date_in(value)
    return {"due_before": day} if day else {}


def _to_put_right(value: str, filters: Mapping[str, Any]) -> dict[str, Any]:
    return {"to_put_right": True} if folded(value) in {"open", "yes"} else {}


def _laid_aside(value: str, filters: Mapping[str, Any]) -> dict[str, Any]:
    return {"laid_aside": True} if folded(value) in {"yes", "drafts"} else {}


def _hand(value: str, filters: Mapping[str, Any]) -> dict[str, Any]:
    return {"hand": value}


def _more_of(name: str) -> Callable[[str, Mapping[str, Any]], dict[str, Any]]:
    def read(value: str, filters: Mapping[str, Any]) -> dict[str, Any]:
        return {name: f"{filters[name]} {value}".strip()}

    return read


_FILTERS: dict[str, Callable[[str, Mapping[str, Any]], dict[str, Any]]] = {
    "form": _one_of("form_set", FormSet),
    "state": _one_of("state", State),
    "outcome": _one_of("outcome", Outcome),
    "snags": _snags,
    "no": _number,
    "number": _number,
    "client": _more_of("client"),
    "place": _more_of("place"),
    "postcode": _more_of("place"),
    "engineer": _more_of("engineer"),
    "year": _year,
    "due": _due,
    "remedial": _to_put_right,
    "hand": _hand,
    "aside": _laid_aside,
}
