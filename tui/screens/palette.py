"""Everything that can be done on the screen below, picked by typing a few letters of it."""

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.dom import DOMNode
from textual.screen import ModalScreen

from domain.words import folded
from tui import theme
from tui.keys import Key, bindings, keys_at
from tui.widgets.entry_lines import SearchLine
from tui.widgets.foot import KeyLine
from tui.widgets.pick_list import FollowedList, ListCell, ListRow
from tui.widgets.too_small import TooSmall

Doing = tuple[Key, DOMNode]
"""A key, and the widget or screen whose action it is."""


class PaletteScreen(ModalScreen[Doing | None]):
    """Lists actions with their keys; hands back the one picked."""

    EXPLAINS: ClassVar[str] = "Type a few letters of what you want to do; Enter does what stands under the cursor."
    BINDINGS: ClassVar[list[BindingType]] = bindings(
        *("pick-key", "let-be", "help", "row-up", "row-down", "rows-up", "rows-down")
    )
    DEFAULT_CSS = """
    PaletteScreen { align: center top; }
    PaletteScreen > Vertical {
        width: 100%; height: 20; border: solid ansi_default; padding: 0 1; background: ansi_default;
    }
    PaletteScreen FollowedList { height: 1fr; }
    PaletteScreen KeyLine { padding: 0; }
    """

    def __init__(self, doings: list[Doing]) -> None:
        super().__init__()
        self.doings = doings

    def compose(self) -> ComposeResult:
        with Vertical():
            yield SearchLine("Do")
            yield FollowedList(lines_a_row=4, empty="Nothing here is called that")
            yield KeyLine()
        yield TooSmall()

    def on_mount(self) -> None:
        """List everything until something is typed."""
        self.query_one(SearchLine).focus()
        self.query_one(KeyLine).show_keys([key for key, _ in keys_at(self)])
        self.list_doings()

    @on(SearchLine.Changed)
    def list_doings(self) -> None:
        """List what holds every word typed."""
        words = folded(self.query_one(SearchLine).words).split()
        matching = [key for key, _ in self.doings if all(word in folded(f"{key.word} {key.says}") for word in words)]
        rows = [
            ListRow(
                key.id, (ListCell(key.word, theme.HEAD, 14), ListCell(key.says), ListCell(key.shown, theme.QUIET, 9))
            )
            for key in matching
        ]
        listed = self.query_one(FollowedList)
        listed.show(rows, at=rows[0].id if rows else "")

    def action_move(self, by: int) -> None:
        """One row up or down."""
        self.query_one(FollowedList).action_move(by)

    def action_page(self, by: int) -> None:
        """One window up or down."""
        self.query_one(FollowedList).action_page(by)

    def action_pick(self) -> None:
        """Hand back what stands under the cursor."""
        row = self.query_one(FollowedList).at
        if row:
            self.dismiss(next(doing for doing in self.doings if doing[0].id == row.id))

    def action_let_be(self) -> None:
        """Hand back nothing."""
        self.dismiss(None)
