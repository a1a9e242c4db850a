"""What a page of boxes and a schedule share: one box under the cursor, and the typing into it."""

from collections.abc import Collection
from typing import Protocol

from textual import events
from textual.widget import Widget

from domain.log.half_typed import HalfTyped
from domain.place import Place
from tui.widgets.box_view import BoxView
from tui.widgets.open_entry import OpenEntry


class Host(Protocol):
    """The screen that the boxes stand on."""

    def may_type(self) -> bool:
        """The job can still be changed; says why where it cannot."""
        ...

    def keep(self, place: Place, text: str) -> bool:
        """Save a text under a place, and show the job anew; False when it could not be saved."""
        ...

    @property
    def waits_for_log(self) -> bool:
        """What was to be kept last stays open because the log could not take it."""
        ...

    def say_yes(self, place: Place) -> bool:
        """Say yes to what is put forward in a box; False when that could not be saved."""
        ...

    def may_mark(self, view: BoxView, mark: str) -> bool:
        """The mark can stand in the box; says why where it cannot."""
        ...

    def describe(self, view: BoxView | None, entry: OpenEntry | None) -> None:
        """Say all there is to say of the box under the cursor and of what is being typed there."""
        ...


MARKS = ("set-na", "set-lim", "set-tick")
"""Ids of the keys that mark a box."""


class BoxEntry(Widget, can_focus=True):
    """Typing begins an entry on the box under the cursor; a move keeps it; Escape gives the old text back.

    Keys are answered one by one as they arrive, and not by way of the bindings: those come round through the app
    after keys that are waiting already, and a line that stalls delivers many keys at once. The host is called,
    and sent no messages, for the same reason; and so all that a key changes goes out in one frame.
    """

    def __init__(self, host: Host) -> None:
        super().__init__()
        self._host = host
        self.entry: OpenEntry | None = None

    @property
    def current(self) -> BoxView | None:
        """The box under the cursor."""
        raise NotImplementedError

    @property
    def sideways(self) -> bool:
        """Left and Right move in the text being typed, not to the next box."""
        return True

    def entry_changed(self) -> None:
        """Show the entry, or the box at rest again."""
        raise NotImplementedError

    def commit(self) -> bool:
        """Keep what is being typed; False when it could not be saved and stays open."""
        entry = self.entry
        if entry is None:
            return True
        if (entry.is_changed or entry.view.is_put_forward) and not self._host.keep(entry.view.place, entry.text):
            if self._host.waits_for_log:
                self.entry = entry.kept_open()
                self.entry_changed()
            return False
        self._set_entry(None)
        return True

    def go_on(self) -> None:
        """Go to the next box that is needed."""
        raise NotImplementedError

    def go_past(self, filled: Collection[Place]) -> None:
        """Go on to the first box that is not one of these, or to the end."""
        before = None
        while (here := self.current and self.current.place) in filled and here != before:
            before = here
            self.go_on()

    def settle(self) -> bool:
        """Keep what is being typed before moving on; False where something about it calls the person back."""
        was_open = self.entry is not None
        if not self.commit():
            return False
        view = self.current
        return not (was_open and view and view.typed and view.is_wrong)

    def takes_put_forward(self) -> bool:
        """Say yes to what is put forward in the box at rest; False where nothing is."""
        view = self.current
        if self.entry is not None or view is None or not view.is_put_forward or not self._host.may_type():
            return False
        return self._host.say_yes(view.place)

    def open(self, typed: str | None = None) -> None:
        """Begin an entry on the text that stands in the box, or over it with what was typed."""
        view = self.current
        if view is not None and self._host.may_type():
            self._set_entry(OpenEntry.opened(view) if typed is None else OpenEntry.typed_over(view, typed))

    def put_forward(self, text: str) -> None:
        """Begin an entry on a text from elsewhere, for Enter to keep or typing to replace."""
        view = self.current
        if view is not None and self._host.may_type():
            self._set_entry(OpenEntry.put_forward(view, text))

    def take_up(self, left: HalfTyped) -> None:
        """Go on with an entry on the box under the cursor that was left open."""
        if self.current is not None:
            self._set_entry(OpenEntry.taken_up(self.current, left))

    def on_key(self, event: events.Key) -> None:
        """Take what is typed; all else goes on to the keys of the widget and of the screen."""
        if self._type(event):
            event.stop()
            event.prevent_default()

    def on_paste(self, event: events.Paste) -> None:
        """Pasted text is typed text, unless it is a column of texts."""
        event.stop()
        if not self.take_column(event.text):
            self._type_in(event.text)

    def take_column(self, text: str) -> bool:  # noqa: ARG002
        """Take pasted lines for boxes below one another; False where this is no table of boxes."""
        return False

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Escape is the screen's while nothing is being typed."""
        return self.entry is not None if action == "give_back" else super().check_action(action, parameters)

    def action_open(self) -> None:
        """Open the text under the cursor for changing."""
        if self.entry is None:
            self.open()

    def action_empty(self) -> None:
        """Begin an entry with nothing in it."""
        self.open("")

    def action_give_back(self) -> None:
        """Leave the box as it was; where an entry that could not be saved was typed over, as that stood first."""
        self._set_entry(self.entry.aside if self.entry else None)

    def action_set_mark(self, mark: str) -> None:
        """Mark the box and go on. What was being typed there is kept first, and can be had back by undo."""
        if self._host.may_type() and self.commit():
            view = self.current
            if (
                view
                and self._host.may_mark(view, mark)
                and ((view.typed == mark and not view.is_put_forward) or self._host.keep(view.place, mark))
            ):
                self.go_on()

    def _type(self, event: events.Key) -> bool:
        if event.character and event.is_printable:
            self._type_in(event.character)
            return True
        after = self.entry.after_key(event.key, sideways=self.sideways) if self.entry else None
        if after is not None:
            self._set_entry(after)
        return after is not None

    def _type_in(self, letters: str) -> None:
        if self.entry is not None:
            self._set_entry(self.entry.typed(letters))
        else:
            self.open(letters)

    def _set_entry(self, entry: OpenEntry | None) -> None:
        self.entry = entry
        self.entry_changed()
        self.tell()

    def tell(self) -> None:
        """Say where the cursor is and what is typed."""
        self._host.describe(self.current, self.entry)
