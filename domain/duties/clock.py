"""A time the law or good practice allows, and the day it ends on."""

from datetime import date, timedelta
from typing import Annotated

from pydantic import Field, model_validator

from domain.dates import written
from domain.duties.counting import Count, last_day
from domain.forms.choice.answers import Dates
from domain.forms.choice.condition import Facts
from domain.value import Value

Span = Annotated[int, Field(ge=0, le=10_000)]
EVENTS = {
    "completed_on": "the day the work was completed",
    "inspected_on": "the day of the inspection and test",
    "commissioned_on": "the day it was first run",
    "issued_on": "the day the document was issued",
    "occupied_on": "the day the tenant moves in",
    "asked_on": "the day the council's request came",
    "viewer_asked_on": "the day the prospective tenant's request came",
    "remedied_on": "the day the work was completed",
    "notice_on": "the day the notice was served",
}


class DueBy(Value):
    """The last day to do it, and the other way of counting where there is one. Work to `by`, the earlier."""

    by: date
    other_reading: date | None = None
    counted: str
    """How it was counted, in words."""


class Clock(Value):
    """So long from a day; or a fixed day that it must be done before."""

    start: str = ""
    days: Span = 0
    months: Span = 0
    years: Span = 0
    count: Count = "of"
    other_days: Span | None = None
    """Another version of the text gives this many."""
    sooner: str = ""
    """The fact that holds a shorter time which the document sets, in the same unit."""
    before: date | None = None
    last: date | None = None
    """A fixed last day."""

    @model_validator(mode="after")
    def _runs_from_a_known_day(self) -> "Clock":
        if sum((self.start in Dates.model_fields, self.before is not None, self.last is not None)) != 1:
            raise ValueError("a clock starts on a known day, or ends before or on a fixed one")
        return self

    @property
    def says(self) -> str:
        """The time allowed, in words."""
        if self.before:
            return f"before {written(self.before)}"
        if self.last:
            return f"by {written(self.last)}"
        event = EVENTS[self.start]
        if not (self.days or self.months or self.years):
            return f"by {event}"
        return f"within {self._length} {self.count} {event}"

    def ends(self, facts: Facts) -> DueBy | None:
        """The day it ends on; None while the day it starts on is not known."""
        if self.before:
            return DueBy(by=self.before - timedelta(days=1), counted=self.says)
        if self.last:
            return DueBy(by=self.last, counted=self.says)
        start = facts.get(self.start)
        if not isinstance(start, date):
            return None
        set_sooner = facts.get(self.sooner)
        timed = self._shortened(set_sooner) if isinstance(set_sooner, int) else self
        return timed._from(start)

    def _shortened(self, to: int) -> "Clock":
        unit = "days" if self.days else "years"
        return self.model_copy(update={unit: to}) if to < getattr(self, unit) else self

    def _from(self, start: date) -> DueBy:
        months = self.months + 12 * self.years
        by = last_day(start, days=self.days, months=months, count=self.count)
        readings = {by, last_day(start, days=self.days, months=months)}
        if self.other_days is not None:
            readings = {by, last_day(start, days=self.other_days, count=self.count)}
        says = f"{self.says}, {written(start)}"
        return DueBy(by=min(readings), other_reading=max(readings) if len(readings) > 1 else None, counted=says)

    @property
    def _length(self) -> str:
        parts = ((self.years, "year"), (self.months, "calendar month"), (self.days, "day"))
        return " and ".join(f"{number} {unit}{'' if number == 1 else 's'}" for number, unit in parts if number)
