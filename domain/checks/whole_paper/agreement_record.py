"""A job as the rules of agreement ask of it, with what the other checks found."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from domain.checks.shared.circuits_in_use import Way
from domain.checks.shared.part_by_part import way_by_way
from domain.checks.shared.phrases import phrase
from domain.checks.shared.rcds import Rcd, board_rcd, own_rcd, switch_rcd
from domain.checks.shared.sources import sources_brought_in
from domain.checks.shared.uses import Use, use_of
from domain.figures.limits.limit import Limit
from domain.figures.limits.loader import table
from domain.job.finding import Finding
from domain.job.job import Job
from domain.value import LINE_MAX

Names = tuple[str, ...]
"""What of the record a condition rests on, as a sentence names it; () where it does not hold."""


class UsedWay(NamedTuple):
    """A circuit in use with what it feeds and where it runs."""

    way: Way
    use: Use

    @property
    def name(self) -> str:
        """By its board and number."""
        return f"{self.way.board.name} {self.way.circuit.number.strip() or phrase('no-number')}"


@way_by_way
def _used_ways(_: Job, way: Way) -> tuple[UsedWay, ...]:
    return (UsedWay(way, use_of(way.circuit)),)


@way_by_way
def _sources(_: Job, way: Way) -> tuple[tuple[str, frozenset[str]], ...]:
    fed = sources_brought_in(way.circuit)
    return ((UsedWay(way, use_of(way.circuit)).name, fed),) if fed else ()


@dataclass(frozen=True)
class Record:
    """A job with what the other checks found on it."""

    job: Job
    findings: tuple[Finding, ...]

    @cached_property
    def circuits(self) -> tuple[UsedWay, ...]:
        """Every circuit in use."""
        return tuple(used for _, used in _used_ways(self.job))

    @cached_property
    def rcds(self) -> tuple[tuple[str, Rcd], ...]:
        """Every RCD of the record, under the name of its circuit, board or switch."""
        boards = [(board.name, board_rcd(board)) for board in self.job.boards]
        circuits = [(each.name, own_rcd(each.way.circuit)) for each in self.circuits]
        found = [(phrase("main-switch"), switch_rcd(self.job)), *boards, *circuits]
        return tuple((name, rcd) for name, rcd in found if rcd)

    @cached_property
    def sources(self) -> tuple[tuple[str, frozenset[str]], ...]:
        """The circuits that bring another source in, and which."""
        return tuple(named for _, named in _sources(self.job))

    @property
    def additional(self) -> Limit:
        """The residual current up to which an RCD is additional protection."""
        found = table("rcd_required", self.job.edition).limit("idn_up_to", "411.3.3", "socket-outlets up to 32 A")
        assert found, "the table of required RCDs has a row for socket-outlets"
        return found

    def where(self, holds: Callable[[UsedWay], bool]) -> Names:
        """The circuits of which something holds."""
        return tuple(each.name for each in self.circuits if holds(each))


Condition = Callable[[Record], Names]


def shortened(text: str) -> str:
    """A text somebody typed, as one line of a sentence."""
    line = " ".join(text.split())
    return line if len(line) <= LINE_MAX else line[:LINE_MAX].rstrip() + " …"
