"""When the next inspection is recommended, where no law sets it."""

from collections.abc import Mapping
from functools import cache
from typing import Any

from domain.duties.clock import Clock
from domain.duties.duty import Duty, DutyKind
from domain.edition import Edition
from domain.figures.limits.intervals import premises_called
from domain.figures.limits.table import LimitRow
from domain.forms.choice.answers import Dates
from domain.forms.form_set import FormSet

RECOMMENDED = "next inspection recommended"
_OWNED_HOME = "Domestic, owner occupied"


def recommended_interval(facts: Mapping[str, Any], edition: Edition) -> Duty | None:
    """The longest interval recommended for premises of this kind; Minor Works names none, and the law rules lets."""
    start = _start(facts)
    row = _row(facts, edition)
    if start is None or row is None or facts.get("tenure") in {"private-let", "social-let"}:
        return None
    return _duty(edition, start, row.texts["premises"])


def recommended_by(made_of: str) -> Duty | None:
    """The same from what it was made of; None where no edition has it any more."""
    edition, start, premises = [*made_of.split("|", 2), "", ""][:3]
    if edition not in {*Edition} or start not in Dates.model_fields:
        return None
    known = {row.texts["premises"] for row in premises_called(premises, Edition(edition))}
    return _duty(Edition(edition), start, premises) if premises in known else None


@cache
def _duty(edition: Edition, start: str, premises: str) -> Duty:
    row = premises_called(premises, edition)[0]
    years = row.figures["years"]
    whole = years.value == int(years.value)
    clock = (
        Clock(start=start, years=int(years.value), sooner="next_within_years")
        if whole
        else Clock(start=start, months=int(years.value * 12))
    )
    also = row.texts.get("also", "")
    return Duty(
        id=RECOMMENDED,
        kind=DutyKind.INTERVAL,
        who="the owner",
        what=f"Next inspection: {premises}, at most {years.shown}",
        why=f"A recommendation; the person who signs may ask for a shorter one, with reasons. {also}".strip(),
        clock=clock,
        source=years.source,
        made_of=f"{edition.value}|{start}|{premises}",
    )


def lacks_kind(facts: Mapping[str, Any]) -> bool:
    """An interval is recommended by the kind of premises, and the kind is not known."""
    tenure = facts.get("tenure")
    is_open = tenure in {"not-home", "mixed"} or (facts.get("building") == "shared" and tenure == "owner")
    return _start(facts) is not None and is_open and not facts.get("kind")


def _start(facts: Mapping[str, Any]) -> str | None:
    """The day from which papers that name a next inspection count it."""
    papers = next((each.profile for each in FormSet if each == facts.get("form_set")), None)
    return papers.day_box if papers and papers.names_next_inspection else None


def _row(facts: Mapping[str, Any], edition: Edition) -> LimitRow | None:
    kind = facts.get("kind")
    if not kind and facts.get("tenure") == "owner" and facts.get("building") != "shared":
        kind = _OWNED_HOME
    rows = premises_called(kind, edition) if kind else ()
    return rows[0] if len(rows) == 1 else None
