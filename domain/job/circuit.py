"""A circuit: its details, and the results of its tests."""

from domain.job.box import boxes_of
from domain.job.circuit_details import RING, SPARE, CircuitDetails
from domain.job.circuit_protection import CircuitProtection
from domain.job.circuit_results import CircuitResults
from domain.job.circuit_use import CircuitUse
from domain.value import Line, says_nothing


class Circuit(CircuitResults, CircuitUse, CircuitProtection, CircuitDetails):
    """One way of a board, in use or spare."""

    id: Line = ""
    """Stays with the circuit when it is renumbered or moved."""

    @property
    def is_spare(self) -> bool:
        """Listed, but nothing is connected and nothing is tested."""
        return self.shape.strip().casefold() == SPARE

    @property
    def is_ring(self) -> bool:
        """A ring final circuit."""
        return self.shape.strip().casefold() == RING

    @property
    def has_rcd(self) -> bool:
        """An RCD is named for the circuit."""
        return not says_nothing(self.rcd_standard)

    def bears(self, number: str) -> bool:
        """The circuit has this number, however it is written."""
        return self.number.strip().casefold() == number.strip().casefold()

    @property
    def name(self) -> str:
        """Number and description, as a person would say it."""
        return " ".join(part for part in (self.number.strip(), self.description.strip()) if part) or "without a number"


SCHEDULE_BOXES = (*boxes_of(CircuitDetails), *boxes_of(CircuitProtection))
"""The columns of the usual schedule of details."""
USE_BOXES = tuple(boxes_of(CircuitUse))
DETAIL_BOXES = (*SCHEDULE_BOXES, *USE_BOXES)
"""All that is known of a circuit before it is tested."""
RESULT_BOXES = tuple(boxes_of(CircuitResults))
