"""What one station hands another: all it has that the other has not, and how far it has heard of everybody."""

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import NamedTuple

from domain.laptops.holding import Holding
from domain.laptops.operation import Ends, Operation


class Bundle(NamedTuple):
    """TakenIn in whole, or not at all."""

    sender: str
    ends: Ends
    """How far the sender has heard, the bundle included."""
    since: Ends
    """How far the other was taken to have heard already: what follows here follows on that."""
    operations: Iterable[Operation] = ()
    """In the sender's order."""
    contested: tuple[str, ...] = ()
    """Jobs of which the sender knows something that does not stand, or could not be done there."""
    holdings: Mapping[str, tuple[Holding, str]] = MappingProxyType({})
    """How such jobs stand with the office, behind all of the operations, and their documents."""


class Exchanged(NamedTuple):
    """What came of one bundle."""

    sender: str
    """Who it was from, as people call them."""
    new: int = 0
    repeated: int = 0
    jobs: tuple[str, ...] = ()
    aside: int = 0
    is_gap: bool = False
    """One before it is missing; nothing was taken in, and the next one will hold it."""
    put_back: bool = False
    """This log was put back from a copy without knowing it."""


class GapError(Exception):
    """What came before is missing: the bundle before this one is still under way."""


class TakenIn(NamedTuple):
    """What taking in a bundle did."""

    new: int
    repeated: int
    jobs: tuple[str, ...]
    """Those that were changed."""
    aside: int
    """Operations set aside, for a person to settle."""
    put_back: bool = False
    """The other has heard more of this device than this device knows of: this log was put back from a copy."""
