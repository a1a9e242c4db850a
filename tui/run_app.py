"""Opens the terminal screens, and sees to it that a dropped line loses nothing and leaves nothing running."""

import asyncio
import os
import select
import signal
import sys
from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace
from threading import Thread
from typing import Any

from tui.app import OhmfolioApp
from tui.configuration import Configuration
from tui.keys import BY_ID
from tui.preload import load_ahead
from tui.router import screen_for
from tui.services import Services
from tui.setting_keys import GLYPHS
from tui.terminal.frugal_driver import FrugalDriver, driver_for

LINE_LOST = 128 + signal.SIGHUP
"""The exit code when the terminal went away, as a shell would report it."""
ENDED = 128 + signal.SIGTERM


def open_screens(
    services: Services, configured: Configuration, *, practises: bool = False, found: list[Any] | None = None
) -> int:
    """Run the screens until the person leaves or the line drops; the exit code. Long because what a lost line does shares the app.

    `found` are the attributes the terminal had, where something has been painted on it already.
    """
    if services.began_in:
        from tui.new_log import letters_asked

        services = replace(services, letters=letters_asked(services, configured))
    app = OhmfolioApp(
        services,
        screen_for,
        _driver(configured, found),
        practises=practises,
        once_shown=lambda: load_ahead(services.log, services.who, lambda: app.hands_rest),
    )

    def line_lost() -> None:
        # With the terminal gone there is nothing to restore, and waiting for it would keep the program running.
        try:
            app.hold_open_entry()
            services.half_typed.close()
            services.log.close()
        finally:
            os._exit(LINE_LOST)

    def ended() -> None:
        try:
            app.hold_open_entry()
        finally:
            app.exit(return_code=ENDED)

    async def run() -> None:
        loop = asyncio.get_running_loop()
        loop.add_signal_handler(signal.SIGHUP, line_lost)
        loop.add_signal_handler(signal.SIGTERM, ended)
        Thread(target=_watch, args=(lambda: loop.call_soon_threadsafe(line_lost),), daemon=True).start()
        await app.run_async(mouse=False)

    try:
        asyncio.run(run())
    finally:
        services.half_typed.close()
        services.log.close()
    return app.return_code or 0


def _driver(configured: Configuration, found: list[Any] | None) -> type[FrugalDriver] | None:
    """The frugal driver, or None for the one the framework brings."""
    if configured.is_stock:
        return None
    return driver_for(os.environ, configured[GLYPHS].value, found, repaints=BY_ID["repaint"].keys)


def _watch(line_lost: Callable[[], object]) -> None:
    """Wait for the terminal to hang up: the signal for it may be ignored, or sent to somebody else."""
    line = select.poll()
    line.register(sys.__stdin__.fileno() if sys.__stdin__ else 0, 0)
    if any(event & (select.POLLHUP | select.POLLERR) for _, event in line.poll()):
        # The loop is closed where these screens have ended and others begun; theirs hears of it too.
        with suppress(RuntimeError):
            line_lost()
