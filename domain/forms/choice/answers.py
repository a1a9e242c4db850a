"""What a person answers about a job: what decides its papers, and what else is owed for it."""

from datetime import date
from enum import StrEnum
from typing import Annotated, Literal

from pydantic import Field, StrictBool

from domain.value import Line, Value


class Done(StrEnum):
    """What was done, in the trade's words."""

    NEW_CIRCUIT = "new-circuit"
    BOARD = "board"
    ALTERATION = "alteration"
    INSPECTION = "inspection"
    INSPECTION_AND_WORK = "inspection-and-work"
    REPLACEMENT = "replacement"
    OTHER = "other"


Replaced = Literal[
    "accessory",
    "no-cpc",
    "cpc-unknown",
    "device",
    "devices",
    "device-type",
    "device-shared",
    "equipment",
    "charge-or-source",
    "equipment-larger",
    "equipment-new-cable",
    "cable",
    "intake",
]
Other = Literal[
    "fire-alarm",
    "emergency-lighting",
    "emergency-lighting-check",
    "visual",
    "made-safe",
    "event",
    "low-voltage",
    "appliance",
    "portable",
    "meter",
    "damage",
    "report-stands",
    "report-elsewhere",
    "temporary",
    "advice",
]
Few = Annotated[int, Field(ge=1, le=1000, strict=True)]


def _is_untold(given: object) -> bool:
    """Left out of documents, so that those of before stay as they were, to the byte."""
    return given is None


class Dates(Value):
    """The days from which clocks run. None: not known, or not yet."""

    completed_on: date | None = None
    """Work completed."""
    inspected_on: date | None = None
    """Inspected and tested; the last day of several."""
    commissioned_on: date | None = None
    """Generation or storage first run."""
    issued_on: date | None = None
    occupied_on: date | None = None
    """A tenant's first day in the home."""
    asked_on: date | None = None
    """The council asked in writing for the report."""
    viewer_asked_on: date | None = None
    """A prospective tenant asked in writing for the report."""
    remedied_on: date | None = None
    """Work that a report asked for completed."""
    notice_on: date | None = None
    """The council served a remedial notice."""


class Answers(Dates):
    """The answers the rules decide over. None: not asked, or not answered yet."""

    done: Done | None = None
    replaced: Replaced | None = None
    other: Other | None = None
    mains: Literal["new", "altered", "several", "part", "others", "like-for-like", "untouched"] | None = None
    """What was done, and by whom, to the low-voltage circuit that feeds an alarm or emergency lighting."""
    system: Annotated[
        Literal["fire-alarm", "emergency-lighting", "both", "none"] | None, Field(exclude_if=_is_untold)
    ] = None
    """A system with a standard of its own that is part of the work."""
    own_work: StrictBool | Literal["part"] | None = None
    """Designed, built and tested by the people who will sign; or only a part of it."""
    circuits: Annotated[int, Field(ge=0, le=10_000, strict=True)] | Literal["unknown"] | None = None
    """How many existing circuits were altered or extended; 0 for earthing, bonding or tails alone."""
    earthing: Annotated[Literal["present", "absent", "unknown"] | None, Field(exclude_if=_is_untold)] = None
    """Whether the installation has earthing and main bonding that are sound."""

    put_right: Literal["circuits", "new", "like-for-like"] | None = None
    """What was put right on the visit of an inspection."""
    intake: Literal["bonding", "tails"] | None = None
    """Where no circuit was altered: what was."""
    scope: Literal["new-build", "rewire", "circuits"] | None = None
    """How much of the installation is new."""
    after_report: StrictBool | None = None
    """The work puts right what a condition report found."""
    wanted: Literal["letting", "sale", "interval", "damage", "other-work"] | None = None
    """What a report was ordered for."""
    current_report: Annotated[StrictBool | Literal["unknown"] | None, Field(exclude_if=_is_untold)] = None
    """A condition report of the place stands: not past its date, and what it asked for done."""
    fitted: (
        Literal["ev", "ev-source", "heat-pump", "pv", "battery", "pv-battery", "generator", "heating", "none"] | None
    ) = None
    """A charge point or heat pump, a source of supply or electric floor or ceiling heating among the work."""
    demand_over: StrictBool | None = None
    """The demand of the premises, with the charge point or heat pump, passes what may be connected first and told afterwards."""
    source_over: StrictBool | Literal["unknown"] | None = None
    """The generation or storage is larger than what may be connected first and told afterwards."""
    nation: Literal["England", "Wales", "Scotland", "Northern Ireland"] | None = None
    building: (
        Literal["house", "tall-house", "flat", "high-rise", "common-parts", "outbuilding", "shared", "not-dwelling"]
        | None
    ) = None
    room: Literal["bath-zone", "pool", "bathroom", "kitchen", "outdoors", "elsewhere"] | None = None
    registered: Literal["registered", "third-party", "no"] | None = None
    """How the work is notified, where it is notifiable."""
    tenure: Literal["owner", "private-let", "social-let", "excluded-let", "mixed", "unknown", "not-home"] | None = None
    hmo: Annotated[StrictBool | Literal["unknown"] | None, Field(exclude_if=_is_untold)] = None
    """The home that is let is a house in multiple occupation."""
    unsatisfactory: StrictBool | None = None
    """The report ended with a C1, C2 or FI."""
    kind: Line | None = None
    """The kind of premises, as the table of recommended intervals calls it."""
    remedy_within_days: Few | None = None
    """What the report asks for, where that is sooner than the law."""
    next_within_years: Few | None = None
    """The interval the report or certificate names."""
