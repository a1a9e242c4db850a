"""The table of what is owed beside the papers, as data."""

import tomllib
from enum import StrEnum
from functools import cache
from importlib.resources import files
from typing import Any

from domain.duties.clock import Clock
from domain.forms.choice.condition import Conditional
from domain.forms.choice.rule import Contested
from domain.source import Source


class DutyKind(StrEnum):
    """What sort of duty it is."""

    NOTIFICATION = "notification"
    ROUTE = "route"
    DISTRIBUTOR = "distributor"
    PAPER = "paper"
    COPY = "copy"
    RENTED = "rented home"
    INTERVAL = "next inspection"
    KEEP = "keep"
    CAUTION = "caution"


TOLD_TO_OTHERS = frozenset({DutyKind.NOTIFICATION, DutyKind.ROUTE, DutyKind.DISTRIBUTOR})
"""What building control and the distributor are owed."""


class DutyVerdict(StrEnum):
    """Whether building control must know."""

    YES = "yes"
    NO = "no"
    IF = "if"
    """It depends on something only the authority can settle."""


class Duty(Conditional):
    """One row: when it holds, what is owed, by whom, and by when."""

    group: str = ""
    """Among rows of one group the first that holds decides."""
    kind: DutyKind
    verdict: DutyVerdict | None = None
    who: str = "you"
    what: str
    why: str = ""
    route: str = ""
    clock: Clock | None = None
    met_by: str = ""
    """The date that shows it done, once it is known."""
    contested: Contested | None = None
    of_findings: bool = False
    """A paper names it only where an observation is about an item of the distributor's; before, it is good to know."""
    source: Source
    made_of: str = ""
    """What tells rows of one id apart that are made of another table; "" for the rows of these."""


_TABLES = (
    "notification.toml",
    "distributor.toml",
    "papers.toml",
    "rented_england.toml",
    "rented_elsewhere.toml",
)


@cache
def duties() -> tuple[Duty, ...]:
    """Every row, in the order of the tables."""
    return tuple(
        duty for name in _TABLES for duty in duties_in(files("domain.duties").joinpath(name).read_text("utf-8"))
    )


def duties_in(text: str) -> tuple[Duty, ...]:
    """The rows a TOML text holds."""
    data: dict[str, Any] = tomllib.loads(text)
    return tuple(Duty.model_validate(row) for row in data["duty"])
