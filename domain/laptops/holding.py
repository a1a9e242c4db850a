"""Who holds a job, and who there is: as the operations that were heard of leave it."""

from enum import StrEnum
from typing import NamedTuple

OFFICE = ""
"""Stands for whichever device is the office, as holder of a job."""


class Holding(NamedTuple):
    """How a job stands between the office and its laptops."""

    holder: str = OFFICE
    """The device that may change or issue it."""
    fence: int = 0
    """How often it was lent; a holding is known by it, and never by a clock."""
    tip: str = ""
    """The digest of what was done to it last."""
    since: str = ""
    """When the holder got it, as its clock or that of the office said; shown, and never compared."""
    goes_on_as: str = ""
    """The copy that was begun at the office because the device that holds it was lost."""
    goes_on_from: str = ""
    """The job that it is such a copy of."""
    is_issued: bool = False


class StationState(StrEnum):
    """What is known of a device."""

    ACTIVE = "active"
    LOST = "lost"
    """Not heard of; what it holds goes on as copies. It may come back."""
    SHUT = "shut"
    """Nothing it does counts before a person at the office says so."""
    REBORN = "reborn"
    """It goes on under another name."""


class Station(NamedTuple):
    """One device of the firm."""

    device: str
    name: str
    """The letters its numbers begin with."""
    person: str = ""
    """Who works with it."""
    days: int = 0
    """For so many days it may issue without having heard from the office."""
    is_office: bool = False
    state: StationState = StationState.ACTIVE
    key: str = ""
    """The public key it seals papers with."""
    was: tuple[str, ...] = ()
    """The names it had before, since its log was put back from copies; the one it went on from first."""
    is_awaited: bool = False
    """The office was put back from a copy, and changes nothing before it has heard from this one."""
