"""When a row of a table holds: what it wants of the facts, and which facts it still lacks."""

from collections.abc import Mapping

from pydantic import StrictBool, StrictInt, StrictStr, model_validator

from domain.forms.choice.answers import Answers
from domain.value import Value

Given = StrictBool | StrictInt | StrictStr
"""One answer, as rules and questions hold it."""
Facts = Mapping[str, object]
"""What is known, by name; None is not known."""
DERIVED = frozenset({"form_set", "work", "notify", "touched", "report_made"})
"""Facts that are worked out and never asked."""


class Wanted(Value):
    """What a condition wants of one fact."""

    one_of: tuple[Given, ...] = ()
    at_least: int | None = None

    def allows(self, given: object) -> bool:
        """The fact is one the condition wants."""
        is_enough = self.at_least is not None and isinstance(given, int) and given >= self.at_least
        return is_enough or given in self.one_of


class Conditional(Value):
    """A row that holds under conditions."""

    id: str
    when: Mapping[str, Wanted] = {}
    told: Mapping[str, Wanted] = {}
    """Conditions that hold only where the fact is known: nobody is asked for them."""
    unless: Mapping[str, Wanted] = {}
    """The row falls where one of these is known to hold; not knowing it keeps the row."""

    @model_validator(mode="after")
    def _asks_for_facts(self) -> "Conditional":
        if (
            unknown := (self.when.keys() | self.told.keys() | self.unless.keys())
            - Answers.model_fields.keys()
            - DERIVED
        ):
            raise ValueError(f"row {self.id!r} asks for {min(unknown)!r}, which no question answers")
        return self

    def left_open(self, facts: Facts) -> frozenset[str] | None:
        """The facts still needed to tell whether the row holds: none left when it does, None when it cannot."""
        if not all(wanted.allows(facts.get(name)) for name, wanted in self.told.items()):
            return None
        if any(facts.get(name) is not None and wanted.allows(facts[name]) for name, wanted in self.unless.items()):
            return None
        missing: set[str] = set()
        for name, wanted in self.when.items():
            given = facts.get(name)
            if given is None:
                missing.add(name)
            elif not wanted.allows(given):
                return None
        return frozenset(missing)
