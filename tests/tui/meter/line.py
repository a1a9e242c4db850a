"""A slow line between the program and the person: what is sent at one end is seen later at the other.

It is worked out from what was recorded, and nobody waits for it: one recording can be looked at over any line, and
comes out the same on every computer. What it leaves out is a line so full that the program itself has to wait; the
driver sends from a thread of its own and only ever the newest picture, so such a line would be kinder than shown here.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple


class Sent(NamedTuple):
    """Bytes that left the program together."""

    at: float
    """Seconds."""
    count: int


@dataclass(frozen=True, slots=True)
class Line:
    """A line that carries keys one way and pictures the other. The keys are few: only the pictures queue."""

    delay: float = 0.040
    """Seconds each way."""
    rate: float = 64_000
    """Bits a second towards the person."""
    overhead: int = 90
    """Bytes that SSH, TCP and IP add to every packet; an estimate."""
    packet: int = 1400
    """Bytes a packet takes of what is sent."""

    def seconds_for(self, count: int) -> float:
        """How long the line is busy with so many bytes."""
        packets = -(-count // self.packet)
        return (count + packets * self.overhead) * 8 / self.rate

    def seen(self, sent: Iterable[Sent]) -> list[float]:
        """When the last byte of each is at the person's end, in seconds of the same clock. They wait for one another."""
        free = 0.0
        seen: list[float] = []
        for at, count in sent:
            free = max(at, free) + self.seconds_for(count)
            seen.append(free + self.delay)
        return seen

    def after(self, answer: Iterable[Sent]) -> float:
        """Seconds from a key until all of its answer is seen, on a line that was quiet; `answer` counts from the key's arrival."""
        seen = self.seen(answer)
        return self.delay + max(seen) if seen else 0.0
