"""Picking the circuit of an earlier paper that a circuit was."""

from collections.abc import Callable
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType

from domain.job.circuit import Circuit
from domain.log.last_time.history import Earlier
from domain.log.last_time.matching import earlier_circuits
from tui import theme
from tui.keys import bindings
from tui.screens.page import Page
from tui.widgets.pick_list import ListCell, ListRow, PickList
from tui.widgets.text_page import Paragraph, TextPage

_NONE = "none"


class MatchScreen(Page):
    """Every circuit of the earlier paper, and none of them."""

    EXPLAINS: ClassVar[str] = (
        "Every circuit in use on the earlier paper. Enter says which of them the circuit above was; the last line"
        " says that it was none of them. It is kept for this job, and can be changed at any time."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings("match-take", "back", "palette", "leave", "help")
    DEFAULT_CSS = """
    MatchScreen > TextPage { height: 1; padding: 0 1; }
    MatchScreen > PickList { height: 1fr; }
    """

    def __init__(self, circuit: Circuit, earlier: Earlier, was: str, take: Callable[[str], None]) -> None:
        super().__init__()
        self.circuit = circuit
        self.earlier = earlier
        self.was = was
        self._take = take

    def compose_page(self) -> ComposeResult:
        yield TextPage()
        yield PickList()

    def on_mount(self) -> None:
        """List them, the cursor on the one shown so far."""
        self.query_one(TextPage).show(
            [Paragraph(f"Which circuit of {self.earlier.number} was this one: {self.circuit.name}?", theme.HEAD)]
        )
        listed = self.query_one(PickList)
        rows = [
            ListRow(
                circuit.id,
                (
                    ListCell(board.name, theme.QUIET, 10),
                    ListCell(circuit.name),
                    ListCell(" ".join(filter(None, (circuit.device_type, circuit.rating.shown))), width=6),
                    ListCell(f"{circuit.live_csa.shown}/{circuit.cpc_csa.shown} mm²", width=14),
                ),
            )
            for board, circuit in earlier_circuits(self.earlier.job)
        ]
        listed.show([*rows, ListRow(_NONE, (ListCell("", width=10), ListCell("None of these")))], at=self.was)
        listed.focus()
        self.show_keys()

    def action_take(self) -> None:
        """Hand the circuit back."""
        if row := self.query_one(PickList).at:
            self.ohmfolio.pop_screen()
            self._take("" if row.id == _NONE else row.id)

    def action_back(self) -> None:
        """Back; what was matched stays."""
        self.ohmfolio.pop_screen()
