"""The office and its laptops: jobs taken out and brought back, exchange, new laptops and lost ones."""

from collections.abc import Iterator
from contextlib import suppress

from domain.laptops.holding import Station, StationState
from domain.log.job_log import JobLogError
from domain.log.laptops import Laptops, heard_when
from domain.words import counted
from tui import theme
from tui.screens.keeping_tasks import KeepingTask, Offer
from tui.screens.office_tasks import offered_to
from tui.services import Services
from tui.widgets.text_page import Paragraph

_LONGEST = 30
"""Letters of a name that fit into the line above the list."""


class TasksOfOffice:
    """What this log can do with the others of its firm: as that of the office, of a laptop, or of neither yet."""

    explains = (
        "A job is changed by whoever has it out, and by nobody else: take it out, work on it where the office cannot be"
        " reached, bring it back. What each has to tell the other goes by exchange, over a folder both see, a stick or ssh."
        " The same once more is always safe. A letter does what stands beside it, once its few questions are answered, and"
        " the answer stands below."
    )

    def __init__(self, services: Services) -> None:
        self._services = services

    @property
    def offered(self) -> tuple[KeepingTask, ...]:
        """What this log can do."""
        firm = self._firm
        return offered_to(firm.own if firm else None)

    @property
    def head(self) -> Iterator[Paragraph]:
        """What this log is."""
        firm = self._firm
        own, says = firm.own if firm else None, "Office and laptops: this log stands alone"
        if firm and own and own.is_office:
            in_use = len(self._in_use(firm))
            laptops = counted(in_use, "laptop") if in_use else "no laptops"
            says = f"The office, with letters {own.name} and {laptops} in use"
        elif firm and own:
            heard = heard_when(firm.heard_at(firm.office.device) if firm.office else "", self._services.now())
            whose = f" of {own.person[:_LONGEST]}" if own.person else ""
            says = f"Laptop {own.name}{whose}; the office was heard {heard}"
        yield Paragraph(says, theme.HEAD)

    def known(self, offer: Offer) -> Offer:
        """With the only laptop there is."""
        firm = self._firm
        laptops = self._in_use(firm) if firm else []
        return offer._replace(laptop=laptops[0].name) if len(laptops) == 1 else offer

    @property
    def _firm(self) -> Laptops | None:
        with suppress(JobLogError):
            return self._services.log.firm
        return None

    def _in_use(self, firm: Laptops) -> list[Station]:
        return [each for each in firm.stations() if not each.is_office and each.state is StationState.ACTIVE]
