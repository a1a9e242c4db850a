"""Where a figure comes from and how far it can be trusted."""

from enum import StrEnum

from domain.value import Value


class Trust(StrEnum):
    """How a figure was found."""

    PUBLISHED = "published"
    MEMORY = "memory"
    COMMON_PRACTICE = "common practice"


class Source(Value):
    """The standard and table a figure belongs to, and the open page it was read in."""

    standard: str
    table: str = ""
    """Table or regulation."""
    seen_in: str = ""
    """The open publication the figure was read in."""
    trust: Trust
    note: str = ""
    """Such as: not re-checked against this edition."""

    @property
    def named(self) -> str:
        """The standard and the place in it."""
        return f"{self.standard}, {self.table}" if self.table else self.standard

    @property
    def cited(self) -> str:
        """As a finding or a sheet names it."""
        named = self.named
        if self.trust is Trust.MEMORY:
            named += " (from memory; check the book)"
        elif self.trust is Trust.COMMON_PRACTICE:
            named += " (common practice)"
        return f"{named}; {self.note}" if self.note else named
