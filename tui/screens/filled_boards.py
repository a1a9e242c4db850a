"""Boards that come filled: the firm's own and the program's, to begin a board from; and keeping one for later."""

from collections.abc import Callable
from typing import ClassVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import BindingType

from domain.editing.board_filling import is_without_circuits
from domain.job.board import Board
from domain.log.job_log import JobLogError
from domain.register.entries import Kept, KnownBoard, RegisterKind, identity_of
from domain.usual.circuit_kinds import kind_of
from domain.usual.filled_boards import FilledBoard, bare, filled_boards
from tui import theme
from tui.keys import bindings, key_name
from tui.screens.dialogs import LineScreen
from tui.screens.page import Page
from tui.widgets.pick_list import ListCell, ListRow, PickList
from tui.widgets.text_page import Paragraph, TextPage

_EMPTY = "An empty board"
_OWN_MAX = 100


class FilledBoardsScreen(Page):
    """The boards to choose from, and under them what is in the one under the cursor."""

    EXPLAINS: ClassVar[str] = (
        "Boards that come filled: those your firm has kept, then the program's own, which are common practice and no"
        " figure of a standard. Enter, or the figure before it, puts circuits, sizes, devices and methods into the board you came"
        " from where that has no circuit yet, else into a new one. All of it is marked as put forward until it is confirmed on site."
        " Points, lengths and readings are never put in. S keeps the board you came from for later jobs."
    )
    BINDINGS: ClassVar[list[BindingType]] = bindings("board-take", "board-save", "back", "palette", "leave", "help")
    DEFAULT_CSS = """
    FilledBoardsScreen > #head { height: 1; padding: 0 1; }
    FilledBoardsScreen > PickList { height: 1fr; }
    FilledBoardsScreen > #about { height: 6; padding: 0 1; border-top: solid ansi_default; }
    """

    def __init__(self, here: Board | None, take: Callable[[str, Board | None], None]) -> None:
        """`take` gets the name of a board and what is in it; None for an empty one."""
        super().__init__()
        self._here = here
        self._take = take
        self._own: tuple[Kept, ...] = ()
        self._offered: tuple[FilledBoard, ...] = ()

    def compose_page(self) -> ComposeResult:
        yield TextPage(id="head")
        yield PickList()
        yield TextPage(id="about")

    def on_mount(self) -> None:
        """List them."""
        self.query_one("#head", TextPage).show([Paragraph("Begin a board from", theme.HEAD)])
        self._load()
        self.query_one(PickList).focus()
        self.show_keys()

    def on_key(self, event: events.Key) -> None:
        """The figure before a board takes it."""
        if (event.character or "").isdecimal() and self.query_one(PickList).go_to(event.character or ""):
            event.stop()
            event.prevent_default()
            self.action_take()

    @on(PickList.Moved)
    def show_board(self) -> None:
        """Tell what is in the board under the cursor."""
        picked = self._picked
        told = (
            ", ".join(kind_of(each).description for each in picked.board.circuits if each.description) if picked else ""
        )
        unnamed = [Paragraph("ways numbered by phase, nothing else in them")] if picked and not told else []
        in_it = [Paragraph(told, label=f"{len(picked.board.circuits)} ways:")] if picked and told else unnamed
        note = Paragraph("Put forward: each box waits until somebody confirms it on site.", theme.QUIET)
        self.query_one("#about", TextPage).show([*in_it, note] if picked else [Paragraph("one circuit to type into")])

    def action_take(self) -> None:
        """Hand over the board under the cursor."""
        if self.query_one(PickList).at:
            picked = self._picked
            self.ohmfolio.pop_screen()
            self._take(picked.name if picked else "", picked.board if picked else None)

    def action_save(self) -> None:
        """Ask what the board is called, and keep it."""
        here = self._here
        if here is None or not any(each.description.strip() for each in here.circuits):
            self.say("The board you came from has no circuit with a description; there is nothing to keep", bad=True)
            return
        about = "Kept: circuits, sizes, devices, methods. Left out: readings, points, lengths, place and dates."
        self.ask(LineScreen("Keep this board as", here.name, about), lambda name: self._save(here, name))

    def action_back(self) -> None:
        """Back; nothing is begun."""
        self.ohmfolio.pop_screen()

    @property
    def _picked(self) -> FilledBoard | None:
        at = self.query_one(PickList).at
        return self._offered[int(at.id) - 1] if at and at.id != "0" else None

    def _save(self, here: Board, name: str) -> None:
        services, entry = self.ohmfolio.services, KnownBoard(name=name, board=bare(here))
        known = next((each.id for each in self._own if identity_of(each.entry) == identity_of(entry)), "")
        try:
            services.log.register(entry, entry_id=known, who=services.who, at=services.now())
        except JobLogError as error:
            self.say(f"Not kept. {error}", bad=True)
            return
        self._load()
        self.say(f"Kept for later jobs: {name}; {key_name('registers')} on the first screen renames or retires it")

    def _load(self) -> None:
        try:
            self._own = self.ohmfolio.services.log.registered(RegisterKind.BOARD, limit=_OWN_MAX)
        except JobLogError as error:
            self._own = ()
            self.say(str(error), bad=True)
        own = (each.entry for each in self._own if isinstance(each.entry, KnownBoard))
        kept = tuple(FilledBoard(name=each.name, board=each.board) for each in own)
        self._offered = (*kept, *filled_boards())
        rows = [
            ListRow(
                str(at),
                (
                    ListCell(str(at) if at < 10 else "", theme.HEAD, 2),
                    ListCell(each.name),
                    ListCell("kept by your firm" if at <= len(kept) else "common practice", theme.QUIET, 18),
                ),
            )
            for at, each in enumerate(self._offered, start=1)
        ]
        empty = ListRow("0", (ListCell("0", theme.HEAD, 2), ListCell(_EMPTY), ListCell("", width=18)))
        begins = self._here is not None and is_without_circuits(self._here)
        self.query_one(PickList).show([empty, *rows], at="" if self.query_one(PickList).at else "1" if begins else "0")
