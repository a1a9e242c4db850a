"""The editions of BS 7671 a job may be worked to, and which one a new job starts with."""

from datetime import date
from enum import StrEnum


class Edition(StrEnum):
    """An edition with its amendments; forms, checklists and figures follow it."""

    A2 = "BS 7671:2018+A2:2022"
    """With A3:2024, which changed no figure used here."""
    A4 = "BS 7671:2018+A4:2026"

    __hash__ = str.__hash__
    """Tables are looked up by edition many times a second; the hash of an enumeration is the slow one."""

    @property
    def amended_to(self) -> str:
        """The amendment date that a declaration names."""
        return _AMENDED[self]


_AMENDED = {Edition.A2: "2022 (Amendment 2)", Edition.A4: "2026 (Amendment 4)"}
A4_PUBLISHED = date(2026, 4, 15)
A2_WITHDRAWN = date(2026, 10, 15)
"""Both dates as announced by the publishers and reported in the trade press."""


def edition_for(on: date) -> Edition:
    """The edition a job begun on this day starts with: the newer one once the older is withdrawn."""
    return Edition.A4 if on >= A2_WITHDRAWN else Edition.A2
