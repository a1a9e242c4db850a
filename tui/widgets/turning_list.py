"""A list whose page keys turn a text beside it, so that the focus need never go there."""

from dataclasses import dataclass

from textual.message import Message

from tui.widgets.pick_list import PickList


class TurningList(PickList):
    """A short list over a long text; the arrows, Home and End reach every row."""

    @dataclass
    class PageTurned(Message):
        """Another page of the text is wanted: -1 upwards, 1 downwards."""

        way: int

    def action_page(self, by: int) -> None:
        """Turn the text instead."""
        self.post_message(self.PageTurned(by))
