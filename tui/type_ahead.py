"""Keys in the order they were typed: none reaches a screen that is going, or one that is not there yet.

Over a slow line people type ahead. Textual hands a key to whatever has the focus when the key arrives, so
the keys behind one that changes the screen would go to the old screen and be lost. Here a key waits until
the one before it is done and the screen it led to is ready.
"""

import asyncio
import time
from collections.abc import Awaitable, Callable
from typing import Any

from textual.app import App
from textual.events import Event, Key, Paste
from textual.message_pump import MessagePump

RESTED_AFTER = 0.25
"""Seconds without a key after which the hands count as at rest."""
CHECK_EVERY = 0.02
"""Seconds between looks at a widget that may have gone without answering."""


class TypeAhead:
    """Hands keys to the app one at a time."""

    def __init__(self, app: App[Any], hand: Callable[[Event], Awaitable[None]]) -> None:
        """`hand` gives the app a key whose turn it is."""
        self._app = app
        self._hand = hand
        self._typed: asyncio.Queue[Event] = asyncio.Queue()
        self.is_working = False
        """A key is being worked through, or waits for its turn."""
        self._answered_at = -RESTED_AFTER
        self.handed = 0
        """How many keys have had their turn so far."""
        self._not_before = 0.0
        self._not_taken = ""
        self._told: Callable[[str], object] = lambda _: None

    @property
    def hands_rest(self) -> bool:
        """No key waits or is being worked through, and the last one is a while ago: another is not likely to follow at once."""
        return not self.is_working and time.monotonic() - self._answered_at >= RESTED_AFTER

    def takes(self, event: Event) -> bool:
        """Whether the event is a key or a paste fresh from the terminal; if so it is kept for its turn."""
        if isinstance(event, (Key, Paste)) and not event.is_forwarded:
            if event.time < self._not_before:
                self._leave_out(event)
                return True
            self.is_working = True
            self._typed.put_nowait(event)
            return True
        return False

    def begin_anew(self, told: Callable[[str], object]) -> None:
        """Take no key that was typed before now, not even one that is still on its way here; `told` hears what they typed.

        For where something came up that nobody could see when they typed them.
        """
        self._not_before, self._not_taken, self._told = time.monotonic(), "", told
        while not self._typed.empty():
            self._leave_out(self._typed.get_nowait())

    def _leave_out(self, event: Event) -> None:
        letters = event.text if isinstance(event, Paste) else getattr(event, "character", None) or ""
        typed = "".join(letter if letter.isprintable() else " " for letter in letters)
        self._not_taken = f"{self._not_taken}{typed}"
        if self._not_taken.strip():
            self._told(self._not_taken.strip())

    async def hand_on(self) -> None:
        """Hand key after key to the app, for as long as it runs."""
        while True:
            event = await self._typed.get()
            self.handed += 1
            await self._hand(event)
            await self._worked_through()
            self.is_working, self._answered_at = not self._typed.empty(), time.monotonic()

    async def _worked_through(self) -> None:
        """Return when the key, still waiting at the widget it was handed to, has gone its whole way."""
        app = self._app
        for node in (app.focused or app.screen).ancestors_with_self if app.is_running else ():
            await _has_worked(node)
        await _has_worked(app)
        screen = None
        while screen is not app.screen:
            screen = app.screen
            await _has_worked(screen)
            if app.focused:
                await _has_worked(app.focused)


async def _has_worked(node: MessagePump) -> None:
    """Return when everything that now waits for `node` has been worked through, or the node has gone."""
    worked = asyncio.get_running_loop().create_future()

    def note() -> None:
        if not worked.done():
            worked.set_result(None)

    node.call_later(note)
    while not worked.done() and node.is_running:
        await asyncio.wait([worked], timeout=CHECK_EVERY)
